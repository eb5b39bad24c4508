/** Every way the program writes a file: how it is asked to, and how what stands there is judged then. */
import { readFileSync } from 'node:fs';
import { readBook } from '../../src/book/book.ts';
import type { FileKind } from '../../src/cli/disk/ours.ts';

export interface Writer {
  name: string;
  /** The name of the file. */
  file: string;
  /** What it says of itself: nothing else is overwritten. */
  kind: FileKind;
  /** What is typed, the file written being `path`; `turn` makes each time's content its own. */
  words(path: string, turn: number): string[];
  /** What a whole file looks like; an unfinished one is none. */
  whole(bytes: Buffer): boolean;
}

const CELL = 'scenarios/one-step.json';
const STAIRS = 'tests/shops/stair-parts.json';
const page = (bytes: Buffer): boolean =>
  bytes.toString().startsWith('<!doctype html>') && bytes.toString().endsWith('</html>\n');
const scenario = (bytes: Buffer): boolean => {
  try {
    return 'steps' in (JSON.parse(bytes.toString()) as object);
  } catch {
    return false;
  }
};
const lines = (bytes: Buffer): boolean => bytes.length > 50 && bytes.toString().endsWith('\r\n');
const columns = (bytes: Buffer): boolean =>
  bytes.length > 8 && [bytes.subarray(0, 4), bytes.subarray(-4)].every((part) => part.toString() === 'PAR1');

const crew = (flag: string, path: string, turn: number): string[] => [
  ...['crew', CELL, '--count', '30', '--search', '100', '--no-absences', '--threads', '1'],
  ...['--day', dayOf(turn), flag, path],
];
const compare = (flag: string, path: string, turn: number): string[] => [
  ...['compare', CELL, '--overtime', '15', '--count', '2', '--threads', '1'],
  ...['--seed', `turn ${turn}`, flag, path],
];
const record = (path: string, turn: number, form: string): string[] => [
  ...['record', STAIRS, '--replication', String(turn), '--form', form, '--save', path],
];

/** Writers that put a new content in the place of the old. */
export const REPLACING: Writer[] = [
  {
    name: 'record --save',
    file: 'events.csv',
    kind: 'events',
    words: (path, turn) => record(path, turn, 'csv'),
    whole: (bytes) => lines(bytes) && /\r\n\d+,[\d:.]+,shift ends,.*\r\n$/.test(bytes.toString()),
  },
  {
    name: 'record --form xes',
    file: 'events.xes',
    kind: 'events as XES',
    words: (path, turn) => record(path, turn, 'xes'),
    whole: (bytes) => bytes.toString().trimEnd().endsWith('</log>'),
  },
  {
    name: 'record --form parquet',
    file: 'events.parquet',
    kind: 'events in columns',
    words: (path, turn) => record(path, turn, 'parquet'),
    whole: columns,
  },
  {
    name: 'rows --save',
    file: 'part.parquet',
    kind: 'rows',
    words: (path, turn) => [
      ...['rows', 'run', CELL, '--no-why', '--threads', '1', '--from', String(turn), '--count', '4'],
      ...['--save', path],
    ],
    whole: columns,
  },
  {
    name: 'times --apply',
    file: 'fitted.json',
    kind: 'scenario',
    words: (path, turn) => [
      ...['times', 'scenarios/chair-works-times-invented.csv', '--seed', `turn ${turn}`],
      ...['--even-out', turn % 2 === 0 ? 'factors' : 'none', '--apply', path],
    ],
    whole: scenario,
  },
  {
    name: 'now --tomorrow',
    file: 'tomorrow.json',
    kind: 'scenario',
    words: (path, turn) => [
      ...['now', CELL, '--at', turn % 2 === 0 ? '09:00' : '09:10', '--seed', `turn ${turn}`],
      ...['--handover', '--tomorrow', path],
    ],
    whole: scenario,
  },
  {
    name: 'brief --save',
    file: 'brief.html',
    kind: 'page',
    words: (path, turn) => [
      ...['brief', CELL, '--limits', '--count', '4', '--threads', '1', '--title', `Turn ${turn}`],
      ...['--format', 'html', '--save', path],
    ],
    whole: page,
  },
  {
    name: 'handover --save',
    file: 'handover.html',
    kind: 'page',
    words: (path, turn) => [
      ...['handover', CELL, '--at', '14:00', '--good', '3', '--no-keep', '--note', `turn ${turn}`],
      ...['--save', path],
    ],
    whole: page,
  },
  {
    name: 'crew --wall',
    file: 'wall.html',
    kind: 'page',
    words: (path, turn) => crew('--wall', path, turn),
    whole: page,
  },
  {
    name: 'crew --sheet',
    file: 'sheet.csv',
    kind: 'sheet',
    words: (path, turn) => crew('--sheet', path, turn),
    whole: lines,
  },
  {
    name: 'crew --calendar',
    file: 'crew.ics',
    kind: 'calendar',
    words: (path, turn) => crew('--calendar', path, turn),
    whole: (bytes) => bytes.toString().endsWith('END:VCALENDAR\r\n'),
  },
  {
    name: 'compare --picture',
    file: 'choices.svg',
    kind: 'picture',
    words: (path, turn) => compare('--picture', path, turn),
    whole: (bytes) => bytes.toString().trimEnd().endsWith('</svg>'),
  },
  {
    name: 'compare --table',
    file: 'choices.csv',
    kind: 'figures',
    words: (path, turn) => compare('--table', path, turn),
    whole: lines,
  },
];

/** The day that a turn says something of. */
export const dayOf = (turn: number): string =>
  new Date(Date.UTC(2027, 0, 1) + turn * 86_400_000).toISOString().slice(0, 10);

/** `log add`: a result and a note of a day of its own. */
export const addition = (path: string, turn: number): string[] => [
  ...['log', 'add', CELL, '--date', dayOf(turn), '--good', String(turn % 100)],
  ...['--note', `turn ${turn}`, '--log', path],
];

/** The other commands that put something into the book, of a day of its own each. */
export const ADDING: { name: string; kind: string; words(path: string, turn: number): string[] }[] = [
  {
    name: 'result',
    kind: 'result',
    words: (path, turn) => ['result', CELL, '--day', dayOf(turn), '--good', '4', '--log', path],
  },
  {
    name: 'handover',
    kind: 'handover',
    words: (path, turn) => [
      ...['handover', CELL, '--day', dayOf(turn), '--at', '14:00', '--good', '3', '--log', path],
    ],
  },
  {
    name: 'now --keep',
    kind: 'count',
    words: (path, turn) => [
      ...['now', CELL, '--day', dayOf(turn), '--at', '09:00', '--good', '1', '--threads', '1', '--keep'],
      ...['--log', path],
    ],
  },
  {
    name: 'crew --keep',
    kind: 'plan',
    words: (path, turn) => [
      ...['crew', CELL, '--count', '30', '--search', '100', '--no-absences', '--threads', '1'],
      ...['--day', dayOf(turn), '--keep', '--log', path],
    ],
  },
];

/** The days with an entry of a kind in a log, and what could not be read. */
export function daysIn(path: string, kind = 'result'): { days: Set<string>; unread: number; tail: boolean } {
  const { entries, unread, tail } = readBook(readFileSync(path));
  return {
    days: new Set(entries.flatMap((one) => (one.kind === kind && 'day' in one ? [one.day] : []))),
    unread: unread.length,
    tail: tail !== null,
  };
}

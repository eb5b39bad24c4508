/** Every way the program writes a file: how it is asked to, and how what stands there is judged then. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBook } from '../../src/book/book.ts';
import { readScenario } from '../../src/scenario/check.ts';

export interface Writer {
  name: string;
  /** The name of the file. */
  file: string;
  /** What is typed, the file written being `path`; `turn` makes each time's content its own. */
  words(path: string, turn: number): string[];
  /** What a whole file looks like; an unfinished one is none. */
  whole(text: string): boolean;
}

const CELL = 'scenarios/one-step.json';
const scenario = (text: string): boolean => readScenario(text).kind === 'fine';

/** Writers that put a new content in the place of the old. */
export const REPLACING: Writer[] = [
  {
    name: 'record --save',
    file: 'events.csv',
    words: (path, turn) => ['record', '--replication', String(turn), '--save', path],
    whole: (text) =>
      text.startsWith('day,time,event') &&
      text.endsWith('\r\n') &&
      /\r\n\d+,[\d:.]+,shift ends,.*\r\n$/.test(text),
  },
  {
    name: 'times --apply',
    file: 'fitted.json',
    words: (path, turn) => [
      'times',
      'scenarios/chair-works-times-invented.csv',
      '--seed',
      `turn ${turn}`,
      '--apply',
      path,
    ],
    whole: scenario,
  },
  {
    name: 'now --tomorrow',
    file: 'tomorrow.json',
    words: (path, turn) => [
      'now',
      CELL,
      '--at',
      '09:00',
      '--seed',
      `turn ${turn}`,
      '--handover',
      '--tomorrow',
      path,
    ],
    whole: scenario,
  },
  {
    name: 'brief --save',
    file: 'brief.html',
    words: (path, turn) => [
      'brief',
      CELL,
      '--limits',
      '--count',
      '4',
      '--threads',
      '1',
      '--title',
      `Turn ${turn}`,
      '--format',
      'html',
      '--save',
      path,
    ],
    whole: (text) => text.startsWith('<!doctype html>') && text.endsWith('</html>\n'),
  },
];

/** The day that a turn says something of. */
export const dayOf = (turn: number): string =>
  new Date(Date.UTC(2027, 0, 1) + turn * 86_400_000).toISOString().slice(0, 10);

/** `log add`: a result and a note of a day of its own. */
export const addition = (path: string, turn: number): string[] => [
  'log',
  'add',
  CELL,
  '--date',
  dayOf(turn),
  '--good',
  String(turn % 100),
  '--note',
  `turn ${turn}`,
  '--log',
  path,
];

/** The days with a result in a log, and what could not be read. */
export function daysIn(path: string): { days: Set<string>; unread: number; tail: boolean } {
  const { entries, unread, tail } = readBook(readFileSync(path));
  return {
    days: new Set(entries.filter((one) => one.kind === 'result').map((one) => one.day)),
    unread: unread.length,
    tail: tail !== null,
  };
}

export const inFolder = (folder: string, { file }: Writer): string => join(folder, file);

/** A count of the cell as it is typed: in words, as JSON, off a record of events, or the one kept last. */
import { Option, type Command } from 'commander';
import type { Content } from '../book/kinds.ts';
import { minutesAfter } from '../scenario/clock.ts';
import { MOST_TEXT, readText as parseText } from '../scenario/reading/read-text.ts';
import { resolve } from '../scenario/resolve.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';
import { readEvents } from '../timing/events-csv.ts';
import { countKept } from '../today/kept-counts.ts';
import { stateAt, type NowState } from '../today/state.ts';
import type { EventRow } from '../record/event-row.ts';
import { clockNow } from './clock.ts';
import { readText } from './disk/read-file.ts';
import { say } from './print.ts';
import { collect, wholeFrom } from './settings.ts';
import { leavePartial } from './surroundings.ts';
import { commandWrong, SCENARIO_WRONG, Trouble } from './trouble.ts';

export interface CountWords {
  at?: string;
  state?: string;
  events?: string;
  good?: number;
  waiting?: string[];
  curing?: string[];
  inHand?: string[];
  out?: string[];
  onRack?: number;
}

const MOST_EVENTS = 200 * 1024 * 1024;

/** Adds what a command that is told a count understands. */
export function addCountWords(command: Command): Command {
  return command
    .addOption(new Option('--at <HH:MM>', 'the time of the count (default: the clock on the wall)'))
    .addOption(
      new Option(
        '--state <file>',
        'the whole count as JSON: at, goodByHour, inside (as carryOver of a scenario), holds, out, broken',
      ),
    )
    .addOption(
      new Option('--events <file>', 'a record of events of the shift so far (CSV) to count from, up to --at'),
    )
    .addOption(new Option('--good <units>', 'good units so far').argParser(wholeFrom(0, 100_000)))
    .addOption(
      new Option('--waiting <step=units>', 'pieces that wait before a step: fit=3,clean=2').argParser(
        collect,
      ),
    )
    .addOption(
      new Option(
        '--in-hand <step=person@minutes>',
        'pieces in hand, whose, and the minutes they have had: fit=orla@6',
      ).argParser(collect),
    )
    .addOption(
      new Option(
        '--curing <minutes>',
        'a cure under way each, with its minutes left: 12,25 (or cure=12 where there are several waits)',
      ).argParser(collect),
    )
    .addOption(
      new Option('--on-rack <units>', 'finished pieces on the out-rack that is being filled').argParser(
        wholeFrom(0, 10_000),
      ),
    )
    .addOption(new Option('--out <ids>', 'who is not here, with commas between').argParser(collect));
}

/** Events of the record named, or null. */
export async function recordTold(words: CountWords, scenario: Scenario): Promise<EventRow[] | null> {
  if (words.events === undefined) return null;
  const text = await readText(words.events, MOST_EVENTS, 'a record of events');
  const read = readEvents(text, resolve(scenario).start);
  for (const row of read.unread.slice(0, 10)) say(`Row ${row.row} of the events was not read: ${row.why}`);
  if (read.unread.length > 10) say(`${read.unread.length - 10} more rows were not read.`);
  if (read.unread.length > 0) leavePartial();
  return read.events;
}

const toldByHand = ({ good, waiting, curing, inHand }: CountWords): boolean =>
  [good, waiting, curing, inHand].some((one) => one !== undefined);

/**
 * What was told of the cell; with no word of it the count kept last. `told` is true where it is a new one.
 */
export async function countTold(
  scenario: Scenario,
  words: CountWords,
  events: EventRow[] | null,
  kept: Content<'count'> | null,
): Promise<{ count: unknown; told: boolean }> {
  if (words.state !== undefined) return { count: await stateOf(words.state), told: true };
  const at = words.at ?? clockNow();
  if (events !== null)
    return { count: stateAt(scenario, events, minutesAfter(resolve(scenario).start, at)), told: true };
  if (!toldByHand(words) && kept !== null) return { count: countKept(kept), told: false };
  if (!toldByHand(words) && words.at === undefined)
    throw commandWrong(
      'Say what is in the cell: --good 8 --waiting fit=3,sand=2 --curing 12 (or --state with the whole count in a file).',
    );
  const now: NowState = {
    at,
    goodByHour: [],
    good: words.good === undefined ? 0 : words.good,
    inside: insideOf(scenario, words),
    holds: scenario.holds === undefined ? [] : scenario.holds,
    out: words.out ?? [],
    broken: [],
    ...(words.onRack === undefined ? {} : { outRack: { standing: words.onRack, away: [] } }),
  };
  return { count: now, told: true };
}

async function stateOf(path: string): Promise<unknown> {
  const reading = parseText(await readText(path, MOST_TEXT, 'a count'));
  if (reading.kind === 'value') return reading.value;
  throw new Trouble(
    SCENARIO_WRONG,
    `${path} is no count of the cell.`,
    reading.faults.map((fault) => fault.text),
    reading.faults,
  );
}

function insideOf(scenario: Scenario, words: CountWords): CarryOver[] {
  const waits = Object.entries(scenario.steps)
    .filter(([, step]) => step.kind === 'wait')
    .map(([id]) => id);
  const curing = (words.curing ?? []).map((one): CarryOver => {
    const [step, minutes] = one.includes('=') ? one.split('=') : [waits[0], one];
    return { at: step ?? '', state: 'curing', minutes: figure(minutes, '--curing', one) };
  });
  const inHand = (words.inHand ?? []).map((one): CarryOver => {
    const [step = '', rest = ''] = one.split('=');
    const [person = '', minutes = '0'] = rest.split('@');
    return { at: step, state: 'in hand', person, minutes: figure(minutes, '--in-hand', one) };
  });
  const waiting = (words.waiting ?? []).flatMap((one): CarryOver[] => {
    const [step = '', units = '1'] = one.split('=');
    const count = figure(units, '--waiting', one);
    return count > 0 ? [{ at: step, units: count }] : [];
  });
  return [...inHand, ...curing, ...waiting];
}

function figure(text: string | undefined, flag: string, all: string): number {
  const value = Number(text);
  if (text === undefined || text.trim() === '' || !Number.isFinite(value) || value < 0)
    throw commandWrong(`${flag} has no number in "${all}".`);
  return value;
}

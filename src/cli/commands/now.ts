import { Command, Option } from 'commander';
import { handoverPage } from '../../report/handover.ts';
import { nowPage } from '../../report/now-page.ts';
import { checkHandover, checkNow } from '../../today/check-now.ts';
import { forecastNow } from '../../today/forecast.ts';
import { possibleMoves, tryMoves } from '../../today/moves.ts';
import { stateAt, type NowState } from '../../today/state.ts';
import { readEvents } from '../../timing/events-csv.ts';
import { MOST_TEXT, readText as parseText } from '../../scenario/reading/read-text.ts';
import { minutesAfter } from '../../scenario/clock.ts';
import type { EventRow } from '../../record/event-row.ts';
import { resolve } from '../../scenario/resolve.ts';
import type { CarryOver, Scenario } from '../../scenario/schema.ts';
import { readText } from '../disk/read-file.ts';
import { replaceFile } from '../disk/replace-file.ts';
import { readInput, type Changes, type Input } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { running } from '../running.ts';
import {
  collect,
  fileArgument,
  forceOption,
  jsonOption,
  seedOption,
  timesKnownOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { commandWrong, Trouble, SCENARIO_WRONG } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends Changes {
  at?: string;
  state?: string;
  events?: string;
  good: number;
  waiting?: string[];
  curing?: string[];
  inHand?: string[];
  out?: string[];
  moves: boolean;
  handover?: true;
  tomorrow?: string;
  promised?: string;
  note: string;
  count: number;
  threads: number;
  force?: boolean;
  json?: boolean;
}

const MOST_EVENTS = 200 * 1024 * 1024;

/** During the shift: do we still make it, and what to move; at its end the handover. */
export function nowCommand(): Command {
  const command = new Command('now')
    .description(
      'it is 10:40 and this is in the cell: do we still make it, what should I move; at the end the handover',
    )
    .addArgument(fileArgument())
    .addOption(new Option('--at <HH:MM>', 'the time of the count'))
    .addOption(
      new Option(
        '--state <file>',
        'the whole count as JSON: at, goodByHour, inside (as carryOver of a scenario), holds, out, broken',
      ),
    )
    .addOption(
      new Option('--events <file>', 'a record of events of the shift so far (CSV) to count from, up to --at'),
    )
    .addOption(new Option('--good <units>', 'good units so far').argParser(wholeFrom(0, 100_000)).default(0))
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
    .addOption(new Option('--out <ids>', 'who is not here, with commas between').argParser(collect))
    .option('--no-moves', 'leave out what could be moved')
    .option('--handover', 'the handover page instead')
    .addOption(new Option('--promised <text>', 'for the handover: what was promised this morning'))
    .addOption(new Option('--note <text>', 'for the handover').default(''))
    .addOption(
      new Option(
        '--tomorrow <file>',
        "with the handover: write the scenario with tomorrow's opening stock (JSON)",
      ),
    )
    .addOption(
      new Option('-n, --count <shifts>', 'run so many rests of the shift')
        .argParser(wholeFrom(30, 1_000_000))
        .default(400),
    )
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(timesKnownOption())
    .addOption(threadsOption())
    .addOption(forceOption())
    .addOption(jsonOption());
  return addWhatIfs(command, { except: ['out'] }).action((file: string | undefined, words: Words) =>
    run(file, words),
  );
}

async function run(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const { scenario } = input;
  const events =
    words.events === undefined
      ? null
      : eventsOf(await readText(words.events, MOST_EVENTS, 'a record of events'), scenario);
  const count = await countOf(scenario, words, events);
  if (words.handover === true || words.tomorrow !== undefined) {
    await handOver(input, words, count, events);
    return;
  }
  const { now, rest } = fine(checkNow(scenario, count));
  const { forecast, moves } = await running(words.threads, async ({ runner, signal }) => ({
    forecast: await forecastNow(scenario, now, runner, signal, words.count),
    moves: words.moves ? await tryMoves(rest, possibleMoves(rest, now), runner, signal) : null,
  }));
  if (words.json === true)
    printJson({ command: 'now', version: VERSION, file: input.file, seed: input.seed, forecast, moves });
  else printPage(nowPage({ scenario, forecast, moves }));
}

function fine(checked: ReturnType<typeof checkNow>): { now: NowState; rest: Scenario } {
  if (checked.kind === 'wrong')
    throw new Trouble(SCENARIO_WRONG, 'This count of the cell cannot be.', checked.faults);
  return checked;
}

/** The page of the handover; with `--tomorrow` the scenario that starts from it. */
async function handOver(
  { scenario, file }: Input,
  words: Words,
  count: unknown,
  events: EventRow[] | null,
): Promise<void> {
  const { now, rest } = fine(checkHandover(scenario, count));
  if (words.tomorrow !== undefined) {
    await replaceFile(words.tomorrow, `${JSON.stringify(rest, null, 2)}\n`, {
      kind: 'scenario',
      force: words.force === true,
    });
    say(`Wrote ${words.tomorrow}: the same cell with what stands in it now as its opening stock.`);
  }
  const page = handoverPage({ scenario, now, promised: words.promised ?? null, events, note: words.note });
  if (words.json === true) printJson({ command: 'now', version: VERSION, file, now, handover: page });
  else printPage(page);
}

function eventsOf(text: string, scenario: Scenario): EventRow[] {
  const read = readEvents(text, resolve(scenario).start);
  for (const row of read.unread.slice(0, 10)) say(`Row ${row.row} of the events was not read: ${row.why}`);
  return read.events;
}

async function countOf(scenario: Scenario, words: Words, events: EventRow[] | null): Promise<unknown> {
  if (words.state !== undefined) {
    const reading = parseText(await readText(words.state, MOST_TEXT, 'a count'));
    if (reading.kind === 'value') return reading.value;
    throw new Trouble(
      SCENARIO_WRONG,
      `${words.state} is no count of the cell.`,
      reading.faults.map((fault) => fault.text),
      reading.faults,
    );
  }
  if (words.at === undefined)
    throw commandWrong('Say the time of the count: --at 10:40 (or --state with the whole count in a file).');
  const { start } = resolve(scenario);
  if (events !== null) return stateAt(scenario, events, minutesAfter(start, words.at));
  const now: NowState = {
    at: words.at,
    goodByHour: [],
    good: words.good,
    inside: insideOf(scenario, words),
    holds: scenario.holds === undefined ? [] : scenario.holds,
    out: words.out ?? [],
    broken: [],
  };
  return now;
}

function insideOf(scenario: Scenario, words: Words): CarryOver[] {
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

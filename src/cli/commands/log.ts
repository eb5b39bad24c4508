import { Command, Option } from 'commander';
import { logPage, whyPage } from '../../report/log-page.ts';
import { dayOfEvents } from '../../today/day-of-events.ts';
import { whyMissed, type DayAsItWas } from '../../today/why-missed.ts';
import type { EventRow } from '../../record/event-row.ts';
import { resolve } from '../../scenario/resolve.ts';
import { comingLater } from '../../scenario/changing/inputs.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { comparison } from '../../study/from-scenario.ts';
import { runStudy } from '../../study/study.ts';
import { summarize } from '../../study/summary.ts';
import { driftsOf } from '../../timing/drift.ts';
import { timesOfEvents } from '../../timing/event-times.ts';
import { readEvents } from '../../timing/events-csv.ts';
import {
  contentsOfDay,
  coverageOfBook,
  logBookSchema,
  logOfBook,
  timesOfBook,
  type LogBook,
  type LogDay,
} from '../../timing/log-book.ts';
import { paceOfDay } from '../../timing/pace-of-day.ts';
import { bookOption, bookToAnswerFrom, sayInBook, tellKept, tellUnread, typedDay } from '../book-entries.ts';
import type { ToSay } from '../../book/next-entry.ts';
import { dayOfBook } from '../day-of-book.ts';
import { readBookFile } from '../disk/book-file.ts';
import { readText } from '../disk/read-file.ts';
import { holdCommand, undoCommand } from './log-undo.ts';
import { readInput, type Changes } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { running } from '../running.ts';
import {
  collect,
  fileArgument,
  jsonOption,
  optionOption,
  seedOption,
  timesKnownOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { leavePartial } from '../surroundings.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { importCommand } from './log-import.ts';
import { joinCommand } from './log-join.ts';
import { newTimesCommand } from './log-times.ts';

interface Words extends Changes {
  log: string;
  date: string;
  good?: number;
  target?: number;
  note?: string;
  events?: string;
  days: number;
  lateParts?: number;
  out?: string[];
  late?: string[];
  pace?: string[];
  count: number;
  threads: number;
  json?: boolean;
}

const MOST_UNITS = 1_000_000;
const MOST_EVENTS = 200 * 1024 * 1024;
const dateOption = (): Option =>
  new Option('--date <day>', 'the day, YYYY-MM-DD').argParser(typedDay).makeOptionMandatory();
const eventsOption = (): Option =>
  new Option('--events <file>', 'the record of events of the day (CSV, as record writes it)');

/** Was the forecast right? */
export function logCommand(): Command {
  return new Command('log')
    .description(
      'was the forecast right: forecasts kept beside what came, how often the ranges held, what drifted, why a day missed',
    )
    .addCommand(
      sub('show', 'forecast and fact side by side, and what the ranges were worth', show).addOption(
        new Option('--days <n>', 'tell drift from the times of so many last days')
          .argParser(wholeFrom(1, 10_000))
          .default(10),
      ),
    )
    .addCommand(
      sub('forecast', 'forecast a day and keep it in the log', forecast)
        .addOption(dateOption())
        .addOption(optionOption())
        .addOption(withOption())
        .addOption(seedOption())
        .addOption(timesKnownOption())
        .addOption(
          new Option('-n, --count <shifts>', 'shifts to run')
            .argParser(wholeFrom(30, 1_000_000))
            .default(1000),
        )
        .addOption(threadsOption()),
    )
    .addCommand(
      sub('add', 'what came: a number, or a record of events', add)
        .addOption(dateOption())
        .addOption(eventsOption())
        .addOption(
          new Option('--good <units>', 'good units (default: those of the record)').argParser(
            wholeFrom(0, MOST_UNITS),
          ),
        )
        .addOption(
          new Option('--target <units>', "how many were due (default: the file's)").argParser(
            wholeFrom(0, MOST_UNITS),
          ),
        )
        .addOption(new Option('--note <text>', 'what is to be remembered of the day')),
    )
    .addCommand(joinCommand())
    .addCommand(importCommand())
    .addCommand(newTimesCommand())
    .addCommand(
      sub(
        'why',
        'why a day missed: kits, people, times, rework, luck, by running the day with one after another as it was',
        why,
      )
        .addOption(dateOption())
        .addOption(eventsOption())
        .addOption(
          new Option('--good <units>', "good units (default: the log's)").argParser(wholeFrom(0, MOST_UNITS)),
        )
        .addOption(
          new Option('--late-parts <minutes>', 'all parts came so much later').argParser(wholeFrom(0, 1440)),
        )
        .addOption(new Option('--out <ids>', 'who was out, with commas between').argParser(collect))
        .addOption(new Option('--late <id=minutes>', 'who came late, and by how much').argParser(collect))
        .addOption(
          new Option('--pace <step=times>', 'how many times as long a step took: fit=1.2').argParser(collect),
        )
        .addOption(withOption())
        .addOption(seedOption())
        .addOption(timesKnownOption())
        .addOption(threadsOption()),
    )
    .addCommand(holdCommand())
    .addCommand(undoCommand());
}

function sub(
  name: string,
  words: string,
  action: (file: string | undefined, words: Words) => Promise<void>,
): Command {
  return new Command(name)
    .description(words)
    .addArgument(fileArgument())
    .addOption(bookOption())
    .addOption(jsonOption())
    .action(action);
}

async function show(file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file);
  const book = await readBookFile(words.log);
  const unread = tellUnread(book);
  const log = logOfBook(book.entries, scenario.name);
  const recent = timesOfBook(log, words.days);
  const drifts = recent.length === 0 ? [] : driftsOf(scenario, recent, { withAllowance: true });
  if (words.json === true)
    printJson({ command: 'log show', version: VERSION, log, unread, coverage: coverageOfBook(log), drifts });
  else printPage(logPage({ scenario, log, drifts }));
  if (unread.length > 0) leavePartial();
}

async function forecast(file: string | undefined, words: Words): Promise<void> {
  const { scenario: filed } = await readInput(file, words);
  // With the plan and the opening stock that the book has of the day; what cannot be read is told before the
  // shifts are run.
  const { scenario } = await dayOfBook(filed, words.log, words.date);
  const request = comparison({ ...scenario, nextShifts: [] }, []);
  const summary = await running(words.threads, async ({ runner, signal, onLook }) =>
    summarize(await runStudy({ ...request, count: words.count }, runner, onLook('forecast'), signal)),
  );
  const { spread, target } = summary.cases[0]!;
  const day: LogDay = {
    date: words.date,
    target: target?.units ?? null,
    forecast: {
      p10: spread.nineInTen,
      p50: spread.half,
      p90: spread.oneInTen,
      chance: target?.chance.estimate ?? null,
    },
  };
  await keep(words, () => day, filed);
}

async function add(file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file);
  const events = await eventsOf(words.events, scenario);
  if (events === null && words.good === undefined)
    throw commandWrong('Say how many were good: --good 19, or --events with the record of the day.');
  const said: LogDay = {
    date: words.date,
    good: words.good ?? dayOfEvents(scenario, events ?? []).good,
    ...(words.note === undefined ? {} : { note: words.note }),
    ...(events === null ? {} : { times: timesIn(events, words.date) }),
  };
  const due = (log: LogBook): number | null =>
    words.target ?? log.days.find((one) => one.date === words.date)?.target ?? scenario.shift?.target ?? null;
  await keep(words, (log) => ({ ...said, target: due(log) }), scenario);
}

function timesIn(events: EventRow[], date: string): NonNullable<LogDay['times']> {
  const { observations, unread } = timesOfEvents(events, date);
  for (const row of unread.slice(0, 5)) say(`Event ${row.row} gave no time: ${row.why}.`);
  return observations.map(({ step, product, person, minutes, repeat }) => ({
    step,
    product,
    person,
    minutes,
    repeat,
  }));
}

async function why(file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file, words);
  const events = await eventsOf(words.events, scenario);
  const log = logOfBook((await bookToAnswerFrom(words.log)).entries, scenario.name);
  const good = words.good ?? log.days.find((one) => one.date === words.date)?.good;
  const day = dayAsTold(scenario, words, events, good);
  const told = await running(words.threads, ({ runner, signal }) => whyMissed(scenario, day, runner, signal));
  if (words.json === true)
    printJson({ command: 'log why', version: VERSION, date: words.date, day, why: told });
  else printPage(whyPage({ scenario, date: words.date, why: told }));
}

/** From the record where there is one; what is said by hand goes before it. */
function dayAsTold(
  scenario: Scenario,
  words: Words,
  events: EventRow[] | null,
  good: number | undefined,
): DayAsItWas {
  const recorded =
    events === null
      ? null
      : { ...dayOfEvents(scenario, events), pace: paceOfDay(scenario, timesOfEvents(events).observations) };
  const number = good ?? recorded?.good;
  if (number === undefined)
    throw commandWrong(
      `The log has no number for ${words.date}. Say it with --good, or name the record with --events.`,
    );
  const day: DayAsItWas = { ...recorded, good: number };
  if (words.lateParts !== undefined) {
    day.intake = comingLater(scenario, words.lateParts).intake!;
  }
  if (words.out !== undefined) day.out = words.out.map((id) => known(scenario.people, id, '--out'));
  if (words.late !== undefined) day.late = figures(words.late, '--late', scenario.people);
  if (words.pace !== undefined) day.pace = figures(words.pace, '--pace', scenario.steps);
  return day;
}

function known(record: Record<string, unknown>, id: string, flag: string): string {
  if (!Object.hasOwn(record, id))
    throw commandWrong(`${flag}: there is no "${id}"; there are ${Object.keys(record).join(', ')}.`);
  return id;
}

function figures(given: string[], flag: string, record: Record<string, unknown>): Record<string, number> {
  return Object.fromEntries(
    given.map((one) => {
      const [id = '', text = ''] = one.split('=');
      const value = Number(text);
      if (text.trim() === '' || !(value > 0) || !Number.isFinite(value))
        throw commandWrong(
          `${flag} takes a name and a number over 0, such as ${flag} ${Object.keys(record)[0] ?? 'fit'}=20; found "${one}".`,
        );
      return [known(record, id, flag), value];
    }),
  );
}

async function eventsOf(path: string | undefined, scenario: Scenario): Promise<EventRow[] | null> {
  if (path === undefined) return null;
  const { events, unread } = readEvents(
    await readText(path, MOST_EVENTS, 'a record of events'),
    resolve(scenario).start,
  );
  for (const row of unread.slice(0, 10)) say(`Row ${row.row} of the events was not read: ${row.why}.`);
  if (unread.length > 10) say(`${unread.length - 10} more rows were not read.`);
  if (unread.length > 0) leavePartial();
  return events;
}

/** Checks, adds to the book, and says what was kept. */
async function keep(words: Words, dayOf: (log: LogBook) => LogDay, scenario: Scenario): Promise<void> {
  const cell = scenario.name;
  const { start } = resolve(scenario);
  const book = await sayInBook(words.log, cell, (found): ToSay[] => {
    const log = logOfBook(found.entries, cell);
    const day = dayOf(log);
    const checked = logBookSchema.safeParse({ ...log, days: [day] });
    if (!checked.success)
      throw commandWrong(
        `That cannot be kept: ${checked.error.issues.map((issue) => issue.message).join('; ')}.`,
      );
    return contentsOfDay(day, start).map((said) => ({ day: day.date, ...said }) as ToSay);
  });
  tellKept(book);
  const log = logOfBook(book.entries, cell);
  if (words.json === true)
    printJson({
      command: 'log',
      version: VERSION,
      day: log.days.find((one) => one.date === words.date),
      coverage: coverageOfBook(log),
    });
  else printPage(logPage({ scenario, log, drifts: [] }));
}

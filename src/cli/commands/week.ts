import { Command, Option } from 'commander';
import { recordOrders } from '../../record/order-record.ts';
import type { RunOrders } from '../../record/order-runs.ts';
import { weekPage } from '../../report/week-page.ts';
import { daysOfWeek, planWeek, WEEK } from '../../today/week.ts';
import { VERSION } from '../../report/version.ts';
import { bookOption, bookToAnswerFrom } from '../book-entries.ts';
import { today } from '../clock.ts';
import { typedDayOf } from '../day-of-book.ts';
import { mergePatch } from '../../scenario/merge-patch.ts';
import { checkScenario } from '../../scenario/check.ts';
import { ordersOf, type Order } from '../../scenario/calendar.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { readInput, type Changes } from '../input.ts';
import { commandWrong, scenarioWrong } from '../trouble.ts';
import { printJson, printPage } from '../print.ts';
import { running } from '../running.ts';
import {
  collect,
  fileArgument,
  cautionsOption,
  jsonOption,
  optionOption,
  seedOption,
  threadsOption,
  wholeFrom,
  withOption,
} from '../settings.ts';

interface Words extends Changes {
  from?: string;
  log: string;
  crew: boolean;
  count: number;
  search: number;
  rush?: string;
  order?: string[];
  threads: number;
  json?: boolean;
}

/** The week as a whole. */
export function weekCommand(): Command {
  return new Command('week')
    .description(
      'the week: each day’s crew and pieces, what stands over, overtime by person, orders and the chance of each, what a rush pushes back',
    )
    .addArgument(fileArgument())
    .addOption(
      new Option('--from <day>', 'the rest of the week from this day on (default: from today), YYYY-MM-DD'),
    )
    .addOption(bookOption())
    .option('--no-crew', 'days without a plan in the book keep the posts of the file')
    .addOption(
      new Option(
        '--rush <order>',
        'a rush order of the first day, first in every line, due by its end: [PRODUCT:]UNITS@TIME, such as bent:2@09:00',
      ),
    )
    .addOption(
      new Option(
        '--order <order>',
        'an order that comes on the first day: NAME:UNITS=DAY DUE, such as school:6=2027-03-09',
      ).argParser(collect),
    )
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(
      new Option('--count <weeks>', 'weeks to run').argParser(wholeFrom(30, 100_000)).default(WEEK.count),
    )
    .addOption(
      new Option('--search <shifts>', 'shifts the search for one crew may run')
        .argParser(wholeFrom(100, 1_000_000))
        .default(WEEK.search),
    )
    .addOption(threadsOption())
    .addOption(cautionsOption())
    .addOption(jsonOption())
    .action(week);
}

async function week(file: string | undefined, words: Words): Promise<void> {
  const { scenario: filed, file: shown } = await readInput(file, words);
  const book = await bookToAnswerFrom(words.log);
  const days = daysOfWeek(filed, typedDayOf(words.from ?? today()));
  const scenario = withOrders(filed, days[0]!, words);
  const { crew, count, search } = words;
  const answer = await running(words.threads, ({ runner, signal }) =>
    planWeek(scenario, book.entries, days, { runner, runOrders }, { crew, count, search }, signal),
  );
  if (words.json === true) printJson({ command: 'week', version: VERSION, file: shown, week: answer });
  else printPage(weekPage({ scenario, week: answer }));
}

/** Here and now: what takes long, the crews and the weeks themselves, has been run on threads by then. */
const runOrders: RunOrders = (shifts, orders, stretch) =>
  Promise.resolve(recordOrders(shifts, orders, stretch));

/** The file with the orders that were typed in its calendar. */
function withOrders(filed: Scenario, day: string, { rush, order = [] }: Words): Scenario {
  const typed = [
    ...(rush === undefined ? [] : [rushOf(rush, day)]),
    ...order.map((one) => orderOf(one, day)),
  ];
  if (typed.length === 0) return filed;
  const reading = checkScenario(mergePatch(filed, { calendar: { orders: [...ordersOf(filed), ...typed] } }));
  if (reading.kind === 'wrong') throw scenarioWrong('The week with these orders', reading.faults);
  return reading.scenario;
}

function rushOf(text: string, day: string): Order {
  const [, product, units, at] = /^(?:([^:@]+):)?(\d+)@(\d\d:\d\d)$/.exec(text) ?? [];
  if (units === undefined || at === undefined)
    throw commandWrong(`--rush takes [PRODUCT:]UNITS@TIME, such as bent:2@09:00; found ${text}.`);
  const made: Order = { name: 'rush', units: Number(units), day, at, due: day, rush: true };
  return product === undefined ? made : { ...made, product };
}

function orderOf(text: string, day: string): Order {
  const [, name, units, due] = /^([^:=]+):(\d+)=(.+)$/.exec(text) ?? [];
  if (name === undefined || due === undefined)
    throw commandWrong(`--order takes NAME:UNITS=DAY, such as school:6=2027-03-09; found ${text}.`);
  return { name, units: Number(units), day, due: typedDayOf(due) };
}

import { Command, InvalidArgumentError, Option } from 'commander';
import type { Content } from '../../book/kinds.ts';
import { logPage } from '../../report/log-page.ts';
import { dayWords } from '../../scenario/calendar.ts';
import { resolve } from '../../scenario/resolve.ts';
import { coverageOfBook, logOfBook } from '../../timing/log-book.ts';
import { VERSION } from '../../report/version.ts';
import { bookOption, sayInBook, tellKept } from '../book-entries.ts';
import { today } from '../clock.ts';
import { dayOfBook, typedDayOf } from '../day-of-book.ts';
import { readInput } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { collect, fileArgument, jsonOption, wholeFrom } from '../settings.ts';
import { commandWrong } from '../trouble.ts';

interface Words {
  day?: string;
  log: string;
  good: number;
  byHour?: number[];
  scrap?: string[];
  rework?: string[];
  overtime?: string[];
  note?: string;
  json?: boolean;
}

/** What came of a day: closes it. */
export function resultCommand(): Command {
  const list = (flags: string, what: string): Option => new Option(flags, what).argParser(collect);
  return new Command('result')
    .description('what came of a day, with scrap and rework by cause and overtime by person: closes it')
    .addArgument(fileArgument())
    .addOption(new Option('--day <date>', 'the day (default: today)'))
    .addOption(bookOption())
    .addOption(
      new Option('--good <units>', 'good units').argParser(wholeFrom(0, 1_000_000)).makeOptionMandatory(),
    )
    .addOption(
      new Option('--by-hour <units>', 'good units of each hour, with commas between').argParser(hours),
    )
    .addOption(list('--scrap <cause=pieces>', 'scrapped, by cause: split=1,glue=2'))
    .addOption(list('--rework <cause=pieces>', 'sent back, by cause: scratch=3'))
    .addOption(list('--overtime <id=minutes>', 'overtime by person: kofi=20'))
    .addOption(new Option('--note <text>', 'what is to be remembered of the day'))
    .addOption(jsonOption())
    .action(result);
}

function hours(text: string): number[] {
  const units = text.split(',').map((one) => (one.trim() === '' ? NaN : Number(one)));
  if (units.every((one) => Number.isInteger(one) && one >= 0) && units.length <= 48) return units;
  throw new InvalidArgumentError('It takes whole numbers with commas between, such as 0,2,3,3.');
}

async function result(file: string | undefined, words: Words): Promise<void> {
  const { scenario: filed } = await readInput(file);
  const opened = await dayOfBook(filed, words.log, typedDayOf(words.day ?? today()));
  const { day, scenario, view } = opened;
  const { byHour } = words;
  const sum = byHour?.reduce((all, one) => all + one, 0);
  if (sum !== undefined && sum !== words.good)
    throw commandWrong(`The hours add up to ${sum}, and --good says ${words.good}.`);
  const planned = view.plan?.content.target;
  const content: Content<'result'> = {
    good: words.good,
    target: planned === undefined ? resolve(scenario).target : planned,
    ...(byHour === undefined ? {} : { byHour }),
    ...counted('scrap', words.scrap),
    ...counted('rework', words.rework),
    ...counted('overtime', words.overtime, filed.people),
  };
  const { note } = words;
  const book = await sayInBook(words.log, filed.name, () => [
    { day, kind: 'result', content },
    ...(note === undefined ? [] : [{ day, kind: 'note' as const, content: { note } }]),
  ]);
  tellKept(book);
  if (!view.handover)
    say(`${dayWords(day)} has no handover: the next working day opens with the stock of the file.`);
  const log = logOfBook(book.entries, filed.name);
  if (words.json === true)
    printJson({ command: 'result', version: VERSION, day, result: content, coverage: coverageOfBook(log) });
  else printPage(logPage({ scenario: filed, log, drifts: [] }));
}

/** "scratch=3" as a count by cause; `known`: the names there are, where not everything goes. */
function counted<Name extends string>(
  name: Name,
  given: string[] | undefined,
  known?: Record<string, unknown>,
): Partial<Record<Name, Record<string, number>>> {
  if (given === undefined) return {};
  const entries = given.map((one): [string, number] => {
    const [key = '', text = ''] = one.split('=');
    const value = Number(text);
    if (key === '' || text.trim() === '' || !(value >= 0) || !Number.isFinite(value))
      throw commandWrong(
        `--${name} takes a name and a number, such as ${name === 'overtime' ? 'kofi=20' : 'scratch=3'}; found "${one}".`,
      );
    if (known !== undefined && !Object.hasOwn(known, key))
      throw commandWrong(`--${name}: nobody is called "${key}"; there are ${Object.keys(known).join(', ')}.`);
    return [key, value];
  });
  return { [name]: Object.fromEntries(entries) } as Partial<Record<Name, Record<string, number>>>;
}

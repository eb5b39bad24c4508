import { Command, Option } from 'commander';
import { weekPage } from '../../report/week-page.ts';
import { daysOfWeek, planWeek, WEEK } from '../../today/week.ts';
import { VERSION } from '../../report/version.ts';
import { bookOption, tellUnread } from '../book-entries.ts';
import { today } from '../clock.ts';
import { typedDayOf } from '../day-of-book.ts';
import { readBookFile } from '../disk/book-file.ts';
import { readInput, type Changes } from '../input.ts';
import { printJson, printPage } from '../print.ts';
import { running } from '../running.ts';
import {
  fileArgument,
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
    .addOption(jsonOption())
    .action(week);
}

async function week(file: string | undefined, words: Words): Promise<void> {
  const { scenario, file: shown } = await readInput(file, words);
  const book = await readBookFile(words.log);
  tellUnread(book);
  const days = daysOfWeek(scenario, typedDayOf(words.from ?? today()));
  const { crew, count, search } = words;
  const answer = await running(words.threads, ({ runner, signal }) =>
    planWeek(scenario, book.entries, days, runner, { crew, count, search }, signal),
  );
  if (words.json === true) printJson({ command: 'week', version: VERSION, file: shown, week: answer });
  else printPage(weekPage({ scenario, week: answer }));
}

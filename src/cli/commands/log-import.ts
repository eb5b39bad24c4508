import { Argument, Command } from 'commander';
import { dayOf } from '../../book/day.ts';
import { logPage } from '../../report/log-page.ts';
import { VERSION } from '../../report/version.ts';
import { newsOf, readDaysList } from '../../timing/days-list.ts';
import { coverageOfBook, logOfBook } from '../../timing/log-book.ts';
import { bookOption, sayInBook, tellKept } from '../book-entries.ts';
import { readText } from '../disk/read-file.ts';
import { readInput } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { fileArgument, jsonOption } from '../settings.ts';
import { leavePartial } from '../surroundings.ts';
import { commandWrong } from '../trouble.ts';

interface Words {
  log: string;
  json?: boolean;
}

const MOST_LIST = 20 * 1024 * 1024;

/** What came of many days at once. */
export function importCommand(): Command {
  return new Command('import')
    .description('what came of many days, from a list: day and good, if you like due, scrap, rework and note')
    .addArgument(new Argument('<list>', 'the list (CSV): a row a day'))
    .addArgument(fileArgument())
    .addOption(bookOption())
    .addOption(jsonOption())
    .action(run);
}

async function run(path: string, file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file);
  const { days, unread } = readDaysList(await readText(path, MOST_LIST, 'a list of days'));
  const said = unread.map(({ row, why }) => `Row ${row} was not read: ${why}.`);
  if (days.length === 0) throw commandWrong(`${path} gives no day. ${said[0] ?? 'It has no rows.'}`);
  said.slice(0, 10).forEach((sentence) => say(sentence));
  if (said.length > 10) say(`${said.length - 10} more rows were not read.`);
  let added = 0;
  const book = await sayInBook(words.log, scenario.name, (found) => {
    const news = newsOf(days, (day) => {
      const { result, notes } = dayOf(found.entries, day);
      return { result: result?.content ?? null, note: notes.at(-1)?.content.note ?? null };
    });
    added = news.length;
    return news;
  });
  tellKept(book);
  const log = logOfBook(book.entries, scenario.name);
  if (words.json === true)
    printJson({
      command: 'log import',
      version: VERSION,
      days: days.length,
      added,
      unread,
      coverage: coverageOfBook(log),
    });
  else printPage(logPage({ scenario, log, drifts: [] }));
  if (unread.length > 0) leavePartial();
}

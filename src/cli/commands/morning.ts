import { Command, Option } from 'commander';
import { morningLines, morningPage } from '../../report/morning-page.ts';
import { workedFrom } from '../../scenario/calendar.ts';
import { openedDay } from '../../today/opened-day.ts';
import { VERSION } from '../../report/version.ts';
import { bookOption, bookToAnswerFrom } from '../book-entries.ts';
import { today } from '../clock.ts';
import { typedDayOf } from '../day-of-book.ts';
import { readInput } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { fileArgument, jsonOption } from '../settings.ts';

interface Words {
  day?: string;
  log: string;
  json?: boolean;
}

/** The first look of a day. */
export function morningCommand(): Command {
  return new Command('morning')
    .description(
      'the day in six lines: the promise, who stands elsewhere, what to watch, what is due, last time, holds',
    )
    .addArgument(fileArgument())
    .addOption(new Option('--day <date>', 'the day (default: today, or the next working day)'))
    .addOption(bookOption())
    .addOption(jsonOption())
    .action(morning);
}

async function morning(file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file);
  const book = await bookToAnswerFrom(words.log);
  const day = typedDayOf(words.day ?? workedFrom(scenario, today()));
  const opened = openedDay(scenario, book.entries, day);
  opened.unused.forEach((sentence) => say(sentence));
  if (words.json === true)
    printJson({
      command: 'morning',
      version: VERSION,
      day,
      lines: morningLines(scenario, book.entries, opened),
    });
  else printPage(morningPage(scenario, book.entries, opened));
}

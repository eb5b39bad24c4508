import { Command, Option } from 'commander';
import { newTimesBlocks } from '../../report/new-times-blocks.ts';
import { VERSION } from '../../report/version.ts';
import { logOfBook, timesOfBook } from '../../timing/log-book.ts';
import { newTimes, studyNewTimes } from '../../timing/new-times.ts';
import { counted } from '../../words/words.ts';
import { bookOption } from '../book-entries.ts';
import { readBookFile } from '../disk/book-file.ts';
import { replaceFile } from '../disk/replace-file.ts';
import { readInput } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { running } from '../running.ts';
import { fileArgument, forceOption, jsonOption, threadsOption, wholeFrom } from '../settings.ts';

interface Words {
  log: string;
  days: number;
  apply?: string;
  count?: number;
  threads: number;
  force?: boolean;
  json?: boolean;
}

/** The times that have moved: what they are now, what that changes, and into the file with them. */
export function newTimesCommand(): Command {
  return new Command('new-times')
    .description('the times that have moved by the records of the last days, and what they change')
    .addArgument(fileArgument())
    .addOption(bookOption())
    .addOption(
      new Option('--days <n>', 'by the times of so many last days')
        .argParser(wholeFrom(1, 10_000))
        .default(10),
    )
    .addOption(new Option('--apply <file>', 'write the file with the new times (JSON)'))
    .addOption(new Option('-n, --count <shifts>', 'shifts to run').argParser(wholeFrom(30, 1_000_000)))
    .addOption(threadsOption())
    .addOption(forceOption())
    .addOption(jsonOption())
    .action(run);
}

async function run(file: string | undefined, words: Words): Promise<void> {
  const { scenario } = await readInput(file);
  const { entries } = await readBookFile(words.log);
  const made = newTimes(scenario, timesOfBook(logOfBook(entries, scenario.name), words.days));
  const study =
    made === null
      ? null
      : await running(words.threads, ({ runner, signal }) =>
          studyNewTimes(scenario, made, runner, signal, words.count),
        );
  if (made !== null && words.apply !== undefined) {
    const { force = false } = words;
    await replaceFile(words.apply, `${JSON.stringify(made.scenario, null, 2)}\n`, {
      kind: 'scenario',
      force,
    });
    say(`Wrote ${words.apply}: the file with ${counted(made.places.length, 'new time')}.`);
  }
  if (words.json === true)
    return printJson({ command: 'log new-times', version: VERSION, places: made?.places ?? [], study });
  const text =
    made === null
      ? 'No step’s times have surely moved'
      : `${counted(made.places.length, 'time')} to be renewed`;
  printPage({
    title: `New times: ${scenario.name}`,
    blocks: [
      { kind: 'heading', level: 1, text },
      ...(made === null ? [] : newTimesBlocks(scenario, made, study)),
    ],
  });
}

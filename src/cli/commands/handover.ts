import { Command, Option } from 'commander';
import { toHtml } from '../../document/document-html.ts';
import { handoverSaid, noteWithHolds, promisedWords } from '../../report/day-words.ts';
import { handoverPage } from '../../report/handover.ts';
import { dayWords, nextWorkingDay } from '../../scenario/calendar.ts';
import { checkHandover } from '../../today/check-now.ts';
import { VERSION } from '../../report/version.ts';
import { FACES } from '../typefaces.ts';
import { bookOption, sayInBook, tellKept } from '../book-entries.ts';
import { today } from '../clock.ts';
import { addCountWords, countTold, recordTold, type CountWords } from '../count-words.ts';
import { dayOfBook, typedDayOf } from '../day-of-book.ts';
import { mayReplace, replaceFile } from '../disk/replace-file.ts';
import { readInput } from '../input.ts';
import { printJson, printPage, say } from '../print.ts';
import { fileArgument, forceOption, jsonOption } from '../settings.ts';
import { SCENARIO_WRONG, Trouble } from '../trouble.ts';

interface Words extends CountWords {
  day?: string;
  log: string;
  keep: boolean;
  promised?: string;
  note: string;
  save?: string;
  force?: boolean;
  json?: boolean;
}

/** At the end of the shift: what stands where, for the next one. */
export function handoverCommand(): Command {
  const command = new Command('handover')
    .description(
      'at the end of a shift: what stands where, holds and whose, promised and made; it opens the next working day',
    )
    .addArgument(fileArgument());
  return addCountWords(command)
    .addOption(new Option('--day <date>', 'the day that hands over (default: today)'))
    .addOption(bookOption())
    .option('--no-keep', 'only show it: put nothing into the book')
    .addOption(new Option('--promised <text>', "what was promised (default: the plan's promise)"))
    .addOption(new Option('--note <text>', 'what the next shift is to know').default(''))
    .addOption(new Option('--save <file>', 'write the sheet to print, with lines to sign (HTML)'))
    .addOption(forceOption())
    .addOption(jsonOption())
    .action(handOver);
}

async function handOver(file: string | undefined, words: Words): Promise<void> {
  const { scenario: filed } = await readInput(file);
  await mayReplace(words.save, { kind: 'page', force: words.force === true });
  const opened = await dayOfBook(filed, words.log, typedDayOf(words.day ?? today()));
  const { scenario, view, day } = opened;
  const events = await recordTold(words, scenario);
  const { count } = await countTold(scenario, words, events, view.counts.at(-1)?.content ?? null);
  const checked = checkHandover(scenario, count);
  if (checked.kind === 'wrong')
    throw new Trouble(SCENARIO_WRONG, 'This count of the cell cannot be.', checked.faults);
  const { now } = checked;
  const promised = words.promised ?? promisedWords(opened);
  const told = {
    scenario,
    now,
    promised,
    events,
    note: noteWithHolds(opened, words.note),
    day: dayWords(day),
  };
  if (words.keep) {
    const content = handoverSaid(now, { promised, note: words.note });
    tellKept(await sayInBook(words.log, filed.name, () => [{ day, kind: 'handover', content }]));
    say(`${dayWords(nextWorkingDay(filed, day))} opens with it.`);
  }
  if (words.save !== undefined)
    await replaceFile(words.save, toHtml(handoverPage({ ...told, signed: true }), { faces: FACES }), {
      kind: 'page',
      force: words.force === true,
    });
  const page = handoverPage(told);
  if (words.json === true)
    printJson({ command: 'handover', version: VERSION, day, now, promised, handover: page });
  else printPage(page);
}

import type { FileHandle } from 'node:fs/promises';
import { Command, InvalidArgumentError, Option } from 'commander';
import { recordEvents } from '../../record/event-record.ts';
import { isDay } from '../../book/calendar-day.ts';
import type { EventRow } from '../../record/event-row.ts';
import { cautionsOnShort } from '../../scenario/cautions.ts';
import { shiftsOf } from '../../scenario/options.ts';
import { writeEvents } from '../../timing/events-csv.ts';
import { writeXes } from '../../timing/events-xes.ts';
import { writeEventColumns } from '../../shards/events.ts';
import { replaceFile, replaceFileBy } from '../disk/replace-file.ts';
import { writeAll } from '../disk/write-whole.ts';
import { readInput, type Changes, type Input } from '../input.ts';
import { cautionsOf, quoted } from '../../report/pages/foot.ts';
import { print, printJson, say } from '../print.ts';
import {
  fileArgument,
  forceOption,
  jsonOption,
  optionOption,
  seedOption,
  wholeFrom,
  withOption,
} from '../settings.ts';
import { endless } from '../running.ts';
import { commandWrong } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends Changes {
  replication: number;
  form: 'csv' | 'xes' | 'parquet';
  date: string;
  save?: string;
  force?: boolean;
  json?: boolean;
}

const LAST = 4_294_967_295;
/** A Monday, and plainly no day of anybody's. */
const NO_DAY = '2001-01-01';

/** Every event of one run, as comma-separated values. */
export function recordCommand(): Command {
  const command = new Command('record')
    .description('every event of one run of the shift, as comma-separated values, XES, Parquet or JSON')
    .addArgument(fileArgument())
    .addOption(
      new Option('--replication <number>', 'which run: the first is 0')
        .argParser(wholeFrom(0, LAST))
        .default(0),
    )
    .addOption(
      new Option(
        '--form <form>',
        'csv; xes (IEEE 1849: a trace a piece, for process mining); parquet (columns; needs --save)',
      )
        .choices(['csv', 'xes', 'parquet'])
        .default('csv'),
    )
    .addOption(
      new Option('--date <YYYY-MM-DD>', 'of xes: the day the shift is dated, since a run has none')
        .argParser(dateWord)
        .default(NO_DAY),
    )
    .addOption(new Option('--save <file>', 'write it there instead of to the terminal'))
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(forceOption())
    .addOption(jsonOption());
  return addWhatIfs(command).action((file: string | undefined, words: Words) => record(file, words));
}

async function record(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const shifts = shiftsOf(input.scenario);
  const events = endless(() => recordEvents(shifts, words.replication));
  if (words.json === true) {
    printJson({
      command: 'record',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      replication: words.replication,
      start: shifts[0]!.start,
      shifts: events,
      cautions: cautionsOf(input.scenario),
    });
    return;
  }
  await write(events.flat(), input, words);
  tell(input, words, events.flat().length);
}

async function write(events: EventRow[], input: Input, words: Words): Promise<void> {
  const { form, save, replication, date } = words;
  const { name } = input.scenario;
  const { start } = shiftsOf(input.scenario)[0]!;
  const force = words.force === true;
  if (form === 'parquet') {
    if (save === undefined) throw commandWrong('Parquet is no text for the terminal: say where with --save.');
    const about = { name, start, seed: input.seed, replication: String(replication), version: VERSION };
    const columns = (handle: FileHandle): Promise<void> =>
      writeEventColumns(events, about, (bytes) => writeAll(handle, bytes));
    return replaceFileBy(save, columns, { kind: 'events in columns', force });
  }
  const text =
    form === 'csv'
      ? writeEvents(events, start)
      : writeXes(events, { name, date, start, seed: input.seed, replication, version: VERSION });
  if (save === undefined) print(text);
  else await replaceFile(save, text, { kind: form === 'csv' ? 'events' : 'events as XES', force });
}

function dateWord(text: string): string {
  if (!isDay(text)) throw new InvalidArgumentError('It takes a day such as 2027-03-08.');
  return text;
}

/** Beside the list, never in it. */
function tell(input: Input, words: Words, count: number): void {
  const where = words.save === undefined ? '' : ` in ${words.save}`;
  say(
    `${count} events${where} of run ${words.replication} of ${input.file}, seed ${quoted(input.seed)}, clampwright ${VERSION}. One shift of many: it may have been a lucky or an unlucky one.`,
  );
  for (const { text } of cautionsOnShort(input.scenario, 'record')) say(text);
}

import { Command, Option } from 'commander';
import { recordEvents } from '../../record/event-record.ts';
import { cautionsOnShort } from '../../scenario/cautions.ts';
import { shiftsOf } from '../../scenario/options.ts';
import { writeEvents } from '../../timing/events-csv.ts';
import { replaceFile } from '../disk/replace-file.ts';
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
import { VERSION } from '../../report/version.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends Changes {
  replication: number;
  save?: string;
  force?: boolean;
  json?: boolean;
}

const LAST = 4_294_967_295;

/** Every event of one run, as comma-separated values. */
export function recordCommand(): Command {
  const command = new Command('record')
    .description('every event of one run of the shift, as comma-separated values (or JSON)')
    .addArgument(fileArgument())
    .addOption(
      new Option('--replication <number>', 'which run: the first is 0')
        .argParser(wholeFrom(0, LAST))
        .default(0),
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
  const text = writeEvents(events.flat(), shifts[0]!.start);
  if (words.save === undefined) print(text);
  else {
    await replaceFile(words.save, text, { kind: 'events', force: words.force === true });
  }
  tell(input, words, events.flat().length);
}

/** Beside the list, never in it. */
function tell(input: Input, words: Words, count: number): void {
  const where = words.save === undefined ? '' : ` in ${words.save}`;
  say(
    `${count} events${where} of run ${words.replication} of ${input.file}, seed ${quoted(input.seed)}, clampwright ${VERSION}. One shift of many: it may have been a lucky or an unlucky one.`,
  );
  for (const { text } of cautionsOnShort(input.scenario, 'record')) say(text);
}

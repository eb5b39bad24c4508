import { Command, Option } from 'commander';
import { VERSION } from '../../report/version.ts';
import { resolvePlant, type ResolvedShift } from '../../scenario/resolve.ts';
import { collecting } from '../../shards/collect.ts';
import { dayKey } from '../../shards/about.ts';
import { writeShard } from '../../shards/write-shard.ts';
import { writeAll } from '../disk/write-whole.ts';
import { mayReplace, replaceFileBy } from '../disk/replace-file.ts';
import { readBefore, readInput, type ReadBefore } from '../input.ts';
import { printJson, say } from '../print.ts';
import { running, type Run } from '../running.ts';
import { forceOption, wholeFrom, type StudyWords } from '../settings.ts';
import { SHARDED, type Sharded } from '../sharded.ts';
import { Trouble, PARTIAL } from '../trouble.ts';

interface Words extends StudyWords {
  from: number;
  count: number;
  save: string;
  force?: boolean;
}

/** Numbers of shifts are whole numbers of 32 bits in the columns. */
const MOST = 2_147_483_647;
/** So few shifts tell which cells a question plays. */
const TO_COLLECT = 4;

/** A shard of a study: its shifts from one number on, as rows in columns. */
export function rowsCommand(): Command {
  const command = new Command('rows').description(
    'some of the shifts of a question, as rows in a Parquet file: parts of a study that is too long for one machine; clampwright merge puts them together',
  );
  for (const [name, sharded] of Object.entries(SHARDED)) command.addCommand(rowsOf(name, sharded));
  return command;
}

/** Words of the questions that write files of the answer: a shard has none. */
const OF_ANSWERS = ['--picture', '--table', '--force', '--cautions'];

function rowsOf(name: string, sharded: Sharded): Command {
  const command = sharded.command();
  const options = command.options as Option[];
  options.splice(0, options.length, ...options.filter(({ long }) => !OF_ANSWERS.includes(long ?? '')));
  // How many shifts there are in all follows from the shards.
  const count = command.options.find(({ long }) => long === '--count')!;
  count.description = 'so many shifts of each choice';
  count.conflicts([]).argParser(wholeFrom(1, MOST)).makeOptionMandatory().default(undefined);
  return command
    .description(`shifts for: ${command.description()}`)
    .addOption(
      new Option('--from <number>', 'the first of them; that of the whole study is 0')
        .argParser(wholeFrom(0, MOST))
        .default(0),
    )
    .addOption(new Option('--save <file>', 'the Parquet file to write').makeOptionMandatory())
    .addOption(forceOption())
    .action((file: string | undefined, words: Words) => rows(name, sharded, file, words));
}

async function rows(name: string, sharded: Sharded, file: string | undefined, words: Words): Promise<void> {
  const { from, count, save, force, json, threads, ...asked } = words;
  const how = { kind: 'rows', force: force === true } as const;
  await mayReplace(save, how);
  const scenario = await readBefore(file);
  const input = await readInput(scenario, asked.seed === undefined ? {} : { seed: asked.seed });
  const seed = resolvePlant(input.scenario).seed;
  const days = await running(threads, async (run) => {
    const played = await daysOf(sharded, scenario, { ...asked, threads }, run);
    await replaceFileBy(
      save,
      (handle) =>
        writeShard(
          {
            question: { command: name, words: { ...asked }, scenario, seed },
            version: VERSION,
            days: played,
            from,
            count,
          },
          run.runner,
          (bytes) => writeAll(handle, bytes),
          (done, of) => run.onShifts('Rows', done, of),
          run.signal,
        ),
      how,
    ).catch((error: unknown) => {
      if (!run.signal.aborted) throw error;
      throw new Trouble(PARTIAL, 'Stopped by hand: nothing was written.');
    });
    return played.length;
  });
  if (json === true)
    printJson({
      command: 'rows',
      version: VERSION,
      question: name,
      file: input.file,
      seed,
      from,
      count,
      cells: days,
      saved: save,
    });
  else say(`${count} shifts from ${from} on of ${days} ${days === 1 ? 'cell' : 'cells'} in ${save}.`);
}

/** Every day the question plays, asked of a few shifts; what comes out of those is not told. */
async function daysOf(
  { question, perhaps }: Sharded,
  scenario: ReadBefore,
  words: StudyWords,
  run: Run,
): Promise<ResolvedShift[][]> {
  const few = { ...words, count: TO_COLLECT };
  const { days, runner } = collecting(run.runner);
  await (await question(scenario, few)).answer({ ...run, runner, onLook: () => () => undefined });
  for (const shifts of (await perhaps?.(scenario, few)) ?? []) {
    const key = dayKey(shifts);
    if (!days.has(key)) days.set(key, shifts);
  }
  return [...days.values()];
}

import { Argument, Command, Option } from 'commander';
import { VERSION } from '../../report/version.ts';
import { shardSet, ShardRunner } from '../../shards/merge.ts';
import { ShardWrong } from '../../shards/read-shard.ts';
import { pictureOption, tableOption, type ChoicesFiles } from '../choices-files.ts';
import { shardFile } from '../disk/shard-file.ts';
import { say } from '../print.ts';
import { running } from '../running.ts';
import { cautionsOption, forceOption, jsonOption, threadsOption, type StudyWords } from '../settings.ts';
import { listed } from '../../scenario/reading/fault.ts';
import { SHARDED } from '../sharded.ts';
import { commandWrong } from '../trouble.ts';

interface Words extends ChoicesFiles {
  json?: boolean;
  threads: number;
}

/** Shards put together: what one machine would have printed. */
export function mergeCommand(): Command {
  return new Command('merge')
    .description('shards of rows (clampwright rows) put together: what one machine would have printed')
    .addArgument(new Argument('<files...>', 'the Parquet files of the shards, in any order'))
    .addOption(ofShards('picture', pictureOption()))
    .addOption(ofShards('table', tableOption()))
    .addOption(forceOption())
    .addOption(threadsOption())
    .addOption(cautionsOption())
    .addOption(jsonOption())
    .action((files: string[], words: Words) => merge(files, words));
}

/** The questions that write files of their answer. */
const WRITTEN_BY: Record<'picture' | 'table', string[]> = {
  picture: ['compare'],
  table: ['compare', 'grid'],
};

const ofShards = (word: keyof typeof WRITTEN_BY, { flags, description }: Option): Option =>
  new Option(flags, `of shards of ${listed(WRITTEN_BY[word], 'or')}: ${description}`);

async function merge(files: string[], { json, threads, ...written }: Words): Promise<void> {
  const set = await shardSet(await inTurn(files)).catch(toldOf);
  const { question, version, count } = set;
  if (version !== VERSION)
    throw commandWrong(
      `These shards are of version ${version}, this is ${VERSION}: figures may differ between versions. Put them together with ${version}.`,
    );
  for (const [word, commands] of Object.entries(WRITTEN_BY))
    if (written[word as keyof typeof WRITTEN_BY] !== undefined && !commands.includes(question.command))
      throw commandWrong(
        `--${word} takes shards of ${listed(commands, 'or')}. These are of ${question.command}.`,
      );
  const words = {
    ...question.words,
    ...written,
    count,
    threads,
    ...(json === true && { json }),
  } as StudyWords;
  const asked = await SHARDED[question.command]!.question(question.scenario, words);
  let missing = 0;
  const print = await running(
    threads,
    async (run) => {
      const printed = await asked.answer(run);
      missing = (run.runner as ShardRunner).missing.size;
      return printed;
    },
    (runner) => new ShardRunner(set, runner),
  ).catch(toldOf);
  if (missing > 0) say(`${missing} of the cells asked about were in no shard, and were played here.`);
  print();
}

/** One after another: a thousand files are not looked at at once. */
async function inTurn(files: string[]): Promise<Awaited<ReturnType<typeof shardFile>>[]> {
  const found = [];
  for (const path of [...new Set(files)]) found.push(await shardFile(path));
  return found;
}

function toldOf(error: unknown): never {
  throw error instanceof ShardWrong ? commandWrong(error.message) : error;
}

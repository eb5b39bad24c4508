/** Shards in memory, and questions asked of them as the command line asks. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { vi } from 'vitest';
import type { ReadBefore } from '../../src/cli/input.ts';
import type { Run } from '../../src/cli/running.ts';
import { SHARDED } from '../../src/cli/sharded.ts';
import type { Runner } from '../../src/record/job.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { dayKey, type ShardQuestion } from '../../src/shards/about.ts';
import { collecting } from '../../src/shards/collect.ts';
import { shardSet, ShardRunner } from '../../src/shards/merge.ts';
import type { ShardFile } from '../../src/shards/read-shard.ts';
import { writeShard } from '../../src/shards/write-shard.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

export const VERSION = '0.0.0-test';

const root = new URL('../../', import.meta.url);

export const fileOf = (path: string): ReadBefore => ({
  shown: path,
  text: readFileSync(fileURLToPath(new URL(path, root)), 'utf8'),
  demo: false,
});

export interface Asked {
  command: string;
  file: string;
  words?: Record<string, unknown>;
}

const runOf = (runner: Runner): Run => ({
  runner,
  signal: new AbortController().signal,
  onLook: () => () => undefined,
  onShifts: () => undefined,
});

/** What the command prints for so many shifts, worked out by this runner. */
export async function printed(
  { command, file, words = {} }: Asked,
  count: number,
  runner: Runner,
): Promise<string> {
  const question = await SHARDED[command]!.question(fileOf(file), { ...words, count, threads: 1 });
  const print = await question.answer(runOf(runner));
  const out: string[] = [];
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out.push(String(text));
    return true;
  });
  try {
    print();
  } finally {
    write.mockRestore();
  }
  return out.join('');
}

export async function daysOf({ command, file, words = {} }: Asked): Promise<ResolvedShift[][]> {
  const { question, perhaps } = SHARDED[command]!;
  const few = { ...words, count: 4, threads: 1 };
  const { days, runner } = collecting(inLineRunner());
  await (await question(fileOf(file), few)).answer(runOf(runner));
  for (const shifts of (await perhaps?.(fileOf(file), few)) ?? []) days.set(dayKey(shifts), shifts);
  return [...days.values()];
}

export const questionOf = ({ command, file, words = {} }: Asked, seed = 'seed'): ShardQuestion => ({
  command,
  words,
  scenario: fileOf(file),
  seed,
});

/** Plays a shard into memory. */
export async function shardOf(
  question: ShardQuestion,
  days: ResolvedShift[][],
  from: number,
  count: number,
  version = VERSION,
): Promise<ShardFile> {
  const parts: Uint8Array[] = [];
  const sink = (bytes: Uint8Array): Promise<void> => {
    parts.push(bytes);
    return Promise.resolve();
  };
  await writeShard({ question, version, days, from, count }, inLineRunner(), sink);
  return inMemory(`shifts from ${from}`, Buffer.concat(parts));
}

export const inMemory = (name: string, bytes: Uint8Array): ShardFile => ({
  name,
  byteLength: bytes.length,
  read: (start, end) => Promise.resolve(Uint8Array.from(bytes.subarray(start, end)).buffer),
});

/** What the command prints of these shards, and how many cells had to be played after all. */
export async function merged(asked: Asked, files: ShardFile[]): Promise<{ text: string; missing: number }> {
  const set = await shardSet(files);
  const runner = new ShardRunner(set, inLineRunner());
  return { text: await printed(asked, set.count, runner), missing: runner.missing.size };
}

/** Shards put together print what one machine prints, to the byte. */
import { tableFromIPC } from 'apache-arrow';
import { readParquet } from 'parquet-wasm';
import { expect, test } from 'vitest';
import { runJob } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { shardSet } from '../../src/shards/merge.ts';
import type { ShardFile } from '../../src/shards/read-shard.ts';
import { columnsOfShift } from '../../src/shards/columns.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { daysOf, inMemory, merged, printed, questionOf, shardOf, type Asked } from './support.ts';

/** Where shards begin and end, in the order they are handed over. */
const CUTS: [from: number, count: number][] = [
  [5, 1],
  [0, 5],
  [6, 8],
];
const COUNT = 14;

test.each<[Asked, number]>([
  [{ command: 'run', file: 'scenarios/chair-works.json', words: { why: false, json: true } }, 1],
  [{ command: 'run', file: 'scenarios/door-works.json', words: { why: false, json: true } }, 1],
  [
    {
      command: 'compare',
      file: 'tests/shops/frame-works.json',
      words: { json: true, options: ['bigger-rack'] },
    },
    2,
  ],
  [{ command: 'compare', file: 'scenarios/cell-k.json', words: { why: true, timesKnown: true } }, 4],
  [{ command: 'one-more', file: 'scenarios/cell-k.json', words: { json: true } }, 4],
  [{ command: 'limits', file: 'tests/shops/frame-works.json', words: { timesKnown: true } }, 4],
  [
    {
      command: 'grid',
      file: 'scenarios/cell-k.json',
      words: { json: true, across: 'clamp=2..3', down: 'person:sand+bench=0..1' },
    },
    4,
  ],
])('Three shards of %o, in any order, print the same bytes as one machine', async (asked, least) => {
  const days = await daysOf(asked);
  expect(days.length).toBeGreaterThanOrEqual(least);
  const question = questionOf(asked);
  const files: ShardFile[] = [];
  for (const [from, count] of CUTS) files.push(await shardOf(question, days, from, count));
  const { text, missing } = await merged(asked, files);
  expect(text.length).toBeGreaterThan(500);
  expect(text).toBe(await printed(asked, COUNT, inLineRunner()));
  // Nothing was played again but runs with other inputs.
  expect(missing).toBe(0);
});

const K: Asked = { command: 'run', file: 'scenarios/cell-k.json', words: { why: false, json: true } };

test('Rows of later shifts, which lack the lines by the quarter hour, print the same bytes as well', async () => {
  const days = await daysOf(K);
  const files = [];
  for (const [from, count] of [
    [395, 65],
    [0, 395],
  ] as const)
    files.push(await shardOf(questionOf(K), days, from, count));
  expect((await merged(K, files)).text).toBe(await printed(K, 460, inLineRunner()));
});

test('What is not one study is refused, and said', async () => {
  const days = await daysOf(K);
  const question = questionOf(K);
  const [a, b] = [await shardOf(question, days, 0, 5), await shardOf(question, days, 5, 5)];
  const refused = (files: ShardFile[]): Promise<string> =>
    shardSet(files).then(
      () => 'not refused',
      (error: Error) => error.message,
    );
  expect(await refused([b, a])).toBe('not refused');
  expect(await refused([b])).toMatch(/Shifts 0 to 4 are missing/);
  expect(await refused([a, await shardOf(question, days, 7, 3)])).toMatch(/Shifts 5 to 6 are missing/);
  expect(await refused([a, b, await shardOf(question, days, 8, 3)])).toMatch(/Shifts 8 to 9 are in/);
  expect(await refused([a, await shardOf(question, days, 5, 5, '0.0.1')])).toMatch(/is of version 0.0.1/);
  const others: [typeof question, RegExp][] = [
    [{ ...question, seed: 'another' }, /the seeds are/],
    [{ ...question, command: 'limits' }, /“limits”/],
    [{ ...question, words: { ...question.words, gear: 'clamp' } }, /the words behind it differ/],
    [{ ...question, scenario: { ...question.scenario, text: '{}' } }, /their scenarios differ/],
  ];
  for (const [other, words] of others)
    expect(await refused([a, await shardOf(other, days, 5, 5)])).toMatch(words);
  expect(await refused([])).toMatch(/no shards/);
});

test('A shard that lost bytes, anywhere, is never taken for a whole one', async () => {
  const days = await daysOf(K);
  const whole = await shardOf(questionOf(K), days, 0, 20);
  const bytes = new Uint8Array(await whole.read(0, whole.byteLength));
  const answer = await printed(K, 20, inLineRunner());
  const told = (damaged: Uint8Array): Promise<string> =>
    merged(K, [inMemory('part.parquet', damaged)]).then(
      ({ text }) => text,
      (error: Error) => error.message,
    );
  expect(await told(bytes)).toBe(answer);
  for (const share of [0.1, 0.5, 0.9, 0.999])
    expect(await told(bytes.subarray(0, Math.floor(bytes.length * share)))).toMatch(/no shard|damaged/);
  for (const at of [10, 2000, 9000]) {
    const flipped = bytes.slice();
    flipped[at] = flipped[at]! ^ 4;
    expect(await told(flipped)).toMatch(/part.parquet is damaged: its shifts 0 to 19/);
  }
});

test('Another reader of Parquet (arrow-rs) finds every number of the rows', async () => {
  const days = await daysOf({ ...K, command: 'compare' });
  const shard = await shardOf(questionOf(K), days, 0, 12);
  const table = tableFromIPC(
    readParquet(new Uint8Array(await shard.read(0, shard.byteLength))).intoIPCStream(),
  );
  expect(table.numRows).toBe(12 * days.length);
  const number = (name: string, row: number): unknown => table.getChild(name)?.get(row);
  days.forEach((shifts, day) => {
    const { size } = layoutOfShift(shifts[0]!);
    const { rows } = runJob({ shifts, from: 0, count: 12 });
    for (let r = 0; r < 12; r++) {
      const at = day * 12 + r;
      expect([number('day', at), number('shift', at), number('replication', at)]).toEqual([day, 0, r]);
      columnsOfShift(shifts[0]!).forEach((name, place) =>
        expect(number(name, at), name).toBe(rows[0]![r * size + place]),
      );
    }
  });
});

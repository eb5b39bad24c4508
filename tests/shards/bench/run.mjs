/**
 * `npm run shards:bench`: what shards cost against one process, by processor time: the start of a shard,
 * writing and putting together, by the shift; from which size and on how many machines that pays; what a
 * thousand million shifts would take; the memory of a merge as the shifts grow. `-- --quick` for a short
 * look; with `-- --markdown` kept in tests/results/shards.md.
 */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { resultsOf } from '../../support/results.mjs';
import { clampwright, sizeOf } from './clampwright.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const quick = process.argv.includes('--quick');
const results = resultsOf({
  name: 'shards',
  title: 'Shards',
  command: 'npm run shards:bench -- --markdown',
  keep: process.argv.includes('--markdown') && !quick,
});
const { print } = results;
const folder = mkdtempSync(join(tmpdir(), 'clampwright-shards-bench-'));
const FEW = quick ? 500 : 1000;
/** Of each measurement; the quickest, which other work on the machine has disturbed least. */
const TURNS = quick ? 1 : 3;

/** What is asked, and how many shifts are played to tell a shift from the start. */
const QUESTIONS = [
  { name: 'cell K, run', file: 'scenarios/cell-k.json', words: ['run', '--no-why'], many: 41_000 },
  { name: 'cell K, compare', file: 'scenarios/cell-k.json', words: ['compare'], many: 21_000 },
  { name: 'chair works, run', file: 'scenarios/chair-works.json', words: ['run', '--no-why'], many: 21_000 },
  { name: 'stair parts, run', file: 'tests/shops/stair-parts.json', words: ['run', '--no-why'], many: 5000 },
];

const us = (seconds) => `${(seconds * 1e6).toFixed(0)} us`;
const seconds = (number) => `${number.toFixed(1)} s`;

/** Seconds of a process whatever it is asked, and of each shift more. */
function costOf(many, words) {
  const least = (count) =>
    Math.min(...Array.from({ length: TURNS }, () => clampwright(words(count), { cwd: folder }).cpu));
  const few = least(FEW);
  const each = (least(many) - few) / (many - FEW);
  return { start: Math.max(0, few - each * FEW), each };
}

function measure({ file, words: [command, ...rest], many }) {
  const most = quick ? 2000 : many;
  copyFileSync(join(root, file), join(folder, 'shop.json'));
  const asked = ['shop.json', ...rest, '--times-known', '--threads', '1'];
  const part = (count) => join(folder, `part-${count}.parquet`);
  const whole = (count) => [command, ...asked, '--count', `${count}`];
  const merged = (count) => ['merge', part(count), '--threads', '1'];
  const one = costOf(most, whole);
  const shard = costOf(most, (count) => ['rows', ...whole(count), '--save', part(count)]);
  const merge = costOf(most, merged);
  const [parts, process] = [merged(FEW), whole(FEW)].map((words) => clampwright(words, { cwd: folder }).out);
  if (parts !== process) throw new Error(`${command} of ${file}: other bytes`);
  return { one, shard, merge, bytes: (sizeOf(part(most)) - sizeOf(part(FEW))) / (most - FEW) };
}

/** So many machines, and shifts in all, from which on the answer is there sooner than from one process. */
function pays({ one, shard, merge }) {
  const spare = one.each - merge.each;
  if (spare <= 0) return 'never: to put a shift together takes longer than to play it';
  const machines = Math.ceil(shard.each / spare) + 1;
  const gain = spare - shard.each / machines;
  const shifts = (shard.start + merge.start - one.start) / gain;
  return `on ${machines} machines from ${Math.max(0, Math.ceil(shifts / 1000)).toLocaleString('en-US')},000 shifts`;
}

function tellQuestions(seen) {
  print('Processor time of whole processes on one thread, their starts apart; ranges of luck alone.\n');
  print('| | one process | a shard | putting together | bytes | sooner with shards |');
  print('| --- | --- | --- | --- | --- | --- |');
  for (const { name, cost } of seen) {
    const { one, shard, merge, bytes } = cost;
    const told = ({ start, each }) => `${seconds(start)} and ${us(each)} a shift`;
    print(
      `| ${name} | ${told(one)} | ${told(shard)} | ${told(merge)} | ${bytes.toFixed(0)} a shift | ${pays(cost)} |`,
    );
  }
}

/** On paper, from what was seen of cell K. */
function tellMany({ one, shard, merge, bytes }) {
  const hours = (each) => `${((each * 1e9) / 3600).toFixed(1)} processor hours`;
  print('\nA thousand million shifts of cell K, on paper from these figures:\n');
  print('| | |\n| --- | --- |');
  print(`| to play them in one process | ${hours(one.each)} |`);
  print(
    `| to play and write them in shards | ${hours(shard.each)}, ${((bytes * 1e9) / 1e12).toFixed(2)} TB |`,
  );
  print(`| to put them together, on one machine | ${hours(merge.each)} |`);
  const parts = 1e9 / 250_000;
  print(
    `| starts of ${parts.toLocaleString('en-US')} shards of 250,000 | ${hours((shard.start * parts) / 1e9)} |`,
  );
}

function tellMemory() {
  copyFileSync(join(root, 'scenarios/cell-k.json'), join(folder, 'shop.json'));
  const size = quick ? 1000 : 5000;
  const parts = [];
  print('\n| shifts put together | parts | memory at most |\n| --- | --- | --- |');
  for (const until of quick ? [1, 2] : [1, 2, 4, 8, 16]) {
    for (; parts.length < until; parts.push(join(folder, `memory-${parts.length}.parquet`))) {
      const words = ['rows', 'run', 'shop.json', '--no-why', '--times-known', '--threads', '1'];
      const from = ['--from', `${parts.length * size}`, '--count', `${size}`];
      clampwright([...words, ...from, '--save', join(folder, `memory-${parts.length}.parquet`)], {
        cwd: folder,
      });
    }
    const { peak } = clampwright(['merge', ...parts, '--threads', '1'], { cwd: folder });
    print(`| ${(until * size).toLocaleString('en-US')} | ${until} | ${(peak / 1e6).toFixed(0)} MB |`);
  }
}

try {
  print(
    `Load of the machine at the beginning: ${loadavg()[0].toFixed(1)} on ${availableParallelism()} cores.`,
  );
  const seen = QUESTIONS.map((question) => ({ ...question, cost: measure(question) }));
  tellQuestions(seen);
  tellMany(seen[0].cost);
  tellMemory();
  results.write();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

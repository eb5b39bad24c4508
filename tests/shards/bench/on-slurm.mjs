/**
 * `npm run shards:slurm`: shifts of cell K by the job array of the README, on a Slurm node started for it;
 * one task is killed on the way and its part played again; then the parts are put together, a few of them
 * against one process, all of them for the answer. `-- --shifts 200000 --part 50000` for fewer;
 * `--in FOLDER` keeps the parts there and plays only those that are missing; with `--markdown` kept in
 * tests/results/shards-slurm.md.
 */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { resultsOf } from '../../support/results.mjs';
import { noSlurm, startSlurmNode, until } from '../../support/slurm-node.mjs';
import { clampwright, PROGRAM, sizeOf } from './clampwright.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const { values: words } = parseArgs({
  options: {
    shifts: { type: 'string', default: '10000000' },
    part: { type: 'string', default: '250000' },
    in: { type: 'string' },
    markdown: { type: 'boolean', default: false },
  },
});
const [shifts, part] = [Number(words.shifts), Number(words.part)];
const tasks = Math.ceil(shifts / part);
const results = resultsOf({
  name: 'shards-slurm',
  title: 'Shards on a Slurm node',
  command: `npm run shards:slurm -- --shifts ${shifts} --part ${part} --markdown`,
  keep: words.markdown,
});
const { print } = results;

const folder = words.in ? resolve(words.in) : mkdtempSync(join(tmpdir(), 'clampwright-shards-'));
mkdirSync(folder, { recursive: true });
const partFile = (task) => join(folder, `part-${task * part}.parquet`);
const missing = () =>
  Array.from({ length: tasks }, (_, task) => task).filter((task) => !existsSync(partFile(task)));

/** The script of the README with these numbers and this program; it tells its processor time. */
function script() {
  const found = /```bash\n(#!\/bin\/bash\n#SBATCH[^`]*)```/.exec(
    readFileSync(join(root, 'README.md'), 'utf8'),
  );
  const own = found[1]
    .replaceAll('500', String(part))
    .replace(/--array=\S+ /, '')
    .replace('npx clampwright', `${process.execPath} ${PROGRAM}`);
  return `${own}status=$?\ntimes > times-$SLURM_ARRAY_TASK_ID.txt\nexit $status\n`;
}

/** Plays what is missing. @param {boolean} lose whether a task is killed while it runs. */
async function play(node, lose) {
  const left = missing();
  const call = (command, given) => node.call(command, given, { cwd: folder });
  const told = call('sbatch', [`--array=${left.join(',')}`, '--parsable', '-o', 'task-%a.log', 'shards.sh']);
  if (told.status !== 0) throw new Error(told.stderr);
  const job = told.stdout.trim();
  const running = () => call('squeue', ['-h', '-r', '-t', 'R', '-j', job, '-o', '%K']).stdout.trim();
  let lost = null;
  if (lose) {
    await until(() => running() !== '', 'the first task');
    lost = Number(running().split('\n')[0]);
    call('scancel', ['--signal=KILL', '--full', `${job}_${lost}`]);
  }
  await until(() => call('squeue', ['-h', '-j', job]).stdout.trim() === '', 'the end of the tasks', 86_400);
  return lost;
}

/** Plays what is missing, one task of it lost, and says so. */
async function playAll() {
  if (missing().length === 0) return 'All parts were there from before.';
  const node = await startSlurmNode(availableParallelism());
  try {
    const lost = await play(node, true);
    const left = missing();
    for (let rounds = 0; rounds < 3 && missing().length > 0; rounds++) await play(node, false);
    if (missing().length > 0) throw new Error(`still missing: ${missing().join(', ')}`);
    const its = left.length === 1 && left[0] === lost;
    return `Task ${lost} was killed while it ran: ${its ? 'its part alone was missing, and was played again' : `missing were ${left.join(', ') || 'none'}`}.`;
  } finally {
    await node.stop();
  }
}

/** Processor seconds of all tasks that came to their end, from what bash tells: 1m2.345s 0m1.500s. */
const secondsOfTasks = () =>
  Array.from({ length: tasks }, (_, task) => readFileSync(join(folder, `times-${task}.txt`), 'utf8'))
    .flatMap((line) => [...line.matchAll(/(\d+)m([\d.]+)s/g)])
    .reduce((sum, [, minutes, seconds]) => sum + Number(minutes) * 60 + Number(seconds), 0);

const merged = (many, threads = 1) =>
  clampwright(
    ['merge', ...Array.from({ length: many }, (_, task) => partFile(task)), '--threads', `${threads}`],
    {
      cwd: folder,
    },
  );
const thousands = (number) => number.toLocaleString('en-US');
const seconds = (number) => `${number.toFixed(1)} s`;
const megabytes = (number) => `${(number / 1e6).toFixed(0)} MB`;

async function main() {
  copyFileSync(join(root, 'scenarios/cell-k.json'), join(folder, 'shop.json'));
  writeFileSync(join(folder, 'shards.sh'), script());
  const load = loadavg()[0].toFixed(1);
  const whole = missing().length === tasks;
  const began = Date.now();
  print(`Load of the machine at the beginning: ${load} on ${availableParallelism()} cores.`);
  print(
    `${thousands(shifts)} shifts of cell K as a job array of ${tasks} tasks, ${thousands(part)} shifts each, as many at a time as there are cores. ${await playAll()}\n`,
  );
  const elapsed = (Date.now() - began) / 1000;
  const bytes = Array.from({ length: tasks }, (_, task) => sizeOf(partFile(task))).reduce(
    (sum, one) => sum + one,
    0,
  );
  const cost = secondsOfTasks();
  print('| | seen |\n| --- | --- |');
  if (whole) print(`| from the first task to the last | ${seconds(elapsed)} |`);
  print(
    `| processor time of the tasks | ${seconds(cost)}, ${((cost / shifts) * 1e6).toFixed(0)} us a shift |`,
  );
  print(`| all parts | ${megabytes(bytes)}, ${(bytes / shifts).toFixed(0)} bytes a shift |`);
  const few = Math.min(2, tasks);
  const one = clampwright(['run', 'shop.json', '--no-why', '--threads', '1', '--count', `${few * part}`], {
    cwd: folder,
  });
  const some = merged(few);
  const same = some.out === one.out;
  print(
    `| one process of ${thousands(few * part)} shifts | ${seconds(one.cpu)}, ${megabytes(one.peak)} at most |`,
  );
  print(
    `| its ${few} parts put together | ${same ? 'the same bytes' : 'OTHER BYTES'}; ${seconds(some.cpu)}, ${megabytes(some.peak)} at most |`,
  );
  const all = merged(tasks);
  print(
    `| all ${tasks} parts put together | ${seconds(all.cpu)}, ${((all.cpu / shifts) * 1e6).toFixed(0)} us a shift, ${megabytes(all.peak)} at most |`,
  );
  print(`\nWhat it printed:\n\n\`\`\`\n${all.out.trim()}\n\`\`\``);
  if (!same) process.exitCode = 1;
  results.write();
}

const why = noSlurm();
if (why !== null) {
  console.log(`Skipped: ${why}.`);
} else {
  try {
    await main();
  } finally {
    if (!words.in) rmSync(folder, { recursive: true, force: true });
  }
}

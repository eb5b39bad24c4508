/**
 * `npm run bench`: how fast a run is, as ratios in one go. Cell K, three clamp sets, all accounts, row and
 * pay in, against a C program of that cell alone and against the same cell on simpy, a general-purpose
 * process library in Python, turn about; then the command, the first shifts of a process, growth, memory and
 * threads. `npm run bench -- --quick` for a short look; with `-- --markdown` kept in tests/results/speed.md.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { withBundle } from '../support/bundle.mjs';
import { resultsOf } from '../support/results.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.chdir(root);
const quick = process.argv.includes('--quick');
const turns = quick ? 2 : 5;
const folder = mkdtempSync(join(tmpdir(), 'clampwright-bench-'));
const results = resultsOf({
  name: 'speed',
  title: 'Speed',
  command: 'npm run bench -- --markdown',
  keep: process.argv.includes('--markdown') && !quick,
});
const { print } = results;

const middle = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
const rate = ({ shifts, seconds }) => shifts / seconds;
const output = (command, words) =>
  execFileSync(command, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

/** The C program, where a compiler is; null elsewhere. */
function buildC() {
  for (const compiler of [process.env.CC, 'cc', 'gcc', 'clang']) {
    if (!compiler) continue;
    const program = join(folder, 'cell_k');
    try {
      output(compiler, ['-O3', '-march=native', '-o', program, 'tests/bench/cell_k.c', '-lm']);
      return (shifts, seed) => JSON.parse(output(program, [String(shifts), '3', String(seed)]));
    } catch {
      // The next one may be there.
    }
  }
  return null;
}

/** @param {'accounts' | 'count'} keeps all that a run of ours keeps of a shift, or the good units only. */
function simpy(shifts, seed, keeps) {
  for (const python of [process.env.CLAMPWRIGHT_PYTHON, '/usr/bin/python3', 'python3']) {
    if (!python) continue;
    try {
      const words = ['tests/bench/cell_k_simpy.py', String(shifts), '3', String(seed), keeps];
      return JSON.parse(output(python, words));
    } catch {
      // The next Python may have it.
    }
  }
  return null;
}

/** CPU seconds of a whole process of the command line. */
function secondsOfCommand(words) {
  const tell = `data:text/javascript,import{writeFileSync as w}from'node:fs';process.on('exit',()=>{const{user,system}=process.cpuUsage();w('${join(folder, 'cpu')}',String((user+system)/1e6))})`;
  execFileSync(process.execPath, ['--import', tell, 'dist/cli/clampwright.js', ...words], {
    stdio: 'ignore',
  });
  return Number(output('cat', [join(folder, 'cpu')]));
}

/** Microseconds that a shift takes through the command: many shifts less fewer. */
function commandCost() {
  const [few, many] = quick ? [2000, 6000] : [10_000, 40_000];
  const words = (count) => [
    ...['run', 'scenarios/cell-k.json', '--option', 'third-set', '--no-why', '--times-known'],
    ...['--count', String(count), '--threads', '1', '--json'],
  ];
  return ((secondsOfCommand(words(many)) - secondsOfCommand(words(few))) / (many - few)) * 1e6;
}

/** CPU seconds of the first thousand shifts of a fresh process. */
const firstThousand = (url) =>
  Number(output(process.execPath, ['-e', `import('${url}').then((m) => console.log(m.firstShifts(1000)))`]));

/**
 * Ours and the C program, turn about in short stretches; of each the quickest, which other work on the
 * machine has disturbed least.
 */
function quickest(bench, inC, turn) {
  let [ours, theirs] = [null, null];
  for (let stretch = 0; stretch < (quick ? 4 : 12); stretch++) {
    const own = bench.runCellK(2500, turn * 20_000);
    if (ours === null || rate(own) > rate(ours)) ours = own;
    const other = inC?.(5000, turn + 1) ?? null;
    if (other !== null && (theirs === null || rate(other) > rate(theirs))) theirs = other;
  }
  return [ours, theirs];
}

function comparePrograms(bench, url) {
  const inC = buildC();
  const seen = { us: [], c: [], accounts: [], count: [], command: [], first: [] };
  for (let turn = 0; turn < turns; turn++) {
    const [ours, theirs] = quickest(bench, inC, turn);
    seen.us.push(1e6 / rate(ours));
    if (theirs) seen.c.push([1e6 / rate(theirs), rate(ours) / rate(theirs)]);
    seen.command.push(commandCost());
    seen.first.push(firstThousand(url));
    for (const keeps of ['accounts', 'count']) {
      const python = simpy(quick ? 500 : 1500, turn + 1, keeps);
      if (python !== null) seen[keeps].push(rate(ours) / rate(python));
    }
    if (turn > 0) continue;
    const said = ({ mean, lead }) => `${mean.toFixed(3)} good units, lead ${lead.toFixed(1)} min`;
    print(
      `Load of the machine at the beginning: ${loadavg()[0].toFixed(1)} on ${availableParallelism()} cores.`,
    );
    print(`Cell K, three clamp sets: ${said(ours)}${theirs ? `; in C ${said(theirs)}` : ''}\n`);
  }
  return seen;
}

function tellPrograms(seen) {
  print(`| cell K, one core, the middle of ${turns} turns | seen |`);
  print('| --- | --- |');
  const c = middle(seen.c.map(([cost]) => cost));
  print(`| a shift, all accounts, row and pay in, CPU | ${middle(seen.us).toFixed(1)} us |`);
  if (seen.c.length > 0) {
    print(`| the C program of that cell alone | ${c.toFixed(1)} us |`);
    print(`| we against C, warm | ${middle(seen.c.map(([, ratio]) => ratio)).toFixed(2)} |`);
  } else print('| the C program | no C compiler was found |');
  const command = middle(seen.command);
  const against = seen.c.length > 0 ? `, ${(c / command).toFixed(2)} of C` : '';
  print(`| a shift through the command, many shifts less fewer | ${command.toFixed(1)} us${against} |`);
  print(`| the first 1,000 shifts of a fresh process, CPU | ${middle(seen.first).toFixed(3)} s |`);
  if (seen.accounts.length > 0) {
    print(`| against simpy with the same accounts | ${middle(seen.accounts).toFixed(0)} times |`);
    print(`| against simpy that counts good units only | ${middle(seen.count).toFixed(0)} times |`);
  } else print('| simpy | no Python has it (Debian: apt-get install python3-simpy3) |');
}

function tellGrowth(bench) {
  const shifts = quick ? 200 : 1000;
  print('\n| CPU a shift grows with | for each |');
  print('| --- | --- |');
  const row = (what, counts, cost) => {
    const each = counts.map((count) => `${count}: ${(cost(count, shifts) / count).toFixed(3)} us`);
    print(`| ${what} | ${each.join(', ')} |`);
  };
  row('units inside', [50, 200, 800], bench.costOfUnits);
  row('units outside, before a rack of 4', [200, 800, 3200], bench.costOfOutside);
  row('steps', [4, 8, 16, 30], bench.costOfSteps);
  row('people', [4, 16, 32, 48, 64], bench.costOfPeople);
  row('shifts one after another', [1, 3, 7], bench.costOfDays);
}

async function tellThreads(bench) {
  const entry = new URL('../../dist/cli/thread.js', import.meta.url);
  const gains = [];
  for (let turn = 0; turn < (quick ? 1 : 3); turn++) {
    const one = await bench.onThreads(1, quick ? 4000 : 60_000, entry);
    const two = await bench.onThreads(2, quick ? 4000 : 60_000, entry);
    gains.push(one / two);
  }
  print(`\nTwo threads against one, the rows handed back: ${middle(gains).toFixed(2)} times.`);
}

try {
  await withBundle('tests/bench/engine.ts', async (bench, url) => {
    tellPrograms(comparePrograms(bench, url));
    tellGrowth(bench);
    const heap = bench.heapOver(quick ? 50_000 : 1_000_000).map((one) => one.toFixed(1));
    print(`\nHeap over ${quick ? '50,000' : 'a million'} shifts, MB: ${heap.join(' ')}`);
    await tellThreads(bench);
  });
  results.write();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

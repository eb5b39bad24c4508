/**
 * `npm run bench`: how fast a run is, as ratios in one go. Cell K with three clamp sets against the same cell
 * on simpy, a general-purpose process library in Python, turn about; then memory, growth and threads. `npm
 * run bench -- --quick` for a short look.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { withBundle } from '../support/bundle.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.chdir(root);
const quick = process.argv.includes('--quick');
const turns = quick ? 2 : 5;
const model = join(root, 'tests/bench/cell_k_simpy.py');

/** @param {'accounts' | 'count'} keeps all that a run of ours keeps of a shift, or the good units only. */
function simpy(shifts, sets, seed, keeps) {
  for (const python of [process.env.CLAMPWRIGHT_PYTHON, '/usr/bin/python3', 'python3']) {
    if (!python) continue;
    try {
      return JSON.parse(
        execFileSync(python, [model, String(shifts), String(sets), String(seed), keeps], {
          encoding: 'utf8',
          stdio: ['ignore', 'pipe', 'ignore'],
        }),
      );
    } catch {
      // The next Python may have it.
    }
  }
  return null;
}

const middle = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

const rate = (turn) => turn.shifts / turn.seconds;

await withBundle('tests/bench/engine.ts', async (bench) => {
  console.log('Cell K, three clamp sets, tallies only, one core: shifts a CPU second');
  const times = { accounts: [], count: [] };
  for (let turn = 0; turn < turns; turn++) {
    const ours = bench.runCellK(quick ? 5000 : 20_000, turn * 20_000);
    console.log(
      `  clampwright                         ${Math.round(rate(ours))} (good units ${ours.mean.toFixed(3)}, lead ${ours.lead.toFixed(1)} min, line before sanding ${ours.sandLine.toFixed(2)})`,
    );
    for (const keeps of ['accounts', 'count']) {
      const theirs = simpy(quick ? 500 : 1500, 3, turn + 1, keeps);
      if (theirs === null) continue;
      times[keeps].push(rate(ours) / rate(theirs));
      const also =
        keeps === 'accounts'
          ? `, lead ${theirs.lead.toFixed(1)} min, line before sanding ${theirs.sandLine.toFixed(2)}`
          : '';
      console.log(
        `  simpy, ${keeps === 'accounts' ? 'keeping the same accounts ' : 'counting good units only  '}   ${Math.round(rate(theirs))} (good units ${theirs.mean.toFixed(3)}${also}): ${times[keeps].at(-1).toFixed(1)} times`,
      );
    }
  }
  if (times.accounts.length === 0)
    console.log(
      '  No Python with simpy was found (Debian: apt-get install python3-simpy3), so there is nothing to compare with.',
    );
  else
    console.log(
      `  the middle of ${turns} turns: ${middle(times.accounts).toFixed(1)} times simpy with the same accounts, ${middle(times.count).toFixed(1)} times simpy that only counts`,
    );

  console.log('\nCPU microseconds a shift, and a unit or person');
  for (const units of [50, 100, 200, 400, 800]) {
    const cost = bench.costOfUnits(units, quick ? 300 : 2000);
    console.log(
      `  ${String(units).padStart(4)} units   ${cost.toFixed(0).padStart(6)}  ${(cost / units).toFixed(3)} each`,
    );
  }
  for (const people of [1, 2, 4, 8, 16]) {
    const cost = bench.costOfPeople(people, quick ? 300 : 2000);
    console.log(
      `  ${String(people).padStart(4)} people  ${cost.toFixed(0).padStart(6)}  ${(cost / people).toFixed(2)} each`,
    );
  }

  const heap = bench.heapOver(quick ? 50_000 : 1_000_000);
  console.log(
    `\nHeap in use over ${quick ? '50,000' : 'a million'} shifts, MB: ${heap.map((one) => one.toFixed(1)).join(' ')}`,
  );

  const entry = new URL('../../dist/cli/thread.js', import.meta.url);
  const gains = [];
  for (let turn = 0; turn < (quick ? 1 : 5); turn++) {
    const one = await bench.onThreads(1, quick ? 4000 : 60_000, entry);
    const two = await bench.onThreads(2, quick ? 4000 : 60_000, entry);
    gains.push(one / two);
    console.log(
      `${turn === 0 ? '\nThreads, the rows of every shift handed back\n' : ''}  one ${one.toFixed(2)} s, two ${two.toFixed(2)} s on the clock: ${(one / two).toFixed(2)} times`,
    );
  }
  if (gains.length > 1)
    console.log(`  the middle of ${gains.length} turns: ${middle(gains).toFixed(2)} times`);
});

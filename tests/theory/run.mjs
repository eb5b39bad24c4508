// `npm run theory`: every case until it is known to about a seventh of a per cent, on as many threads as
// there are cores. With `-- --markdown` as tables, kept in
// tests/results/theory.md; with `-- --short` as the tests run it.
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { withBundle } from '../support/bundle.mjs';
import { resultsOf } from '../support/results.mjs';

const words = process.argv.slice(2);
const length = words.includes('--short') ? 'short' : 'full';
const markdown = words.includes('--markdown');
const results = resultsOf({
  name: 'theory',
  title: 'Theory against run',
  command: 'npm run theory -- --markdown',
  keep: markdown && length === 'full',
});

/** Asks threads for the rows of every case and prints them in the order of the cases. */
function runAll(module, count) {
  const known = new Map();
  let [given, printed, wrong, figures] = [0, 0, 0, 0];
  const take = (at, rows) => {
    known.set(at, rows);
    for (let next = known.get(printed); next !== undefined; next = known.get(++printed)) {
      next.lines.forEach(results.print);
      wrong += next.wrong;
      figures += next.count;
    }
  };
  const thread = () =>
    new Promise((resolve, reject) => {
      const worker = new Worker(new URL('./thread.mjs', import.meta.url), {
        workerData: { module, length, markdown },
      });
      const give = () => worker.postMessage(given < count ? given++ : null);
      worker.on('message', ({ at, rows }) => {
        take(at, rows);
        give();
      });
      worker.on('error', reject);
      worker.on('exit', resolve);
      give();
    });
  return Promise.all(Array.from({ length: availableParallelism() }, thread)).then(() => ({ wrong, figures }));
}

const { wrong, figures } = await withBundle('tests/theory/table.ts', ({ CASE_COUNT }, module) =>
  runAll(module, CASE_COUNT),
);
results.print(
  `\n${figures - wrong} of ${figures} figures hold: within 3.3 standard errors${length === 'full' ? ' and 0.5 %' : ''} of theory; fixed times exactly.`,
);
results.write();
process.exitCode = wrong === 0 ? 0 : 1;

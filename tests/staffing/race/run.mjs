// `npm run crew-guarantee`: how often the race of crew plans keeps its promise; `-- 500` races as often as
// that, `-- --markdown` as a table, kept in tests/results/crew-race.md. With `-- --brute-force`: the demo's
// crew with two out against every plan there is.
import { withBundle } from '../../support/bundle.mjs';
import { resultsOf } from '../../support/results.mjs';

const words = process.argv.slice(2);
const repeats = Number(words.find((word) => /^\d+$/.test(word)) ?? 300);
const brute = words.includes('--brute-force');
const markdown = words.includes('--markdown');
const { print, write } = resultsOf({
  name: 'crew-race',
  title: 'How often the race of crew plans keeps its promise',
  command: 'npm run crew-guarantee -- --markdown',
  keep: markdown && !brute,
});
const good = brute
  ? await withBundle('tests/staffing/race/brute-force.ts', ({ bruteForce }) => bruteForce(print))
  : await withBundle('tests/staffing/race/guarantee.ts', ({ guaranteeTable }) =>
      guaranteeTable(repeats, markdown, print),
    );
write();
process.exitCode = good ? 0 : 1;

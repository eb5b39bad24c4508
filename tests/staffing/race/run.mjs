// `npm run crew-guarantee`: how often the race of crew plans keeps its promise; `-- 500` races as often as
// that, `-- --markdown` as a table for DEVELOPERS.md. With `-- --brute-force`: the demo's crew with two out
// against every plan there is.
import { withBundle } from '../../support/bundle.mjs';

const words = process.argv.slice(2);
const repeats = Number(words.find((word) => /^\d+$/.test(word)) ?? 300);
const print = (line) => console.log(line);
const good = words.includes('--brute-force')
  ? await withBundle('tests/staffing/race/brute-force.ts', ({ bruteForce }) => bruteForce(print))
  : await withBundle('tests/staffing/race/guarantee.ts', ({ guaranteeTable }) =>
      guaranteeTable(repeats, words.includes('--markdown'), print),
    );
process.exitCode = good ? 0 : 1;

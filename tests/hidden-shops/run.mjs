// `npm run hidden-shops`: how often what is printed holds the truth of shops that another program plays, by
// kind of shop. `-- 200`: so many of each; `--from 5000`: shops of those numbers on; `-- 200 0,1,`: rows of
// those numbers; `--write`: into tests/results/coverage.md.
import { withBundle } from '../support/bundle.mjs';
import { version, section } from './write.mjs';

/** Of each choice at each shop: the truth to within 0.1 units a shift, where ranges leave some 1.2 open. */
const TRUE_SHIFTS = 500;
const words = process.argv.slice(2);
const fromWord = words.indexOf('--from');
const from = fromWord < 0 ? 0 : Number(words[fromWord + 1]);
const [shops = 200] = words.filter((word, i) => /^\d+$/.test(word) && i !== fromWord + 1).map(Number);
const asked = words
  .find((word) => /^\d+,[\d,]*$/.test(word))
  ?.split(',')
  .filter(Boolean)
  .map(Number);

const good = await withBundle('tests/hidden-shops/measure.ts', async (measure) => {
  const { hiddenTable, oneShop, ROWS } = measure;
  const results = [];
  for (const [at, row] of ROWS.entries()) {
    if (asked !== undefined && !asked.includes(at)) continue;
    const held = [];
    for (let shop = 0; shop < shops; shop++) held.push(await oneShop(row, from + shop, TRUE_SHIFTS));
    results.push({ row, shops, held });
    console.log(hiddenTable(results.slice(-1)).lines.at(-1));
    // After every row, so that a run that is stopped leaves what it has found.
    if (words.includes('--write'))
      await section('## Hidden shops', about(measure, results), hiddenTable(results).lines);
  }
  return hiddenTable(results).good;
});
process.exitCode = good ? 0 : 1;

function about({ EACH, CHECKED }, results) {
  const all = results.flatMap(({ held }) => held);
  const range = (of) => {
    const [least, most] = [Math.min(...all.map(of)), Math.max(...all.map(of))];
    return least === most ? `${least}` : `${least} to ${most}`;
  };
  return `Shops whose truth another program plays (\`npm run hidden-shops -- ${words.join(' ')}\`, clampwright ${version}): ${EACH} timings a step
and ${CHECKED} pieces counted of each, or times from memory with the error that the file takes them to have; the
question of one more clamp set, ranges at 95 %. Shops ${from} to ${from + shops - 1} of each row, and no shop is in two rows; ${range((one) => one.count)} shifts a
choice, ${range((one) => one.pairs)} pairs of runs with other times, ${TRUE_SHIFTS} true shifts a choice. In brackets how many shops; "warned" is how
many of those the list of times gave reason to mind (people differ, one part of the day, the hour matters). ${shops} shops
tell a share of 95 % to within ${(196 * Math.sqrt((0.95 * 0.05) / shops)).toFixed(1)} points either way (at 95 %).`;
}

// `npm run hidden-shops`: how often what is printed holds the truth of shops that another program plays, by
// kind of shop. `-- 200`: so many of each; `-- 200 0,1,`: rows of those numbers; `--write`: into
// tests/results/coverage.md.
import { readFile, writeFile } from 'node:fs/promises';
import { withBundle } from '../support/bundle.mjs';

/** Of each choice at each shop: the truth to within 0.1 units a shift, where ranges leave some 1.2 open. */
const TRUE_SHIFTS = 500;
const RESULTS = new URL('../results/coverage.md', import.meta.url);
const SECTION = '## Hidden shops';
const ABOUT = (shops) => `

Shops whose truth another program plays (\`npm run hidden-shops -- ${shops} --write\`): 25 timings a step and 100 pieces counted of each,
the question of one more clamp set, ranges at 95 %. In brackets how many shops; "warned" is how many of those the list of times gave
reason to mind (people differ, one part of the day, the hour matters).`;
const words = process.argv.slice(2);
const [shops = 200] = words.filter((word) => /^\d+$/.test(word)).map(Number);
const asked = words
  .find((word) => /^\d+,[\d,]*$/.test(word))
  ?.split(',')
  .filter(Boolean)
  .map(Number);
const good = await withBundle('tests/hidden-shops/measure.ts', async ({ hiddenTable, oneShop, ROWS }) => {
  const results = [];
  for (const [at, row] of ROWS.entries()) {
    if (asked !== undefined && !asked.includes(at)) continue;
    const held = [];
    for (let shop = 0; shop < shops; shop++) held.push(await oneShop(row, shop, TRUE_SHIFTS));
    results.push({ row, shops, held });
    console.log(hiddenTable(results.slice(-1)).lines.at(-1));
  }
  const { lines, good } = hiddenTable(results);
  if (words.includes('--write')) {
    const [before] = (await readFile(RESULTS, 'utf8')).split(SECTION);
    await writeFile(RESULTS, `${before.trimEnd()}\n\n${SECTION}${ABOUT(shops)}\n\n${lines.join('\n')}\n`);
  }
  return good;
});
process.exitCode = good ? 0 : 1;

// `npm run hidden-shops`: how often what is printed holds the truth of shops that another program plays, by
// kind of shop. `-- 200`: so many of each; `-- 200 0,1,`: rows of those numbers; `--write`: into
// tests/results/coverage.md.
import { writeFile } from 'node:fs/promises';
import { withBundle } from '../support/bundle.mjs';

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
    for (let shop = 0; shop < shops; shop++) held.push(await oneShop(row, shop, 1500));
    results.push({ row, shops, held });
    console.log(hiddenTable(results.slice(-1)).lines.at(-1));
  }
  const { lines, good } = hiddenTable(results);
  if (words.includes('--write'))
    await writeFile(new URL('../results/coverage.md', import.meta.url), `${lines.join('\n')}\n`);
  return good;
});
process.exitCode = good ? 0 : 1;

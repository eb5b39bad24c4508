// `npm run hidden-shops`: how often what is printed holds the truth of shops that another program plays, by
// kind of shop. `-- 200`: so many of each; `--from 5000`: shops of those numbers on; `-- 200 0,1,`: rows of
// those numbers; `--crew`: instead, how often the crew's promise is kept; `--now`: where days end that are
// forecast while they are under way; `--write`: into tests/results/coverage.md.
import { withBundle } from '../support/bundle.mjs';
import { section, version } from './write.mjs';

/** Of each choice at each shop: the truth to within 0.05 units a shift. */
const TRUE_SHIFTS = 4000;
/** Days that each plan is worked, and days of each shop that are stopped and forecast. */
const PLAN_DAYS = 300;
const STOPPED_DAYS = 5;

const words = process.argv.slice(2);
const write = words.includes('--write');
const fromWord = words.indexOf('--from');
const from = fromWord < 0 ? 0 : Number(words[fromWord + 1]);
const counts = words.filter((word, i) => /^\d+$/.test(word) && i !== fromWord + 1).map(Number);
const rows = words
  .find((word) => /^\d+,[\d,]*$/.test(word))
  ?.split(',')
  .filter(Boolean)
  .map(Number);
const command = `npm run hidden-shops -- ${words.join(' ')}\`, clampwright ${version}`;

const good = await withBundle('tests/hidden-shops/measure.ts', (measure) => {
  if (words.includes('--crew')) return crew(measure, counts[0] ?? 100);
  if (words.includes('--now')) return now(measure, counts[0] ?? 100);
  return shops(measure, counts[0] ?? 200);
});
process.exitCode = good ? 0 : 1;

async function shops({ hiddenTable, oneShop, ROWS, CHECKED, EACH }, count) {
  const results = [];
  for (const [at, row] of ROWS.entries()) {
    if (rows !== undefined && !rows.includes(at)) continue;
    const held = [];
    for (let shop = 0; shop < count; shop++) held.push(await oneShop(row, from + shop, TRUE_SHIFTS));
    results.push({ row, shops: count, held });
    console.log(hiddenTable(results.slice(-1)).lines.at(-1));
    const all = results.flatMap(({ held }) => held);
    const told = (of) => {
      const [least, most] = [Math.min(...all.map(of)), Math.max(...all.map(of))];
      return least === most ? `${least}` : `${least} to ${most}`;
    };
    const about = `Shops whose truth another program plays (\`${command}): ${EACH} timings a step
and ${CHECKED} pieces counted of each, or times from memory with the error that the file takes them to have; the
question of one more clamp set, ranges at 95 %. Shops ${from} to ${from + count - 1} of each row, and no shop is in two rows; ${told((one) => one.count)} shifts a
choice, ${told((one) => one.pairs)} pairs of runs with other times, ${TRUE_SHIFTS} true shifts a choice. In brackets how many shops; "warned" is how
many of those the list of times gave reason to mind (people differ, one part of the day, the hour matters). ${count} shops
tell a share of 95 % to within ${(196 * Math.sqrt((0.95 * 0.05) / count)).toFixed(1)} points either way (at 95 %).`;
    // After every row, so that a run that is stopped leaves what it has found.
    if (write) await section('## Hidden shops', about, hiddenTable(results).lines);
  }
  return hiddenTable(results).good;
}

async function crew({ crewTable, oneCrew }, count) {
  const all = [];
  for (let shop = 0; shop < count; shop++) all.push(await oneCrew(from + shop, PLAN_DAYS));
  const { lines, good } = crewTable(all);
  console.log(lines.join('\n'));
  const about = `Crews planned by \`crew\` on files made of 25 timings a step, their posts then worked in the true shop for ${PLAN_DAYS} days each
(\`${command}): shops ${from} to ${from + count - 1} of their own kind, one or two people at fitting and at
sanding who can stand elsewhere too, three clamp sets. Promised at 90 % or more; "promised to be made" is the chance told with the plan.`;
  if (write) await section("## The crew's promise", about, lines);
  return good;
}

async function now({ nowTable, oneShopsDays }, count) {
  const all = [];
  for (let shop = 0; shop < count; shop++) all.push(await oneShopsDays(from + shop, STOPPED_DAYS));
  const { lines, good } = nowTable(all);
  console.log(lines.join('\n'));
  const about = `Days of true shops stopped at a random minute between the first half hour and the last, counted on a walk (pieces by place,
whole minutes in hand and left to cure) and forecast as \`now\` does on a file made of 25 timings a step (\`${command}):
shops ${from} to ${from + count - 1} of their own, interruptions among the times of every other one, ${STOPPED_DAYS} days each. In brackets days, and how much oftener it came than was claimed, in points. "The number due" is what half the
shifts make by the file: its chance, and how often it was made.`;
  if (write) await section("## Now's fan", about, lines);
  return good;
}

/**
 * Ranges of shops whose truth another program plays, in short; `npm run hidden-shops` takes two hundred of a
 * kind.
 */
import { expect, test } from 'vitest';
import { withBundle } from '../support/bundle.mjs';
import { Luck, goodUnits, type TrueShop } from './simulator.ts';
import type * as Measure from './measure.ts';

const { oneShop, ROWS } = await withBundle(
  'tests/hidden-shops/measure.ts',
  (measure: typeof Measure) => measure,
);

test('what hidden shops gain and make lies in the ranges as often as those say, and not in those of luck', async () => {
  const held: Awaited<ReturnType<typeof oneShop>>[] = [];
  for (let shop = 0; shop < 12; shop++) held.push(await oneShop(ROWS[0]!, shop, 400));
  const many = (what: 'gain' | 'mean' | 'gainByLuck' | 'meanByLuck'): number =>
    held.filter((one) => one[what]).length;
  // Of 24 ranges at 95 %, 19 and fewer hold with a chance of about one in a thousand.
  expect(many('gain') + many('mean')).toBeGreaterThan(19);
  expect(many('gainByLuck') + many('meanByLuck')).toBeLessThan(many('gain') + many('mean'));
});

test('the other program plays a cell of fixed times as it can be worked out by hand', () => {
  const always = (minutes: number) => ({ draw: () => minutes });
  const shop: TrueShop = {
    minutes: { fit: always(10), glue: always(5), unclamp: always(2), sand: always(4), check: always(1) },
    cure: 30,
    toSand: 0,
    scrap: 0,
    people: { fit: [1], glue: [1], sand: [1], check: [1] },
    product: () => 1,
    pace: () => 1,
    day: () => 1,
    length: 120,
  };
  // One set: glued 10 to 15, cured at 45; the fitter, at a fifth piece until 50, unclamps until 52; out at
  // 57. The next glued 52 to 57, cured at 87, unclamped 92 to 94, out at 99; the third is cured too late.
  expect(goodUnits(shop, 1, new Luck(1))).toBe(2);
  expect(goodUnits(shop, 2, new Luck(1))).toBeGreaterThan(2);
});

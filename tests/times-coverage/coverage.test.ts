/**
 * Hidden shops forecast from 25 observed times a step, in short; `npm run times-coverage` takes five hundred.
 */
import { expect, test } from 'vitest';
import { withBundle } from '../support/bundle.mjs';
import type * as Measure from './measure.ts';

const { hiddenShop, measureShops, oneShop } = await withBundle(
  'tests/times-coverage/measure.ts',
  (measure: typeof Measure) => measure,
);

test('what hidden shops make lies within the ranges forecast from 25 times a step as often as those claim', async () => {
  const { withTimes, luckOnly, mean } = await measureShops(40);
  expect(withTimes.share).toBeGreaterThan(0.8);
  expect(withTimes.share).toBeGreaterThan(luckOnly.share);
  // Of 40 ranges at 95 %, 33 and fewer hold with a chance of one in a thousand.
  expect(mean.estimate * 40).toBeGreaterThan(33);
  // Ranges as wide as the difference between shops would hold every shop: these must not be.
  expect(withTimes.share).toBeLessThan(0.97);
});

test('every shop is another one, and its list is read whole', async () => {
  const sands = [0, 1, 2, 3].map((shop) => JSON.stringify(hiddenShop(shop).steps['sand']!.time));
  expect(new Set(sands).size).toBe(4);
  const { rows } = await oneShop(1);
  expect(rows).toEqual({ read: 150, unread: 0 });
});

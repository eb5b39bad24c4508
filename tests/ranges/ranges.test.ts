/**
 * Coverage of the printed ranges on the real cell, in short; `npm run coverage` repeats it a thousand times.
 */
import { expect, test } from 'vitest';
import { withBundle } from '../support/bundle.mjs';
import type * as Measure from './measure.ts';

const { measureCoverage, PRINTED, study, wilsonHolds } = await withBundle(
  'tests/ranges/measure.ts',
  (measure: typeof Measure) => measure,
);

/**
 * Means of the reference cell with two and three sets by two programs written apart from this one (400,000
 * shifts each, error .002).
 */
const OUTSIDE: Record<string, number> = {
  'good units, two sets': 16.634,
  'good units, three sets': 20.48,
  'what the third set gains': 3.846,
};

test('nineteen ranges in twenty hold what two other programs found of the reference cell, and would not hold another figure', async () => {
  const some = await study('for its shape', { precision: 0.25 });
  const truth = PRINTED.map(({ name, range }) => ({ ...range(some), estimate: OUTSIDE[name] ?? NaN }));
  const { covered, shifts, capped } = await measureCoverage(truth, 60, { precision: 0.25 });
  const wrong = await measureCoverage(
    truth.map((one) => ({ ...one, estimate: one.estimate + 0.5 })),
    20,
    { precision: 0.25 },
  );
  expect(capped).toBe(0);
  expect(shifts).toBeGreaterThanOrEqual(200);
  const known = covered.filter(({ name }) => name in OUTSIDE);
  expect(known).toHaveLength(3);
  for (const { name, held } of known) {
    // Of 60 ranges at 95 %, 50 and fewer hold with a chance of one in a thousand.
    expect(held, name).toBeGreaterThan(50);
    expect(wrong.covered.find((one) => one.name === name)!.held, `${name}, half a unit off`).toBeLessThan(5);
  }
});

// Worked out apart from this program, by the binomial's own terms.
test('the range of a chance holds a chance of 98 % less often than stated at 200 shifts, a middling one as often', () => {
  expect(wilsonHolds(200, 0.98)).toBeCloseTo(0.9330769984, 8);
  expect(wilsonHolds(200, 0.192)).toBeCloseTo(0.9523635403, 8);
});

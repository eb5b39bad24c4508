/**
 * Theory against run, the short form: `npm run theory` runs the same cases until each is known to about a
 * seventh of a per cent.
 */
import { describe, expect, test } from 'vitest';
import { withBundle } from '../support/bundle.mjs';
import { JOHNSON, flowShop } from './cases/schedules.ts';
import type { TheoryCase } from './case.ts';
import { makespan, taillardTimes } from './formulas/flow-shop.ts';
import type * as Runs from './runs.ts';

const { THEORY, runCase } = await withBundle('tests/theory/runs.ts', (runs: typeof Runs) => runs);

/** A standard error above this share of what is expected would prove little. */
const MOST_ERROR = 0.04;

describe.each(THEORY)('$title', ({ cases }) => {
  test.each(cases.map((one) => [one.name, one] as const))('%s', (_, one) => {
    for (const { measure, got, error, errors } of runCase(one, 'short')) {
      if (measure.printed !== undefined)
        expect(Math.abs(measure.expected - measure.printed)).toBeLessThanOrEqual(
          0.51 * lastPlace(measure.printed),
        );
      if (one.kind.startsWith('fixed')) {
        expect(Math.abs(got - measure.expected), measure.name).toBeLessThan(1e-9 * measure.expected);
        continue;
      }
      expect(error, measure.name).toBeGreaterThan(0);
      expect(error / measure.expected, `${measure.name}: standard error`).toBeLessThan(MOST_ERROR);
      expect(Math.abs(errors), `${measure.name}: standard errors from theory`).toBeLessThan(3.3);
      for (const { value, because } of measure.not ?? [])
        expect(Math.abs(got - value) / error, because).toBeGreaterThan(3.3);
    }
  });
});

/** The unit of the last digit a figure is printed with, at most the eighth. */
function lastPlace(printed: number): number {
  const places = String(printed).split('.')[1]?.length ?? 0;
  return 10 ** -Math.min(places, 8);
}

test("the first times of Taillard's instance are those printed", () => {
  expect(taillardTimes(873654221, 20, 5)[0]!.slice(0, 4)).toEqual([54, 83, 15, 71]);
});

test("no order of the six jobs ends before the one by Johnson's rule, and each ends when the recursion says", () => {
  const orders = permutations([0, 1, 2, 3, 4, 5]);
  expect(orders).toHaveLength(720);
  expect(Math.min(...orders.map((order) => makespan(JOHNSON, order)))).toBe(41);
  for (const order of orders.filter((_, at) => at % 40 === 0)) {
    const one: TheoryCase = {
      name: order.join(' '),
      source: 'recursion',
      kind: 'fixed',
      scenario: () => flowShop(JOHNSON, order, null),
      measures: [
        {
          name: 'end',
          expected: makespan(JOHNSON, order),
          of: (shift) => shift.scalar('targetAt') * 10,
          per: () => 1,
        },
      ],
    };
    expect(runCase(one, 'short')[0]!.got).toBeCloseTo(makespan(JOHNSON, order), 9);
  }
});

function permutations(items: number[]): number[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item) =>
    permutations(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}

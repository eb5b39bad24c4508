import { describe, expect, test } from 'vitest';
import { annuity } from '../../../src/money/payback.ts';
import {
  moneyFacts,
  moneyMoves,
  returnOf,
  rough,
  YEARS,
  type Bought,
} from '../../../src/report/parts/money.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { chairs, range } from './support.ts';

const none = range(0, 0);
const bought = (change: Partial<Bought['pair']> = {}, price: number | null = 1800): Bought => ({
  price,
  pair: { good: range(3, 4), overtime: none, cost: none, ...change },
});
const valueOf = (scenario: Scenario, one: Bought, name: string): string =>
  moneyFacts(scenario, one).find((fact) => fact.name === name)?.value ?? '';

describe('what it costs and when it pays back', () => {
  test('the payback runs from the best gain to the least: 1,800 over 3 to 4 units at 45', () => {
    const { gain, payback } = returnOf(chairs, bought())!;
    expect(gain).toEqual({ estimate: 157.5, low: 135, high: 180 });
    expect(payback).toEqual({
      kind: 'pays back',
      shifts: { estimate: 1800 / 157.5, low: 10, high: 1800 / 135 },
    });
    expect(valueOf(chairs, bought(), 'Pays back')).toMatch(/^It pays back after 12 shifts \(10 to 14\)/);
  });

  test('the present value counts 240 shifts a year for five years at 8%, the price off', () => {
    const { presentValue } = returnOf(chairs, bought())!;
    const worth = 240 * annuity(YEARS, 0.08);
    // 1 a year for five years at 8% is worth 3.9927 (the annuity formula, (1 - 1.08^-5) / 0.08).
    expect(annuity(YEARS, 0.08)).toBeCloseTo((1 - 1.08 ** -5) / 0.08, 10);
    expect(presentValue.low).toBeCloseTo(135 * worth - 1800, 6);
    expect(presentValue.high).toBeCloseTo(180 * worth - 1800, 6);
  });

  test('wages that it costs are taken off, at the far end of their range', () => {
    const { gain } = returnOf(chairs, bought({ cost: range(10, 20) }))!;
    expect(gain).toEqual({ estimate: 157.5 - 15, low: 135 - 20, high: 180 - 10 });
  });

  test('without a price there is no payback, without a margin extra units count for nothing', () => {
    const { margin: _margin, ...money } = chairs.money!;
    const bare = { ...chairs, money };
    expect(returnOf(chairs, bought({}, null))).toBeNull();
    expect(valueOf(chairs, bought({}, null), 'Price')).toMatch(/names none, so no payback/);
    expect(valueOf(bare, bought(), 'Extra good units')).toMatch(/^Not counted/);
    expect(returnOf(bare, bought())!.payback.kind).toBe('never pays back');
    // Wages saved pay all the same.
    expect(returnOf(bare, bought({ cost: range(-60, -40) }))!.payback.kind).toBe('pays back');
  });

  test('half the margin takes twice as long, half as much again half as long again', () => {
    expect(moneyMoves(chairs, bought())).toEqual([
      'With half the margin, $22.50 a good unit, it pays back after 23 shifts (20 to 27); at half as much again, $2,700, it pays back after 18 shifts (15 to 20).',
    ]);
    expect(moneyMoves(chairs, bought({}, null))).toEqual([]);
    expect(moneyMoves(chairs, bought({ good: range(-1, 2) }))[0]).toMatch(
      /it may never pay back; .* it may never pay back/,
    );
  });

  test('far sums are given to three figures, their range outwards', () => {
    expect(rough({ estimate: 149_876, low: 137_449, high: 162_001 })).toEqual({
      estimate: 149_000,
      low: 137_000,
      high: 163_000,
    });
    expect(rough({ estimate: -5, low: -20, high: 9 })).toEqual({ estimate: -5, low: -20, high: 9 });
    expect(rough({ estimate: -4_444, low: -18_651, high: 28_540 })).toEqual({
      estimate: -4_500,
      low: -18_700,
      high: 28_600,
    });
  });
});

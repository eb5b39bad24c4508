import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  annuity,
  investmentReturn,
  overtimeMoney,
  payback,
  paybackOf,
  presentValue,
} from '../../src/money/payback.ts';
import { holds } from '../support/holds.ts';

describe('published examples', () => {
  test('-180 -90 0 100 100 100 -90 100 100 is first paid back after 4.7 periods', () => {
    expect(payback([-180, -90, 0, 100, 100, 100, -90, 100, 100])).toBeCloseTo(4.7, 12);
  });

  test('20,000 now for ten times 3,000 at 10 % is worth -1,566.30 today', () => {
    expect(presentValue([-20000, ...Array<number>(10).fill(3000)], 0.1)).toBeCloseTo(-1566.3, 2);
    expect(3000 * annuity(10, 0.1) - 20000).toBeCloseTo(-1566.3, 2);
  });
});

describe('payback', () => {
  test('nothing owed is paid back at once, and a debt never covered never', () => {
    expect(payback([10, -5, 20])).toBe(0);
    expect(payback([])).toBe(0);
    expect(payback([-10, 5, 4])).toBeNull();
    expect(payback([-10, 5, 5])).toBe(2);
  });

  test('the range of the gain turns into the range of the payback, the other way round', () => {
    expect(paybackOf(1800, { estimate: 60, low: 50, high: 90 })).toEqual({
      kind: 'pays back',
      shifts: { estimate: 30, low: 20, high: 36 },
    });
  });

  test('a gain whose interval covers zero may never pay back, and one wholly at or under zero never does', () => {
    expect(paybackOf(1800, { estimate: 60, low: 0, high: 90 })).toEqual({
      kind: 'may never pay back',
      shifts: { estimate: 30, low: 20 },
    });
    expect(paybackOf(1800, { estimate: -1, low: -9, high: 9 })).toEqual({
      kind: 'may never pay back',
      shifts: { estimate: null, low: 200 },
    });
    expect(paybackOf(1800, { estimate: -1, low: -9, high: 0 })).toEqual({ kind: 'never pays back' });
    expect(paybackOf(0, { estimate: 1, low: 1, high: 1 })).toEqual({ kind: 'nothing to pay' });
  });

  test('the ends of a payback stay in order around its estimate', () => {
    const amount = fc.double({ min: 0.01, max: 1e4, noNaN: true });
    holds(
      fc.property(amount, amount, amount, (a, b, c) => {
        const [low, estimate, high] = [a, b, c].sort((x, y) => x - y) as [number, number, number];
        const result = paybackOf(1800, { low, estimate, high });
        if (result.kind !== 'pays back') throw new Error('a gain above zero pays back');
        expect(result.shifts.low).toBeLessThanOrEqual(result.shifts.estimate);
        expect(result.shifts.estimate).toBeLessThanOrEqual(result.shifts.high);
      }),
    );
  });
});

describe('an investment', () => {
  const investment = {
    price: 1800,
    units: { estimate: 3, low: 2, high: 4 },
    margin: 20,
    saved: { estimate: 10, low: -5, high: 25 },
    shiftsPerYear: 240,
    discount: 10,
    years: 1,
  };

  test('gains its extra units at their margin and the labour it saves', () => {
    const result = investmentReturn(investment);
    expect(result.gain).toEqual({ estimate: 70, low: 35, high: 105 });
    expect(result.payback).toMatchObject({ kind: 'pays back', shifts: { low: 1800 / 105, high: 1800 / 35 } });
    expect(result.presentValue.estimate).toBeCloseTo((70 * 240) / 1.1 - 1800, 9);
    expect(result.presentValue.low).toBeCloseTo((35 * 240) / 1.1 - 1800, 9);
  });

  test('without units or savings gains nothing and never pays back', () => {
    expect(investmentReturn({ ...investment, units: null, saved: null })).toMatchObject({
      payback: { kind: 'never pays back' },
      presentValue: { estimate: -1800 },
    });
  });

  test('saves overtime at the rate times the factor', () => {
    expect(overtimeMoney({ estimate: 60, low: 30, high: 90 }, 24, 1.5)).toEqual({
      estimate: 36,
      low: 18,
      high: 54,
    });
  });

  test('counts a part of a year in proportion', () => {
    expect(annuity(1.5, 0)).toBeCloseTo(1.5, 12);
    expect(annuity(0.5, 0.1)).toBeCloseTo(0.5 / 1.1, 12);
    expect(annuity(0, 0.1)).toBe(0);
  });
});

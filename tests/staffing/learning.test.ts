/**
 * Learning by days at a post. The figures were recomputed from the formula of the curve with a floor (Wright
 * 1936; forms listed by Yelle 1979 and Anzanello & Fogliatto 2011, recalled): f = max(1, first x d^-b).
 */
import { describe, expect, it } from 'vitest';
import { between, factorOn, learningOf } from '../../src/staffing/learning.ts';

const post = (minutes: number, day: number) => (factor: number) => day / (minutes * factor);

describe('learning by days', () => {
  it('is 53.6 of 56.25 pieces on the tenth day at 1.8 and 85 %, 8 min a piece, 450 min a day', () => {
    const asked = { first: 1.8, rate: 0.85, pieces: post(8, 450), cost: 0, brings: 0 };
    const { days, fullDay, short } = learningOf(asked);
    const on = (day: number): number => days[day - 1]!.pieces;
    expect([1, 2, 5, 10].map(on).map((pieces) => pieces.toFixed(6))).toEqual([
      '31.250000',
      '36.764706',
      '45.575790',
      '53.618576',
    ]);
    expect(fullDay).toBe(13);
    expect(short).toBeCloseTo(113.237432, 6);
  });

  it('takes 23 days at 1.6 and 90 %, 10 min a piece', () => {
    const asked = { first: 1.6, rate: 0.9, pieces: post(10, 450), cost: 0, brings: 0 };
    const { days, fullDay, short } = learningOf(asked);
    const on = (day: number): number => days[day - 1]!.pieces;
    expect([1, 2, 5, 10].map(on).map((pieces) => pieces.toFixed(6))).toEqual([
      '28.125000',
      '31.250000',
      '35.920149',
      '39.911277',
    ]);
    expect(fullDay).toBe(23);
    expect(short).toBeCloseTo(118.938653, 6);
  });

  it('pays from day 4 and is earned back on day 7 at 144 a day and 3.50 a piece; with a helper later', () => {
    const asked = { first: 1.8, rate: 0.85, pieces: post(8, 450), cost: 144, brings: 3.5 };
    const alone = learningOf(asked);
    expect(alone.days[0]!.net).toBeCloseTo(-34.625, 9);
    expect([alone.paysFrom, alone.backOn]).toEqual([4, 7]);
    expect(alone.days[6]!.sum).toBeCloseTo(21.552, 4);
    // A colleague loses an hour on each of the first five days: 7.5 pieces.
    const helped = learningOf({ ...asked, helper: { pieces: 7.5, days: 5 } });
    expect([helped.paysFrom, helped.backOn]).toEqual([6, 10]);
    expect(helped.lowest).toBeCloseTo(-160.7894, 4);
    expect(helped.days[9]!.sum).toBeCloseTo(7.1518, 4);
  });

  it('is never quicker than trained, and never slower on a later day', () => {
    const learning = { first: 1.6, rate: 0.85 };
    const factors = Array.from({ length: 60 }, (_, i) => factorOn(learning, i + 1));
    expect(Math.min(...factors)).toBe(1);
    expect(factors.every((factor, i) => i === 0 || factor <= factors[i - 1]!)).toBe(true);
  });

  it('reads between what was found in straight lines, and level beyond', () => {
    const line = between([
      { factor: 1, pieces: 4 },
      { factor: 2, pieces: 2 },
    ]);
    expect([0.5, 1, 1.5, 2, 3].map(line)).toEqual([4, 4, 3, 2, 2]);
  });
});

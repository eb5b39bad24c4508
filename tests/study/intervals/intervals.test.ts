import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceInterval } from '../../../src/study/intervals/chance-interval.ts';
import { differenceInterval } from '../../../src/study/intervals/difference-interval.ts';
import { meanInterval } from '../../../src/study/intervals/mean-interval.ts';
import { addDifferences, addRow, createMoments, varianceOf } from '../../../src/study/intervals/moments.ts';
import {
  madeByShare,
  percentile,
  percentileInterval,
  percentileRanks,
  sortedValues,
} from '../../../src/study/intervals/percentile-interval.ts';
import { holds } from '../../support/holds.ts';

const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 60 });

describe('moments', () => {
  test('equal two passes over the same numbers', () => {
    holds(
      fc.property(numbers, (values) => {
        const moments = createMoments(1);
        for (const value of values) addRow(moments, [value]);
        const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
        const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
        expect(moments.mean[0]!).toBeCloseTo(mean, 6);
        expect(Math.abs(moments.squares[0]! - squares)).toBeLessThanOrEqual(1e-9 * (squares + 1));
      }),
    );
  });

  test('are taken column by column, and leave out what does not exist', () => {
    const moments = createMoments(2);
    const table = Float64Array.of(9, 1, 10, 2, NaN, 6, 30);
    for (const offset of [1, 3, 5]) addRow(moments, table, offset);
    expect([...moments.count]).toEqual([3, 2]);
    expect([...moments.mean]).toEqual([3, 20]);
    expect(varianceOf(moments, 0)).toBeCloseTo(7, 12);
    expect(varianceOf(moments, 1)).toBeCloseTo(200, 12);
    expect(varianceOf(createMoments(1), 0)).toBeNaN();
  });

  test('of differences are those of after less before', () => {
    const moments = createMoments(2);
    addDifferences(moments, [0, 1, 5], 1, [4, NaN], 0);
    expect([...moments.mean]).toEqual([3, 0]);
    expect([...moments.count]).toEqual([1, 0]);
  });
});

describe('intervals of means', () => {
  test('one observation says nothing of the spread', () => {
    expect(meanInterval(1, 5, NaN)).toMatchObject({ low: -Infinity, high: Infinity, half: Infinity });
  });

  test('several stated together are each wider: half the error each is the interval at the smaller error', () => {
    const [before, after] = [
      [1, 2, 4, 8, 3],
      [2, 2, 7, 9, 5],
    ];
    const pair = differenceInterval(before, after, 0.9, 2);
    expect(pair.half).toBeCloseTo(differenceInterval(before, after, 0.95).half, 10);
    expect(pair.confidence).toBe(0.9);
  });

  test('a confidence outside 0 to 1 and pairs that do not match are refused', () => {
    expect(() => meanInterval(5, 1, 1, 95)).toThrow(RangeError);
    expect(() => differenceInterval([1, 2], [1])).toThrow(RangeError);
  });
});

describe('intervals of chances', () => {
  test('stay inside 0 to 1, hold the estimate, and mirror', () => {
    holds(
      fc.property(fc.nat(500), fc.nat(500), (a, b) => {
        fc.pre(a + b > 0);
        const range = chanceInterval(a, a + b);
        const mirror = chanceInterval(b, a + b);
        expect(range.low).toBeGreaterThanOrEqual(0);
        expect(range.high).toBeLessThanOrEqual(1);
        expect(range.low).toBeLessThanOrEqual(range.estimate);
        expect(range.high).toBeGreaterThanOrEqual(range.estimate);
        expect(range.high - range.low).toBeGreaterThan(0);
        expect(mirror.low).toBeCloseTo(1 - range.high, 12);
      }),
    );
  });

  test('of nothing seen say nothing', () => {
    expect(chanceInterval(0, 0)).toMatchObject({ low: 0, high: 1, count: 0 });
    expect(() => chanceInterval(3, 2)).toThrow(RangeError);
  });
});

describe('percentiles', () => {
  test('hold at least the confidence, with no room to spare at either end', () => {
    holds(
      fc.property(
        fc.integer({ min: 1, max: 3000 }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (count, share) => {
          const ranks = percentileRanks(count, share);
          if (ranks.kind === 'too few') {
            expect(count).toBeLessThan(ranks.needed);
            expect(percentileRanks(ranks.needed, share).kind).toBe('ranks');
          } else {
            expect(ranks.coverage).toBeGreaterThanOrEqual(0.95 - 1e-12);
            expect(ranks.low).toBeGreaterThanOrEqual(1);
            expect(ranks.high).toBeLessThanOrEqual(count);
            expect(ranks.low).toBeLessThan(ranks.high);
          }
        },
      ),
    );
  });

  test('say how many shifts it takes: 36 for the 10th percentile at 95 %', () => {
    expect(percentileRanks(35, 0.1)).toEqual({ kind: 'too few', needed: 36 });
    expect(percentileRanks(36, 0.1)).toMatchObject({ kind: 'ranks', low: 1 });
    expect(percentileInterval([1, 2, 3], 0.5)).toMatchObject({
      estimate: 2,
      low: -Infinity,
      high: Infinity,
      needed: 6,
    });
  });

  test('lie on straight lines between the ordered observations', () => {
    expect(percentile([1, 2, 4], 0.25)).toBe(1.5);
    expect(percentile([1, 2, 4], 1)).toBe(4);
    expect(percentile([], 0.5)).toBeNaN();
  });

  test('what nine shifts in ten make is a number at least nine in ten really made', () => {
    const made = sortedValues([18, 19, 20, 21, 22, 17, 23, NaN, 24, 20, 21]);
    expect(made).toHaveLength(10);
    expect(madeByShare(made, 0.9)).toBe(18);
    expect(madeByShare(made, 1)).toBe(17);
    expect(madeByShare(made, 0.5)).toBe(21);
    expect(madeByShare(made, 0.1)).toBe(24);
    holds(
      fc.property(numbers, fc.double({ min: 0.01, max: 1, noNaN: true }), (values, share) => {
        const sorted = sortedValues(values);
        const value = madeByShare(sorted, share);
        expect(sorted.filter((one) => one >= value).length).toBeGreaterThanOrEqual(
          share * values.length - 1e-6,
        );
        expect(sorted.filter((one) => one > value).length).toBeLessThan(share * values.length);
      }),
    );
  });
});

/** What is not known of the levels of a spread: order statistics by hand, and the inputs beside. */
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { describe, expect, test } from 'vitest';
import { frequenciesOf } from '../../src/study/intervals/frequencies.ts';
import { levelRange, percentileRange } from '../../src/study/level-range.ts';
import { spreadOf } from '../../src/study/spread.ts';
import { levelCell, levelCells, levelRangeText } from '../../src/words/study-words.ts';

/** 1 to 100, one shift each. */
const hundred = Array.from({ length: 100 }, (_, i) => i + 1);
const made = frequenciesOf(hundred);

describe('the range of a level', () => {
  test('is that of the order statistics, each tail at most one in 40', () => {
    // Of 100 shifts the median lies between the 40th and the 61st (David and Nagaraja, Order Statistics,
    // table of section 7.1, from memory); the sums of the binomial are beside it.
    expect(levelRange(made, { level: 51, plain: 51, share: 0.5 }, 0, 0.95)).toEqual({ low: 40, high: 61 });
    expect(binomialCdf(39, 100, 0.5)).toBeLessThanOrEqual(0.025);
    expect(binomialCdf(40, 100, 0.5)).toBeGreaterThan(0.025);
    expect(levelRange(made, { level: 11, plain: 11, share: 0.9 }, 0, 0.95)).toEqual({ low: 5, high: 17 });
  });

  test('gets wider by what the inputs leave open, squares added up, and holds the level told', () => {
    // The runs leave 11 and 10 open, the inputs 6: the roots of 157 and 136, rounded outwards.
    expect(levelRange(made, { level: 47, plain: 51, share: 0.5 }, 6, 0.95)).toEqual({ low: 38, high: 63 });
    expect(levelRange(made, { level: 30, plain: 51, share: 0.5 }, 0, 0.95).low).toBe(30);
    expect(levelRange(made, { level: 11, plain: 11, share: 0.9 }, 30, 0.95).low).toBe(0);
  });

  test('of few shifts says nothing, and a cell then has the level alone', () => {
    const few = spreadOf(frequenciesOf([18, 19, 20, 20, 21, 22, 22, 22, 23, 24]), 0.95);
    expect(few.ranges.nineInTen).toEqual({ low: -Infinity, high: Infinity });
    expect(levelCells(few)).toEqual(['19', '22 (19 to 23)', '24']);
  });

  test('of people who stay until the number is made ends at the number, whatever better times would do', () => {
    const parts = { variance: 4, degrees: Infinity, parts: [4], effects: [2] };
    const open = spreadOf(frequenciesOf(new Array<number>(100).fill(22)), 0.95, parts);
    expect(open.ranges.half).toEqual({ low: 18, high: 26 });
    const capped = spreadOf(frequenciesOf(new Array<number>(100).fill(22)), 0.95, parts, undefined, 22);
    expect(capped.ranges.half).toEqual({ low: 18, high: 22 });
  });

  test('of minutes lies about their percentile', () => {
    expect(percentileRange(hundred, 0.9, 0.95)).toEqual({ low: 84, high: 96 });
    const { low, high } = percentileRange(hundred, 0.9, 0.95, 8, 92);
    // The percentile is 90.1: 6.1 and 5.9 for the runs, 8 for the inputs.
    expect(low).toBeCloseTo(90.1 - Math.hypot(6.1, 8), 9);
    expect(high).toBeCloseTo(90.1 + Math.hypot(5.9, 8), 9);
  });

  test('in words', () => {
    expect(levelCell(18, { low: 16, high: 19 })).toBe('18 (16 to 19)');
    expect(levelCell(18, { low: 18, high: 18 })).toBe('18');
    expect(levelRangeText({ low: 16, high: Infinity })).toBe('');
  });
});

/** Published figures of the statistics behind every printed range. */
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { describe, expect, test } from 'vitest';
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import { differenceInterval } from '../../src/study/intervals/difference-interval.ts';
import { addRow, createMoments, deviationOf } from '../../src/study/intervals/moments.ts';
import { percentileRanks } from '../../src/study/intervals/percentile-interval.ts';
import { studentQuantile } from '../../src/study/intervals/student-quantile.ts';
import { budgetAllocation } from '../study/selection/budget-allocation.ts';
import { kimNelsonConstants } from '../../src/study/selection/kim-nelson.ts';
import { rinottConstant } from '../study/selection/rinott.ts';

describe('Student (any table of the t distribution)', () => {
  test.each([
    [4, 2.776445],
    [9, 2.262157],
    [19, 2.093024],
  ])('95 %% takes t at %i degrees of freedom as %f', (degrees, expected) => {
    expect(studentQuantile(0.95, degrees)).toBeCloseTo(expected, 6);
    expect(tQuantile(0.025, degrees)).toBeCloseTo(-expected, 6);
  });

  // Student, Biometrika 6 (1908): hours of sleep gained with two drugs, ten patients. Interval as printed for
  // the paired t test in the manual of R, data set "sleep".
  test('the paired interval of the sleep data is the published one', () => {
    const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
    const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    const range = differenceInterval(second, first);
    expect(range.low).toBeCloseTo(-2.4598858, 7);
    expect(range.high).toBeCloseTo(-0.7001142, 7);
    expect((range.estimate / range.half) * studentQuantile(0.95, 9)).toBeCloseTo(-4.0621, 4);
  });
});

// Newcombe, Statistics in Medicine 17 (1998) 857-872, method 3.
test.each([
  [81, 263, 0.2552885, 0.3662096],
  [15, 148, 0.0623864, 0.1604872],
  [0, 20, 0, 0.1611252],
])("Wilson's interval of %i in %i is Newcombe's", (successes, count, low, high) => {
  const range = chanceInterval(successes, count);
  expect(range.low).toBeCloseTo(low, 7);
  expect(range.high).toBeCloseTo(high, 7);
});

// Ranks and coverage recomputed from the binomial distribution (David and Nagaraja, Order Statistics, 7.1,
// from memory).
test('order statistics hold the median of 50 and the 90th percentile of 100 between the known ranks', () => {
  const median = percentileRanks(50, 0.5);
  expect(median).toMatchObject({ kind: 'ranks', low: 18, high: 33 });
  expect(median.kind === 'ranks' && median.coverage).toBeCloseTo(0.967161, 6);
  expect(percentileRanks(100, 0.9)).toMatchObject({ kind: 'ranks', low: 84, high: 96 });
});

// National Institute of Standards and Technology, Statistical Reference Datasets, univariate: NumAcc2 and
// NumAcc4.
test.each([
  ['NumAcc2', 1.2, 1.1, 1.3, 12],
  ['NumAcc4', 10000000.2, 10000000.1, 10000000.3, 7],
])('the mean and spread of %s keep their digits', (_, middle, low, high, digits) => {
  const values = [middle, ...Array.from({ length: 1000 }, (__, i) => (i % 2 === 0 ? low : high))];
  const moments = createMoments(1);
  for (const value of values) addRow(moments, [value]);
  expect(Math.abs(moments.mean[0]! / middle - 1)).toBeLessThan(1e-13);
  expect(Math.abs(deviationOf(moments, 0) / 0.1 - 1)).toBeLessThan(10 ** -digits);
});

test('sums of squares in one pass would lose the spread of NumAcc4', () => {
  let [sum, squares] = [10000000.2, 10000000.2 ** 2];
  for (let i = 0; i < 1000; i++) {
    const value = i % 2 === 0 ? 10000000.1 : 10000000.3;
    sum += value;
    squares += value ** 2;
  }
  const naive = Math.sqrt((squares - sum ** 2 / 1001) / 1000);
  expect(Math.abs(naive / 0.1 - 1)).not.toBeLessThan(1e-3);
});

describe('choosing the best of several', () => {
  // Kim and Nelson, ACM TOMACS 11 (2001): eta = ((2 alpha / (k - 1)) ^ (-2 / (n0 - 1)) - 1) / 2, h2 = 2 eta
  // (n0 - 1).
  test("the constants of the sequential procedure follow from the paper's formula", () => {
    const { eta, h2 } = kimNelsonConstants(4, 20, 0.05);
    expect(eta).toBeCloseTo(0.2372383, 7);
    expect(h2).toBeCloseTo(9.015056, 7);
  });

  // Rinott (1978); tables in Wilcox (1984) and Bechhofer, Santner and Goldsman (1995) (from memory;
  // recomputed).
  test.each([
    [2, 2.45247],
    [5, 3.38542],
    [10, 3.87528],
  ])("Rinott's constant for %i candidates, 20 first, 0.95, is %f", (k, h) => {
    expect(rinottConstant(20, k, 0.95)).toBeCloseTo(h, 5);
  });

  // Chen and Lee, Stochastic Simulation Optimization (2011), page 49: smallest mean sought.
  test('fifty replications over five candidates go where the book sends them', () => {
    const shares = budgetAllocation([1, 2, 3, 4, 5], [1, 1, 9, 9, 4], 50, 'less');
    const book = [11.2, 8.62, 19.4, 8.62, 2.16];
    shares.forEach((share, i) => expect(share).toBeCloseTo(book[i]!, 1));
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(50, 9);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileTime } from '../../src/duration/compile.ts';
import { holds } from '../support/holds.ts';

const SEED = 20_261_127;

const given = fc
  .tuple(
    fc.double({ min: 0.01, max: 1, noNaN: true }),
    fc.double({ min: 0.2, max: 200, noNaN: true }),
    fc.double({ min: 1, max: 8, noNaN: true }),
  )
  .map(([lower, usual, upper]) => ({ quick: lower * usual, usual, slow: upper * usual }));

describe('quick, usual, slow', () => {
  it('are met as the 10th, 50th and 90th percentile, whatever the three', () => {
    holds(
      fc.property(given, (time) => {
        const made = compileTime(time);
        const met = (u: number, minutes: number): boolean =>
          Math.abs(made.quantile(u) - minutes) <= 1e-9 * minutes;
        expect(
          met(0.1, time.quick) && met(0.5, time.usual) && met(0.9, time.slow),
          JSON.stringify(time),
        ).toBe(true);
      }),
      { numRuns: 500, seed: SEED },
    );
  });

  it('make a curve that is above 0 and never falls, far into both ends', () => {
    const places = [
      2 ** -33,
      1e-8,
      1e-6,
      1e-4,
      0.01,
      0.09,
      0.11,
      0.3,
      0.499,
      0.501,
      0.7,
      0.91,
      0.99,
      0.9999,
      1 - 1e-6,
      1 - 1e-8,
      1 - 2 ** -33,
    ];
    holds(
      fc.property(given, (time) => {
        const values = places.map((u) => compileTime(time).quantile(u));
        expect(values[0]).toBeGreaterThan(0);
        values.slice(1).forEach((value, i) => expect(value).toBeGreaterThanOrEqual(values[i]! * (1 - 1e-12)));
      }),
      { numRuns: 500, seed: SEED },
    );
  });

  it('scale: twice the three times are twice every time, twice the mean, twice the spread', () => {
    holds(
      fc.property(given, ({ quick, usual, slow }) => {
        fc.pre(slow > 1.001 * quick);
        const once = compileTime({ quick, usual, slow });
        const twice = compileTime({ quick: 2 * quick, usual: 2 * usual, slow: 2 * slow });
        expect(twice.quantile(0.77) / once.quantile(0.77)).toBeCloseTo(2, 10);
        expect(twice.mean / once.mean).toBeCloseTo(2, 9);
        expect(twice.variance / once.variance).toBeCloseTo(4, 7);
      }),
      { numRuns: 100, seed: SEED },
    );
  });

  it('are the lognormal when usual is the geometric middle, mean and variance by its formulas', () => {
    for (const spread of [1.05, 1.5, 2.5]) {
      const made = compileTime({ quick: 8 / spread, usual: 8, slow: 8 * spread });
      const sigma = Math.log(spread) / 1.2815515655446004;
      expect(made.mean / (8 * Math.exp((sigma * sigma) / 2))).toBeCloseTo(1, 10);
      expect(made.variance / (made.mean ** 2 * Math.expm1(sigma * sigma))).toBeCloseTo(1, 8);
      expect(made.percentile(95)).toBeCloseTo(8 * Math.exp(1.6448536269514722 * sigma), 8);
    }
  });

  it('are the published formula, theta exp(lambda sinh(asinh(delta z) + asinh(n c delta))) (Hadlock and Bickel 2017, from memory)', () => {
    holds(
      fc.property(given, fc.double({ min: -5, max: 5, noNaN: true }), ({ quick, usual, slow }, z) => {
        const [low, middle, high] = [Math.log(quick), Math.log(usual), Math.log(slow)];
        const nearer = Math.min(middle - low, high - middle);
        fc.pre(nearer > 0.01 && Math.abs(low + high - 2 * middle) > 0.01);
        const c = 1.2815515655446004;
        const n = Math.sign(low + high - 2 * middle);
        const delta = Math.sinh(Math.acosh((high - low) / (2 * nearer))) / c;
        const lambda = nearer / (delta * c);
        const published =
          (n > 0 ? quick : slow) *
          Math.exp(lambda * Math.sinh(Math.asinh(delta * z) + Math.asinh(n * c * delta)));
        const u = normalShare(z);
        expect(compileTime({ quick, usual, slow }).quantile(u) / published).toBeCloseTo(1, 5);
      }),
      { numRuns: 300, seed: SEED },
    );
  });

  it('have the mean and variance of numerical integration with 25 digits (mpmath), lean or symmetrical, sharp or wide', () => {
    const reckoned = [
      [6, 8, 12, 8.6153390177819, 7.0003251192417],
      [2, 8, 9, 6.4862521784598, 7.7633607481787],
      [8, 8, 12, 9.2494299527086, 4.0362178297176],
      [4, 8, 8.01, 6.731856223837, 2.8328412190456],
      [7.99, 8, 20, 11.872379351752, 55.392171144384],
      [0.01, 8, 16, 7.7705862544244, 44.945091423235],
      [0, 8, 12, 7.1047448646904, 17.540596012597],
      [1, 8, 64, 29.840061043348, 11498.074458734],
    ] as const;
    for (const [quick, usual, slow, mean, variance] of reckoned) {
      const made = compileTime({ quick, usual, slow });
      expect(Math.abs(made.mean / mean - 1), `${quick} ${usual} ${slow}`).toBeLessThan(1e-11);
      expect(Math.abs(made.variance / variance - 1), `${quick} ${usual} ${slow}`).toBeLessThan(1e-10);
    }
  });

  it('with nothing as the quickest: the three are still met, the quickest tenth takes no time, the mean is right', () => {
    const made = compileTime({ quick: 0, usual: 8, slow: 12 });
    expect([0.05, 0.1, 0.5, 0.9].map((u) => Number(made.quantile(u).toFixed(9)))).toEqual([0, 0, 8, 12]);
    expect(made.quantile(0.101)).toBeGreaterThan(0);
    const steps = 1_000_000;
    let sum = 0;
    for (let i = 0; i < steps; i++) sum += made.quantile((i + 0.5) / steps);
    expect(made.mean).toBeCloseTo(sum / steps, 4);
  });

  it('all but the same are all but always the same: neighbors among the numbers, on either side or both', () => {
    const next = (value: number): number => value * (1 + Number.EPSILON);
    for (const usual of [9.368366956932187, 0.1, 1, 8, 29.99, 1e-7, 54_321]) {
      const [under, over] = [usual * (1 - Number.EPSILON), next(usual)];
      for (const [quick, slow] of [
        [usual, over],
        [under, usual],
        [under, over],
        [under, next(over)],
      ] as const) {
        const made = compileTime({ quick, usual, slow });
        const seen = [made.mean, ...[1e-6, 0.1, 0.3, 0.5, 0.7, 0.9, 1 - 1e-6].map((u) => made.quantile(u))];
        for (const minutes of seen)
          expect(Math.abs(minutes / usual - 1), `${quick} ${usual} ${slow}`).toBeLessThan(1e-13);
        expect(made.variance / (usual * usual)).toBeLessThan(1e-26);
      }
    }
  });

  it('all the same are always the same', () => {
    const made = compileTime({ quick: 8, usual: 8, slow: 8 });
    expect([made.mean, made.variance, made.quantile(0.01), made.quantile(0.99)]).toEqual([8, 0, 8, 8]);
  });
});

/** Normal distribution function by Simpson's rule on its density, to 1e-10. */
function normalShare(z: number): number {
  const steps = 2000;
  const h = z / steps;
  const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  let sum = density(0) + density(z);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * density(i * h);
  return 0.5 + (sum * h) / 3;
}

import { describe, expect, it } from 'vitest';
import { compileTime, LIST, type CompiledTime } from '../../src/duration/compile.ts';
import { CASES } from './cases.ts';

/**
 * Mean and variance by adding up a curve's exact quantile over u = v^3 (10 - 15 v + 6 v^2), which is dense at
 * both ends.
 */
function momentsOfQuantile(time: CompiledTime): { mean: number; variance: number } {
  const steps = 200_000;
  let mean = 0;
  let squares = 0;
  for (let i = 0; i < steps; i++) {
    const v = (i + 0.5) / steps;
    const u = v ** 3 * (10 - 15 * v + 6 * v * v);
    if (u >= 1) continue;
    const weight = (30 * v * v * (1 - v) * (1 - v)) / steps;
    const away = time.quantile(u) - time.mean;
    mean += weight * away;
    squares += weight * away * away;
  }
  return { mean: time.mean + mean, variance: squares - mean * mean };
}

describe('each curve', () => {
  it('has the mean and standard deviation of its own quantile', () => {
    for (const time of CASES) {
      const made = compileTime(time);
      const { mean, variance } = momentsOfQuantile(made);
      const within = made.kind === LIST ? 1e-4 : 2e-7;
      expect(Math.abs(mean - made.mean), JSON.stringify(time)).toBeLessThanOrEqual(
        within * (made.mean + 1e-9),
      );
      expect(
        Math.abs(Math.sqrt(Math.max(0, variance)) - made.standardDeviation),
        JSON.stringify(time),
      ).toBeLessThanOrEqual(1e-4 * (made.mean + 1e-9));
    }
  });

  it('never falls, never goes below nothing, and gives back the share of times up to a percentile', () => {
    for (const time of CASES) {
      const made = compileTime(time);
      let last = 0;
      for (let percent = 0.5; percent < 100; percent += 0.5) {
        const value = made.percentile(percent);
        expect(value, JSON.stringify(time)).toBeGreaterThanOrEqual(last);
        expect(made.cdf(value), JSON.stringify(time)).toBeGreaterThanOrEqual(percent / 100 - 1e-9);
        if (value > 0)
          expect(made.cdf(value * (1 - 1e-9) - 1e-12), JSON.stringify(time)).toBeLessThanOrEqual(
            percent / 100 + 1e-6,
          );
        last = value;
      }
    }
  });
});

describe('the published formulas', () => {
  it('lognormal of mean 8 and squared cv 0.25: median exp(1.96786977), 95th percentile 15.562543', () => {
    const made = compileTime({ mean: 8, cv: 0.5 });
    expect(Math.log(made.quantile(0.5))).toBeCloseTo(1.96786977, 8);
    expect(Math.log(made.quantile(0.841344746068543) / made.quantile(0.5))).toBeCloseTo(0.47238073, 7);
    expect(made.percentile(95)).toBeCloseTo(15.562543, 6);
    expect([made.mean, made.standardDeviation]).toEqual([8, 4]);
  });

  it('gamma: chi-square with 10 degrees of freedom has mean 10, variance 20 and the tabled points 3.940, 9.342 and 18.307', () => {
    const made = compileTime({ curve: 'gamma', mean: 10, cv: Math.sqrt(0.2) });
    expect(made.mean).toBe(10);
    expect(made.variance).toBeCloseTo(20, 10);
    expect([5, 50, 95].map((percent) => Number(made.percentile(percent).toFixed(3)))).toEqual([
      3.94, 9.342, 18.307,
    ]);
  });

  it('gamma of a small cv: chi-square with 2000 degrees of freedom, percentage points reckoned with 30 digits (mpmath)', () => {
    const made = compileTime({ curve: 'gamma', mean: 2000, cv: Math.sqrt(1 / 1000) });
    const points = [
      [0.001, 1810.24158187],
      [0.1, 1919.387865458],
      [0.5, 1999.333372854],
      [0.999, 2201.156196587],
    ] as const;
    for (const [u, point] of points) expect(made.quantile(u)).toBeCloseTo(point, 6);
  });

  it('gamma is one curve on both sides of the cv where its quantile changes method', () => {
    for (const u of [2 ** -33, 1e-3, 0.3, 0.5, 0.9, 1 - 1e-6]) {
      const below = compileTime({ curve: 'gamma', mean: 1, cv: 0.05 * (1 - 1e-9) }).quantile(u);
      const above = compileTime({ curve: 'gamma', mean: 1, cv: 0.05 * (1 + 1e-9) }).quantile(u);
      expect(Math.abs(below - above)).toBeLessThan(2e-8 * 0.05 + 1e-9);
    }
  });

  it('Weibull: of shape 2, mean scale root(pi) / 2 and variance scale^2 (1 - pi / 4); the scale is the 63.2nd percentile', () => {
    const made = compileTime({ curve: 'weibull', shape: 2, scale: 10 });
    expect(made.mean).toBeCloseTo(10 * (Math.sqrt(Math.PI) / 2), 9);
    expect(made.variance).toBeCloseTo(100 * (1 - Math.PI / 4), 8);
    expect(made.quantile(1 - Math.exp(-1))).toBeCloseTo(10, 10);
  });

  it('exponential: median mean ln 2, standard deviation the mean', () => {
    const made = compileTime({ curve: 'exponential', mean: 8 });
    expect(made.quantile(0.5)).toBeCloseTo(8 * Math.LN2, 12);
    expect(made.standardDeviation).toBe(8);
  });

  it('triangular 2, 5, 11: mean 6, variance 3.5, a third of the times under the likeliest', () => {
    const made = compileTime({ curve: 'triangular', least: 2, likeliest: 5, most: 11 });
    expect(made.mean).toBe(6);
    expect(made.variance).toBeCloseTo(3.5, 12);
    expect(made.cdf(5)).toBeCloseTo(1 / 3, 12);
  });

  it('uniform 2 to 8: mean 5, variance 3', () => {
    const made = compileTime({ curve: 'uniform', least: 2, most: 8 });
    expect([made.mean, made.variance, made.quantile(0.25)]).toEqual([5, 3, 3.5]);
  });

  it('observations: each as likely as the next, in any order they were written down', () => {
    const made = compileTime({ curve: 'observed', values: [9, 4, 5, 2] });
    expect([0.1, 0.25, 0.5, 0.75, 0.99].map((u) => made.quantile(u))).toEqual([2, 4, 5, 9, 9]);
    expect([made.mean, made.variance]).toEqual([5, 6.5]);
    expect([1.9, 2, 4.5, 9].map((minutes) => made.cdf(minutes))).toEqual([0, 0.25, 0.5, 1]);
  });
});

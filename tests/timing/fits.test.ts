import kstest from '@stdlib/stats-kstest';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adjustedForNormal,
  andersonDarling,
  goodnessOf,
  grainOf,
  kolmogorovSmirnov,
  normalOfLogs,
  normalP,
} from '../../src/timing/goodness.ts';
import { luckOf } from '../../src/timing/luck.ts';
import {
  cdfOf,
  FITTED_KINDS,
  fitCurve,
  fitGamma,
  fitLognormal,
  fitWeibull,
  logLikelihoodOf,
  momentsOf,
  quantileOf,
  timeOf,
  type Fitted,
} from '../../src/timing/maximum-likelihood.ts';
import { holds } from '../support/holds.ts';

const drawn = (curve: Fitted, count: number, seed: number): number[] => {
  const luck = luckOf('fits', seed, 1);
  return Array.from({ length: count }, (_, i) => quantileOf(curve, luck(i)));
};
const CURVES: Fitted[] = [
  { curve: 'lognormal', mu: 2.2, sigma: 0.3 },
  { curve: 'gamma', shape: 9, scale: 1.5 },
  { curve: 'weibull', shape: 3, scale: 14 },
];
const twoOf = (fitted: Fitted): [number, number] =>
  fitted.curve === 'lognormal' ? [fitted.mu, fitted.sigma] : [fitted.shape, fitted.scale];

describe.each(CURVES)('the $curve fit', (curve) => {
  it('finds the curve again from 20,000 of its own times, within 4 standard errors', () => {
    const [first, second] = twoOf(fitCurve(curve.curve, drawn(curve, 20_000, 1))!);
    // Standard errors at n = 20,000 from the Fisher information, rounded up: lognormal sigma/sqrt(n),
    // sigma/sqrt(2n); gamma shape k sqrt(2/n) nearly, scale likewise; Weibull 0.78 k/sqrt(n), 1.05 scale/(k
    // sqrt(n)).
    const errors = { lognormal: [0.0022, 0.0016], gamma: [0.09, 0.016], weibull: [0.017, 0.035] }[
      curve.curve
    ];
    expect(Math.abs(first - twoOf(curve)[0])).toBeLessThan(4 * errors[0]!);
    expect(Math.abs(second - twoOf(curve)[1])).toBeLessThan(4 * errors[1]!);
  });

  it('is a maximum: no step away raises the likelihood', () => {
    const values = drawn(curve, 25, 2);
    const best = fitCurve(curve.curve, values)!;
    const top = logLikelihoodOf(best, values);
    const [a, b] = twoOf(best);
    for (const [da, db] of [
      [1e-4, 0],
      [-1e-4, 0],
      [0, 1e-4],
      [0, -1e-4],
      [1e-4, -1e-4],
    ] as const) {
      const near: Fitted =
        best.curve === 'lognormal'
          ? { ...best, mu: a * (1 + da), sigma: b * (1 + db) }
          : { ...best, shape: a * (1 + da), scale: b * (1 + db) };
      expect(logLikelihoodOf(near, values)).toBeLessThan(top);
    }
  });

  it('turns quantiles back into shares, and its moments are those of its draws', () => {
    for (const share of [0.01, 0.1, 0.5, 0.9, 0.99])
      expect(cdfOf(curve, quantileOf(curve, share))).toBeCloseTo(share, 9);
    const steps = 20_000;
    const values = Array.from({ length: steps }, (_, i) => quantileOf(curve, (i + 0.5) / steps));
    expect(values.reduce((sum, value) => sum + value, 0) / steps / momentsOf(curve).mean).toBeCloseTo(1, 3);
  });

  it('goes with minutes as with seconds', () => {
    holds(
      fc.property(
        fc.array(fc.double({ min: 0.5, max: 90, noNaN: true }), { minLength: 3, maxLength: 30 }),
        (values) => {
          const once = fitCurve(curve.curve, values);
          const sixty = fitCurve(
            curve.curve,
            values.map((value) => value * 60),
          );
          if (once === null || sixty === null || momentsOf(once).cv < 1e-3) return;
          expect(momentsOf(sixty).mean / momentsOf(once).mean / 60).toBeCloseTo(1, 6);
          expect(momentsOf(sixty).cv / momentsOf(once).cv).toBeCloseTo(1, 6);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });

  it('refuses as often as it says: 5 % of its own samples of 25 under p 0.05', () => {
    const studies = 200;
    let refused = 0;
    for (let study = 0; study < studies; study += 1) {
      const values = drawn(curve, 25, 100 + study);
      if (goodnessOf(fitCurve(curve.curve, values)!, values, luckOf('goodness', study, 2), 99).p <= 0.05)
        refused += 1;
    }
    // Binomial(200, 0.05): mean 10, standard deviation 3.1; 3.3 of them either side.
    expect(refused).toBeGreaterThanOrEqual(1);
    expect(refused).toBeLessThanOrEqual(20);
  });
});

describe('fits that cannot be', () => {
  it('says so where there is one time, or all are alike', () => {
    for (const kind of FITTED_KINDS)
      for (const values of [[], [5], [5, 5, 5]]) expect(fitCurve(kind, values)).toBeNull();
  });
  it('keeps out of the file what the file would refuse', () => {
    expect(timeOf({ curve: 'lognormal', mu: 1, sigma: 2.5 })).toBeNull();
    expect(timeOf({ curve: 'weibull', shape: 3, scale: 14 })).toEqual({
      curve: 'weibull',
      shape: 3,
      scale: 14,
    });
  });
  it('is not thrown by pieces that were all but alike or worlds apart', () => {
    holds(
      fc.property(fc.array(fc.double({ min: 1e-3, max: 1440, noNaN: true }), { maxLength: 12 }), (values) => {
        for (const fit of [fitLognormal(values), fitGamma(values), fitWeibull(values)]) {
          if (fit !== null) expect(twoOf(fit).every(Number.isFinite)).toBe(true);
        }
      }),
      { seed: 4, numRuns: 500 },
    );
  });
});

describe('distances', () => {
  const values = drawn(CURVES[0]!, 40, 5).sort((a, b) => a - b);
  it('has the Kolmogorov-Smirnov distance that the library gives', () => {
    const shares = values.map((value) => cdfOf(CURVES[0]!, value));
    expect(kolmogorovSmirnov(shares)).toBeCloseTo(
      kstest(values, (value: number) => cdfOf(CURVES[0]!, value)).statistic,
      12,
    );
  });
  it('has the Anderson-Darling distance of its integral', () => {
    // A2 = n times the integral of (F_n - u)^2 / (u (1 - u)), here by a fine sum between the steps of F_n.
    const shares = [0.1, 0.3, 0.35, 0.8];
    let sum = 0;
    const steps = 2_000_000;
    for (let i = 0; i < steps; i += 1) {
      const u = (i + 0.5) / steps;
      const seen = shares.filter((share) => share <= u).length / 4;
      sum += ((seen - u) * (seen - u)) / (u * (1 - u)) / steps;
    }
    expect(andersonDarling(shares)).toBeCloseTo(4 * sum, 5);
  });
  it('refuses logs of a plainly different curve, and takes logs of a lognormal', () => {
    expect(normalOfLogs(Array.from({ length: 40 }, (_, i) => (i % 2 ? 5 : 20) + i / 100))!.refused).toBe(
      true,
    );
    expect(normalOfLogs(values)!.refused).toBe(false);
    expect(normalOfLogs(values.slice(0, 7))).toBeNull();
  });
  it('joins its pieces of p without jumps', () => {
    for (const joint of [0.2, 0.34, 0.6]) expect(normalP(joint - 1e-9)).toBeCloseTo(normalP(joint), 2);
    expect(adjustedForNormal(1, 10)).toBeCloseTo(1.0975, 12);
  });
  it('sees the step of the watch', () => {
    expect([grainOf([4, 7, 12]), grainOf([4.5, 7]), grainOf([4.3, 7.1]), grainOf([4.31])]).toEqual([
      1,
      0.5,
      0.1,
      null,
    ]);
  });
});

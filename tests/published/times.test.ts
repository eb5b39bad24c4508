/**
 * Published figures for fits and work measurement. [R]: the figure was read in the source; [M]: recalled from
 * memory.
 */
import { describe, expect, it } from 'vitest';
import { NORMAL_FIVE_PERCENT, normalP } from '../../src/timing/goodness.ts';
import {
  meanAndDeviation,
  neededFor,
  normalTime,
  sampleSizeAt,
  standardTime,
  takt,
} from '../../src/timing/work-measurement.ts';
import {
  fitGamma,
  fitLognormal,
  fitWeibull,
  logLikelihoodOf,
  momentsOf,
  quantileOf,
} from '../../src/timing/maximum-likelihood.ts';

describe('NIST/SEMATECH e-Handbook of Statistical Methods', () => {
  it('8.4.1 [R]: ten failures and ten still running at 500 h give Weibull shape 1.7207973, scale 606.527558', () => {
    const ended = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386];
    const fit = fitWeibull(ended, Array<number>(10).fill(500));
    expect(fit).toMatchObject({ curve: 'weibull' });
    if (fit?.curve !== 'weibull') throw new Error('no Weibull');
    expect(fit.shape).toBeCloseTo(1.7207973, 6);
    expect(fit.scale).toBeCloseTo(606.527558, 4);
  });
  it('Anderson-Darling for the normal, both estimated [R]: 5 % at 0.752; 10 %, 2.5 % and 1 % at 0.631, 0.873 and 1.035 [M]', () => {
    expect(normalP(NORMAL_FIVE_PERCENT)).toBeCloseTo(0.05, 3);
    expect(normalP(0.631)).toBeCloseTo(0.1, 3);
    expect(normalP(0.873)).toBeCloseTo(0.025, 3);
    expect(normalP(1.035)).toBeCloseTo(0.01, 3);
  });
});

describe('ball bearings, millions of turns (Lieblein and Zelen 1956; data and figures as in Lawless, Statistical Models and Methods for Lifetime Data [M])', () => {
  const bearings = [
    17.88, 28.92, 33, 41.52, 42.12, 45.6, 48.48, 51.84, 51.96, 54.12, 55.56, 67.8, 68.64, 68.64, 68.88, 84.12,
    93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.4,
  ];
  it('Weibull shape 2.10, scale 81.9, log-likelihood -113.69', () => {
    const fit = fitWeibull(bearings)!;
    expect(fit.curve === 'weibull' && [fit.shape.toFixed(2), fit.scale.toFixed(1)]).toEqual(['2.10', '81.9']);
    expect(logLikelihoodOf(fit, bearings)).toBeCloseTo(-113.69, 1);
  });
  it('lognormal mu 4.150, sigma 0.522; gamma shape 4.03: log-likelihoods -113.13 and -113.03', () => {
    const [normal, gamma] = [fitLognormal(bearings)!, fitGamma(bearings)!];
    expect(normal.curve === 'lognormal' && [normal.mu.toFixed(2), normal.sigma.toFixed(3)]).toEqual([
      '4.15',
      '0.522',
    ]);
    expect(gamma.curve === 'gamma' && gamma.shape).toBeCloseTo(4.03, 1);
    expect(logLikelihoodOf(normal, bearings)).toBeCloseTo(-113.13, 1);
    expect(logLikelihoodOf(gamma, bearings)).toBeCloseTo(-113.03, 1);
  });
});

describe('the lognormal by its mean and spread (recomputed)', () => {
  it('mean 8, squared cv 0.25: mu 1.96786977, sigma 0.47238073, 95th percentile 15.562543', () => {
    const curve = { curve: 'lognormal' as const, mu: 1.96786977, sigma: 0.47238073 };
    expect(momentsOf(curve).mean).toBeCloseTo(8, 6);
    expect(momentsOf(curve).cv ** 2).toBeCloseTo(0.25, 6);
    expect(quantileOf(curve, 0.95)).toBeCloseTo(15.562543, 5);
  });
});

describe('time study (Heizer and Render, Operations Management, ch. 10 [R])', () => {
  it('10.26: 3.5 3.2 4.1 3.6 3.9 at 95 % and 5 % take 14.10961, so 15 observations', () => {
    const values = [3.5, 3.2, 4.1, 3.6, 3.9];
    const { mean, deviation } = meanAndDeviation(values);
    expect(sampleSizeAt(1.96, mean, deviation, 0.05)).toBeCloseTo(14.10961, 5);
    expect(neededFor(values, 0.05, 0.95)).toMatchObject({ have: 5, inAll: 15, more: 10 });
  });
  it('10.28: 37.80 12.50 4.0 17.75 rated 1.2 1.1 .9 .85, 15 % of the day: 91.53', () => {
    const normal = [
      [37.8, 1.2],
      [12.5, 1.1],
      [4, 0.9],
      [17.75, 0.85],
    ].reduce((sum, [observed, rating]) => sum + normalTime(observed!, rating!), 0);
    expect(standardTime(normal, 0.15, 'of the day').toFixed(2)).toBe('91.53');
    expect(standardTime(normal, 0.15, 'of the job').toFixed(2)).toBe('89.47');
  });
  it('takt: (480 - 40 - 30) x 2 minutes for 80 pieces is 10.25', () =>
    expect(takt((480 - 40 - 30) * 2, 80)).toBeCloseTo(10.25, 12));
});

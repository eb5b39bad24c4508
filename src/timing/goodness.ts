/** How well a fitted curve agrees with the observations. */
import { exp, log } from '../random/exact.ts';
import { cdfOf, fitCurve, quantileOf, type Fitted } from './maximum-likelihood.ts';
import { type Luck } from './luck.ts';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

export interface Goodness {
  /** Anderson and Darling's distance between the curve and the observations. */
  andersonDarling: number;
  /** Kolmogorov and Smirnov's: the largest gap between the two running shares. */
  kolmogorovSmirnov: number;
  /**
   * Chance of a distance (Anderson-Darling) this large or larger, if the curve were right, the curve fitted
   * each time.
   */
  p: number;
  /** Samples drawn to find p, and observations in each. */
  draws: number;
  of: number;
}

export interface NormalOfLogs {
  /** A2, and A2 (1 + 0.75/n + 2.25/n2). */
  statistic: number;
  adjusted: number;
  p: number;
  /** Over 0.752: lognormal is refused at the 5 % level. */
  refused: boolean;
}

/**
 * Upper 5 % point of the adjusted statistic, mean and variance both estimated (Stephens 1974; D'Agostino and
 * Stephens 1986, table 4.7).
 */
export const NORMAL_FIVE_PERCENT = 0.752;
const NEVER_QUITE = 1e-15;
const MOST_IN_A_DRAW = 1000;

/** A2 = -n - sum (2i - 1)(ln F(x_i) + ln(1 - F(x_(n+1-i)))) / n, of shares F in ascending order. */
export function andersonDarling(shares: readonly number[]): number {
  const count = shares.length;
  let sum = 0;
  for (let i = 0; i < count; i += 1) {
    const below = Math.max(NEVER_QUITE, shares[i]!);
    const above = Math.max(NEVER_QUITE, 1 - shares[count - 1 - i]!);
    sum += (2 * i + 1) * (log(below) + log(above));
  }
  return -count - sum / count;
}

/** The largest gap between shares F in ascending order and i/n. */
export function kolmogorovSmirnov(shares: readonly number[]): number {
  const count = shares.length;
  return shares.reduce((most, share, i) => Math.max(most, share - i / count, (i + 1) / count - share), 0);
}

/**
 * Anderson-Darling test of the logarithms for normality, mean and variance estimated (divisor n - 1), with
 * the published correction for small samples; p by the formulas of D'Agostino and Stephens 1986, table 4.9
 * (from memory; they give 5 % at 0.752). Null under eight observations, where the correction was not made for
 * it, or where all are alike.
 */
export function normalOfLogs(values: readonly number[]): NormalOfLogs | null {
  const count = values.length;
  if (count < 8 || values.every((value) => value === values[0])) return null;
  const logs = values.map(log).sort((a, b) => a - b);
  const mean = logs.reduce((sum, value) => sum + value, 0) / count;
  const deviation = Math.sqrt(
    logs.reduce((sum, value) => sum + (value - mean) * (value - mean), 0) / (count - 1),
  );
  const statistic = andersonDarling(logs.map((value) => normalCdf(value, mean, deviation)));
  const adjusted = adjustedForNormal(statistic, count);
  return { statistic, adjusted, p: normalP(adjusted), refused: adjusted > NORMAL_FIVE_PERCENT };
}

export const adjustedForNormal = (statistic: number, count: number): number =>
  statistic * (1 + 0.75 / count + 2.25 / (count * count));

/** p of the adjusted statistic. */
export function normalP(a: number): number {
  if (a >= 0.6) return Math.min(1, exp(1.2937 - 5.709 * a + 0.0186 * a * a));
  if (a >= 0.34) return exp(0.9177 - 4.279 * a - 1.38 * a * a);
  if (a >= 0.2) return 1 - exp(-8.318 + 42.796 * a - 59.938 * a * a);
  return 1 - exp(-13.436 + 101.14 * a - 223.73 * a * a);
}

/** The coarsest of the usual steps of a watch that all times keep to, minutes; null where finer. */
export function grainOf(values: readonly number[]): number | null {
  return (
    [5, 1, 0.5, 0.25, 0.1].find((grain) =>
      values.every((value) => Math.abs(value / grain - Math.round(value / grain)) < 1e-6),
    ) ?? null
  );
}

/**
 * Goodness of fit by a parametric bootstrap: samples as large as ours are drawn from the fitted curve,
 * rounded as ours are, fitted again and measured. (The textbook tables of these two distances hold for curves
 * known beforehand; ours was fitted to the same times, which brings it nearer, and whole minutes take it
 * further away.) Over 1000 observations every k-th is taken.
 * @param luck at least draws x 1000 numbers.
 */
export function goodnessOf(fitted: Fitted, values: readonly number[], luck: Luck, draws = 199): Goodness {
  const every = Math.ceil(values.length / MOST_IN_A_DRAW);
  const used = every === 1 ? values : values.filter((_, i) => i % every === 0);
  const own = every === 1 ? fitted : (fitCurve(fitted.curve, used) ?? fitted);
  const sharesOf = (sample: readonly number[], curve: Fitted): number[] =>
    sample.map((value) => cdfOf(curve, value)).sort((a, b) => a - b);
  const shares = sharesOf(used, own);
  const distance = andersonDarling(shares);
  const grain = grainOf(used);
  let asFar = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    const sample = used.map((_, i) => rounded(quantileOf(own, luck(draw * MOST_IN_A_DRAW + i)), grain));
    const again = fitCurve(own.curve, sample);
    if (again === null || andersonDarling(sharesOf(sample, again)) >= distance) asFar += 1;
  }
  return {
    andersonDarling: distance,
    kolmogorovSmirnov: kolmogorovSmirnov(shares),
    p: (1 + asFar) / (1 + draws),
    draws,
    of: used.length,
  };
}

const rounded = (value: number, grain: number | null): number =>
  grain === null ? value : Math.max(grain, Math.round(value / grain) * grain);

/**
 * Lognormal, gamma and Weibull curves by maximum likelihood. Only functions that are the same on every
 * machine are used, so the same observations give the same curve everywhere. A fit is null where there is
 * none: fewer than two observations, or all alike.
 */
import digamma from '@stdlib/math-base-special-digamma';
import gammaln from '@stdlib/math-base-special-gammaln';
import trigamma from '@stdlib/math-base-special-trigamma';
import gammaCdf from '@stdlib/stats-base-dists-gamma-cdf';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { exp, gammaFunction, gammaQuantile, log, normalQuantile, power } from '../random/exact.ts';
import { isTime, type Time, type TimeKind } from '../duration/time.ts';

/** A curve in minutes by its natural parameters. */
export type Fitted =
  | { curve: 'lognormal'; mu: number; sigma: number }
  | { curve: 'gamma'; shape: number; scale: number }
  | { curve: 'weibull'; shape: number; scale: number };
export type FittedKind = Fitted['curve'];
export const FITTED_KINDS = ['lognormal', 'gamma', 'weibull'] as const satisfies readonly (FittedKind &
  TimeKind)[];

const HALF_LOG_TWO_PI = log(2 * Math.PI) / 2;
const MOST_STEPS = 200;

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const hasSpread = (values: readonly number[]): boolean =>
  values.length >= 2 && values.some((value) => value !== values[0]);

/** mu and sigma are the mean and the standard deviation (divisor n) of the logarithms. */
export function fitLognormal(values: readonly number[]): Fitted | null {
  if (!hasSpread(values)) return null;
  const logs = values.map(log);
  const mu = meanOf(logs);
  return {
    curve: 'lognormal',
    mu,
    sigma: Math.sqrt(meanOf(logs.map((value) => (value - mu) * (value - mu)))),
  };
}

/**
 * The shape k solves ln k - digamma(k) = ln(mean) - mean of the logarithms; scale = mean / k. Newton's steps
 * on 1/k from the start of Minka ("Estimating a Gamma distribution", 2002; from memory), which come down to
 * the root from any side.
 */
export function fitGamma(values: readonly number[]): Fitted | null {
  if (!hasSpread(values)) return null;
  const mean = meanOf(values);
  const gap = log(mean) - meanOf(values.map(log));
  if (!(gap > 0)) return null;
  let shape = (3 - gap + Math.sqrt((gap - 3) * (gap - 3) + 24 * gap)) / (12 * gap);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const off = log(shape) - digamma(shape) - gap;
    const next = 1 / (1 / shape + off / (shape * shape * (1 / shape - trigamma(shape))));
    if (!(next > 0) || !Number.isFinite(next)) return null;
    const moved = Math.abs(next - shape);
    shape = next;
    if (moved <= 1e-13 * shape) break;
  }
  return { curve: 'gamma', shape, scale: mean / shape };
}

/**
 * Weibull, also where some pieces were still going on when the watch was stopped (`stillGoing`,
 * right-censored). The shape k is the one root of sum(x^k ln x) / sum(x^k) - 1/k - mean of the logarithms of
 * `values`, sums over all; scale^k = sum(x^k) / number ended. Newton's steps, halving between brackets where
 * one would leave them.
 */
export function fitWeibull(values: readonly number[], stillGoing: readonly number[] = []): Fitted | null {
  const all = [...values, ...stillGoing];
  if (values.length === 0 || !hasSpread(all)) return null;
  const most = all.reduce((a, b) => Math.max(a, b));
  const logs = all.map((value) => log(value / most));
  const endedMean = meanOf(logs.slice(0, values.length));
  let [low, high] = [0, Infinity];
  let shape = 1;
  let sum = 0;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    let [first, second] = [0, 0];
    sum = 0;
    for (const value of logs) {
      const weight = exp(shape * value);
      sum += weight;
      first += weight * value;
      second += weight * value * value;
    }
    const off = first / sum - 1 / shape - endedMean;
    if (off > 0) high = shape;
    else low = shape;
    const slope = (second * sum - first * first) / (sum * sum) + 1 / (shape * shape);
    let next = shape - off / slope;
    if (!(next > low && next < high)) next = high === Infinity ? shape * 2 : (low + high) / 2;
    const moved = Math.abs(next - shape);
    if (moved <= 1e-13 * shape || next > 1e6) break;
    shape = next;
  }
  if (shape > 1e5) return null;
  return { curve: 'weibull', shape, scale: most * power(sum / values.length, 1 / shape) };
}

export function fitCurve(kind: FittedKind, values: readonly number[]): Fitted | null {
  if (kind === 'lognormal') return fitLognormal(values);
  return kind === 'gamma' ? fitGamma(values) : fitWeibull(values);
}

/** Share of times at most `minutes`. */
export function cdfOf(fitted: Fitted, minutes: number): number {
  if (minutes <= 0) return 0;
  if (fitted.curve === 'lognormal') return normalCdf(log(minutes), fitted.mu, fitted.sigma);
  if (fitted.curve === 'gamma') return gammaCdf(minutes, fitted.shape, 1 / fitted.scale);
  return 1 - exp(-power(minutes / fitted.scale, fitted.shape));
}

/** The time that a share `u` of all times does not exceed, 0 < u < 1. */
export function quantileOf(fitted: Fitted, u: number): number {
  if (fitted.curve === 'lognormal') return exp(fitted.mu + fitted.sigma * normalQuantile(u));
  if (fitted.curve === 'gamma') return fitted.scale * gammaQuantile(u, fitted.shape);
  return fitted.scale * power(-log(1 - u), 1 / fitted.shape);
}

/** Logarithm of the density at `minutes` (more than 0), in 1/minutes. */
export function logDensityOf(fitted: Fitted, minutes: number): number {
  const x = log(minutes);
  if (fitted.curve === 'lognormal') {
    const z = (x - fitted.mu) / fitted.sigma;
    return -x - log(fitted.sigma) - HALF_LOG_TWO_PI - (z * z) / 2;
  }
  const { shape, scale } = fitted;
  if (fitted.curve === 'gamma')
    return (shape - 1) * x - minutes / scale - shape * log(scale) - gammaln(shape);
  const y = x - log(scale);
  return log(shape / scale) + (shape - 1) * y - exp(shape * y);
}

export const logLikelihoodOf = (fitted: Fitted, values: readonly number[]): number =>
  values.reduce((sum, value) => sum + logDensityOf(fitted, value), 0);

/** Mean (minutes) and coefficient of variation. */
export function momentsOf(fitted: Fitted): { mean: number; cv: number } {
  if (fitted.curve === 'lognormal') {
    const square = fitted.sigma * fitted.sigma;
    return { mean: exp(fitted.mu + square / 2), cv: Math.sqrt(exp(square) - 1) };
  }
  if (fitted.curve === 'gamma') return { mean: fitted.shape * fitted.scale, cv: 1 / Math.sqrt(fitted.shape) };
  const first = gammaFunction(1 + 1 / fitted.shape);
  const second = gammaFunction(1 + 2 / fitted.shape);
  return { mean: fitted.scale * first, cv: Math.sqrt(Math.max(0, second / (first * first) - 1)) };
}

/**
 * The curve as a time of the scenario file, to six figures; null where the file does not take it (a cv over
 * 5 or under 0.001, say).
 */
export function timeOf(fitted: Fitted): Time | null {
  const { mean, cv } = momentsOf(fitted);
  const time =
    fitted.curve === 'lognormal'
      ? { mean: sixFigures(mean), cv: sixFigures(cv) }
      : fitted.curve === 'gamma'
        ? { curve: 'gamma' as const, mean: sixFigures(mean), cv: sixFigures(cv) }
        : { curve: 'weibull' as const, shape: sixFigures(fitted.shape), scale: sixFigures(fitted.scale) };
  return isTime(time) ? time : null;
}

export const sixFigures = (value: number): number => Number(value.toPrecision(6));

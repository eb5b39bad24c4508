/**
 * What a time is drawn from, in minutes: always the same, continuous, or a list of values. The curves of the
 * file (curves/) are made into these; the rest of the house sees nothing else of them.
 */
import { normalQuantile } from '../random/exact.ts';

/** The true mean (minutes) and variance (minutes squared). */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
}

/** Always the same. */
export interface Constant {
  readonly kind: 'constant';
  readonly mean: number;
}

/**
 * `moments` are worked out when asked for; `quantile(u)`, 0 < u < 1, is exact and never falls; `longest` is
 * the end of its support in minutes, Infinity where it has none; `kinks` are the u at which the slope of the
 * quantile jumps (the sampling table leaves those places to `quantile` itself). `atNormal`: where the time is
 * a function of a standard normal deviate, that function; the quantiles of the deviate are then shared.
 */
export interface Continuous {
  readonly kind: 'continuous';
  readonly longest: number;
  readonly kinks: readonly number[];
  readonly atNormal: ((z: number) => number) | null;
  moments(): Moments;
  quantile(u: number): number;
}

/** Equally likely values, ascending, at least one. */
export interface Empirical {
  readonly kind: 'empirical';
  readonly values: Float64Array;
}

export type Distribution = Constant | Continuous | Empirical;

export const constant = (mean: number): Constant => ({ kind: 'constant', mean });

/** Continuous, by its quantile function. */
export const byQuantile = (
  quantile: (u: number) => number,
  moments: () => Moments,
  longest: number,
  kinks: readonly number[] = [],
): Continuous => ({ kind: 'continuous', longest, kinks, atNormal: null, moments, quantile });

/** Continuous without an end, by its value at a standard normal deviate. */
export const byNormal = (
  atNormal: (z: number) => number,
  moments: () => Moments,
  kinks: readonly number[] = [],
): Continuous => ({
  kind: 'continuous',
  longest: Infinity,
  kinks,
  atNormal,
  moments,
  quantile: (u) => atNormal(normalQuantile(u)),
});

import { normalQuantile } from '../random/exact.ts';

/** The true mean (minutes) and variance (minutes squared) of a curve. */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
}

/**
 * A time curve, in minutes. `moments` are worked out when asked for; `quantile(u)`, 0 < u < 1, is exact and
 * never falls; `kinks` are the u at which its slope jumps (the sampling table leaves those places to
 * `quantile` itself). `atNormal`: for a curve that is a function of a standard normal deviate, that function;
 * the quantiles of the deviate are then shared among curves.
 */
export interface Curve {
  readonly kind: 'curve';
  readonly kinks: readonly number[];
  readonly atNormal: ((z: number) => number) | null;
  moments(): Moments;
  quantile(u: number): number;
}

/** Always the same. */
export interface FixedCurve {
  readonly kind: 'fixed';
  readonly mean: number;
}

/** A finite list of equally likely values, ascending, at least one. */
export interface ListCurve {
  readonly kind: 'list';
  readonly values: Float64Array;
}

export type AnyCurve = Curve | FixedCurve | ListCurve;

export const fixedAt = (mean: number): FixedCurve => ({ kind: 'fixed', mean });

/** A curve by its quantile. */
export const byQuantile = (
  quantile: (u: number) => number,
  moments: () => Moments,
  kinks: readonly number[] = [],
): Curve => ({
  kind: 'curve',
  kinks,
  atNormal: null,
  moments,
  quantile,
});

/** A curve by its value at a standard normal deviate. */
export const byNormal = (
  atNormal: (z: number) => number,
  moments: () => Moments,
  kinks: readonly number[] = [],
): Curve => ({
  kind: 'curve',
  kinks,
  atNormal,
  moments,
  quantile: (u) => atNormal(normalQuantile(u)),
});

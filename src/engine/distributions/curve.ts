/**
 * A time curve, in minutes. `mean` and `variance` are the true ones; `quantile(u)`, 0 < u < 1, is exact and never falls;
 * `kinks` are the u at which its slope jumps (the sampling table leaves those places to `quantile` itself).
 */
export interface Curve {
  readonly kind: 'curve';
  readonly mean: number;
  /** Minutes squared. */
  readonly variance: number;
  readonly kinks: readonly number[];
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

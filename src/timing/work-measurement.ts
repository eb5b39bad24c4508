/**
 * The published formulas of time study. Rating and allowances are kept apart: the first is about pace, the
 * second about the day.
 */
import { normalQuantile } from '../random/exact.ts';

/**
 * Observations needed for the mean to lie within `precision` of itself: n = (z s / (h mean))^2, not rounded
 * (Heizer and Render, Operations Management, ch. 10, "Time studies"). @param deviation sample standard
 * deviation (divisor n - 1). @param precision a share, 0.05 is 5 %. @param confidence over 0, under 1,
 * two-sided.
 */
export function sampleSize(mean: number, deviation: number, precision: number, confidence: number): number {
  return sampleSizeAt(normalQuantile((1 + confidence) / 2), mean, deviation, precision);
}

/** As `sampleSize`, with the number of standard errors given (books print 1.96 for 95 %). */
export function sampleSizeAt(z: number, mean: number, deviation: number, precision: number): number {
  if (!(precision > 0) || !(mean > 0))
    throw new RangeError(`precision and mean must be over 0, not ${precision} and ${mean}`);
  const root = (z * deviation) / (precision * mean);
  return root * root;
}

export interface Needed {
  have: number;
  /** In all, and still to be taken. */
  inAll: number;
  more: number;
  /**
   * Share of the mean asked for (0.05 is 5 %), and reached now (half-width over mean, by the same formula).
   */
  precision: number;
  reached: number;
  confidence: number;
}

/** So few times are never enough, however alike they are. */
const LEAST = 5;

/** How many times to take in all, from those there are. Null under two. */
export function neededFor(values: readonly number[], precision = 0.05, confidence = 0.95): Needed | null {
  const have = values.length;
  if (have < 2) return null;
  const { mean, deviation } = meanAndDeviation(values);
  const exact = sampleSize(mean, deviation, precision, confidence);
  const inAll = Math.max(LEAST, Math.ceil(exact - 1e-9));
  const reached = precision * Math.sqrt(exact / have);
  return { have, inAll, more: Math.max(0, inAll - have), precision, reached, confidence };
}

/** Observed time at the pace of a normal worker: observed x rating. */
export const normalTime = (observed: number, rating: number): number => observed * rating;

/**
 * The standard time of a normal time. `of the day`: the allowance is a share of the working day, NT / (1 -
 * A); `of the job`: a share of the job's own time, NT (1 + A). @param allowance a share, 0 to under 1.
 */
export function standardTime(normal: number, allowance: number, basis: 'of the day' | 'of the job'): number {
  if (!(allowance >= 0 && allowance < 1))
    throw new RangeError(`the allowance must be 0 to under 1, not ${allowance}`);
  return basis === 'of the day' ? normal / (1 - allowance) : normal * (1 + allowance);
}

/** Minutes a piece may take if the number due is to be met: net minutes / pieces due. */
export function takt(netMinutes: number, due: number): number {
  if (!(due > 0)) throw new RangeError(`the number due must be over 0, not ${due}`);
  return netMinutes / due;
}

/** Mean and sample standard deviation (divisor n - 1; NaN under two). */
export function meanAndDeviation(values: readonly number[]): { mean: number; deviation: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0);
  return { mean, deviation: values.length < 2 ? NaN : Math.sqrt(squares / (values.length - 1)) };
}

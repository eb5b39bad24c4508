import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { checkConfidence } from './interval.ts';

/**
 * How many standard errors either side of a mean, by Student's t.
 * @param confidence over 0, under 1: two-sided.
 * @param degrees degrees of freedom; under 1 gives Infinity (nothing can be said); Infinity is the normal
 *   curve.
 */
export function studentQuantile(confidence: number, degrees: number): number {
  checkConfidence(confidence);
  if (degrees < 1) return Infinity;
  if (last.confidence !== confidence || last.degrees !== degrees)
    last = { confidence, degrees, quantile: tQuantile((1 + confidence) / 2, Math.min(degrees, NORMAL)) };
  return last.quantile;
}

/** From so many on the curve is the normal one to eight digits. */
const NORMAL = 1e8;

/** A study asks for the same one once for each of its means. */
let last = { confidence: NaN, degrees: NaN, quantile: NaN };

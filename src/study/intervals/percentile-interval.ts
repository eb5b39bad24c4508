import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { checkConfidence } from './interval.ts';

/**
 * Between which of the ordered observations a percentile lies (ranks from 1), or how many it would take to
 * say.
 */
export type PercentileRanks =
  { kind: 'ranks'; low: number; high: number; coverage: number } | { kind: 'too few'; needed: number };

/**
 * Ranks of the order statistics that hold the `share` quantile with at least the confidence, whatever the
 * distribution (each tail at most half the rest; for values that repeat, such as whole units, the coverage is
 * at least the one given). Source: David and Nagaraja, Order Statistics, 3rd edition, section 7.1 (from
 * memory).
 * @param count observations. @param share over 0, under 1 (0.1 is the 10th percentile).
 */
export function percentileRanks(count: number, share: number, confidence = 0.95): PercentileRanks {
  checkConfidence(confidence);
  if (!(share > 0 && share < 1)) throw new RangeError(`share must be over 0 and under 1, not ${share}`);
  const tail = (1 - confidence) / 2;
  const below = (rank: number): number => (rank < 1 ? 0 : binomialCdf(rank - 1, count, share));
  // `below(rank)`: the chance that fewer than `rank` observations lie at or under the quantile.
  const low = lastWhere(0, count, (rank) => below(rank) <= tail);
  const high = 1 + lastWhere(0, count, (rank) => 1 - below(rank) > tail);
  if (low < 1 || high > count)
    return { kind: 'too few', needed: Math.ceil(Math.log(tail) / Math.log(Math.max(share, 1 - share))) };
  return { kind: 'ranks', low, high, coverage: below(high) - below(low) };
}

/**
 * The last whole number from `from` to `to` where a condition that never comes back still holds; it holds at
 * `from`.
 */
function lastWhere(from: number, to: number, holds: (at: number) => boolean): number {
  let [good, bad] = [from, to + 1];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

export interface PercentileInterval {
  estimate: number;
  /** -Infinity or Infinity where the observations are too few; `needed` then says how many it takes. */
  low: number;
  high: number;
  /** 0 where there are enough. */
  needed: number;
  coverage: number;
  count: number;
}

/** Order-statistics interval of a percentile. @param sorted ascending, without NaN. */
export function percentileInterval(
  sorted: ArrayLike<number>,
  share: number,
  confidence = 0.95,
): PercentileInterval {
  const count = sorted.length;
  const estimate = percentile(sorted, share);
  const ranks = percentileRanks(count, share, confidence);
  if (ranks.kind === 'too few')
    return { estimate, low: -Infinity, high: Infinity, needed: ranks.needed, coverage: 1, count };
  return {
    estimate,
    low: sorted[ranks.low - 1]!,
    high: sorted[ranks.high - 1]!,
    needed: 0,
    coverage: ranks.coverage,
    count,
  };
}

/**
 * Sample percentile: straight lines between the ordered observations, the least at 0 and the most at 1
 * (definition 7 of Hyndman and Fan, The American Statistician 50, 1996). NaN without observations. @param
 * sorted ascending, without NaN.
 */
export function percentile(sorted: ArrayLike<number>, share: number): number {
  const count = sorted.length;
  if (count === 0) return NaN;
  const place = Math.min(1, Math.max(0, share)) * (count - 1);
  const below = Math.floor(place);
  const low = sorted[below]!;
  return below + 1 < count ? low + (place - below) * (sorted[below + 1]! - low) : low;
}

/**
 * What a share of the shifts made: the most that at least `share` of the observations reach ("nine shifts in
 * ten make 18"). Always one of the observations; NaN without any. @param sorted ascending, without NaN.
 * @param share over 0, at most 1.
 */
export function madeByShare(sorted: ArrayLike<number>, share: number): number {
  const count = sorted.length;
  if (count === 0) return NaN;
  // A rounding error in share x count must not cost a whole rank.
  const reaching = Math.max(1, Math.ceil(share * count - 1e-9));
  return sorted[count - reaching]!;
}

/** Ascending copy without the NaNs. */
export function sortedValues(values: ArrayLike<number>): Float64Array {
  const sorted = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!)) sorted[count++] = values[i]!;
  }
  return sorted.subarray(0, count).sort();
}

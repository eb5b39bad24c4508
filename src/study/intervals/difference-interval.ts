import { shared, type Interval } from './interval.ts';
import { meanInterval } from './mean-interval.ts';
import { addDifferences, createMoments, deviationOf } from './moments.ts';

/**
 * Student's interval of the mean of `after - before`, pair by pair. Pairs in which either is NaN are left
 * out.
 * @param several how many such differences are stated together: each then gets a range wide enough for all to
 *   hold at once at `confidence` (Bonferroni).
 */
export function differenceInterval(
  before: ArrayLike<number>,
  after: ArrayLike<number>,
  confidence = 0.95,
  several = 1,
): Interval {
  if (before.length !== after.length)
    throw new RangeError(`pairs must match: ${before.length} before, ${after.length} after`);
  const moments = createMoments(1);
  for (let i = 0; i < before.length; i++) addDifferences(moments, before, i, after, i);
  return {
    ...meanInterval(
      moments.count[0]!,
      moments.mean[0]!,
      deviationOf(moments, 0),
      shared(confidence, several),
    ),
    confidence,
  };
}

/** What one case makes more than another, of the pairs a study was run with. */
import type { Interval } from '../../study/intervals/interval.ts';
import type { PairSummary } from '../../study/summary.ts';

/** Good units of `after` less those of `before`. Throws RangeError where the study has no such pair. */
export function between(pairs: readonly PairSummary[], before: string, after: string): Interval {
  const found = pairs.find((pair) => pair.before === before && pair.after === after);
  if (found === undefined)
    throw new RangeError(`There is no difference of "${before}" and "${after}" in this study.`);
  return found.good;
}

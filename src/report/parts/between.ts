/** What one case makes more than another, from the pairs a study was run with. */
import { BASE } from '../../study/from-scenario.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import type { PairSummary } from '../../study/summary.ts';

/**
 * Good units of `after` less those of `before`. Where the two were not paired, both are taken against the
 * base: as those ranges hold together, what lies between their far ends holds the difference. Throws
 * RangeError for cases the study does not have.
 */
export function between(pairs: PairSummary[], before: string, after: string): Interval {
  const found = (from: string, to: string): Interval | undefined =>
    pairs.find((pair) => pair.before === from && pair.after === to)?.good;
  const direct = found(before, after);
  if (direct !== undefined) return direct;
  const back = found(after, before);
  if (back !== undefined) return { ...back, estimate: -back.estimate, low: -back.high, high: -back.low };
  const [first, second] = [found(BASE, before), found(BASE, after)];
  if (first === undefined || second === undefined)
    throw new RangeError(`There is no difference of "${before}" and "${after}" in this study.`);
  return {
    ...second,
    estimate: second.estimate - first.estimate,
    low: second.low - first.high,
    high: second.high - first.low,
    half: second.half + first.half,
  };
}

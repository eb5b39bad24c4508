/** How much of the spread comes from not knowing the times well, and how much is shift-to-shift luck. */
import { chanceInterval } from '../study/intervals/chance-interval.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';
import { studentQuantile } from '../study/intervals/student-quantile.ts';

export interface Range {
  low: number;
  high: number;
}

export interface UncertaintySplit {
  mean: number;
  /** Standard deviation of single shifts around their own mean. */
  luck: number;
  /**
   * Standard deviation of the long-run mean because the times are known only so well; 0 where luck explains
   * it all.
   */
  input: number;
  /** Share of the variance of a single shift that comes from the times, 0 to 1. */
  share: number;
  /** Of single shifts: from luck alone, and with the times' part; each holds `hold` of the shifts. */
  shifts: { luckOnly: Range; widened: Range; hold: number };
  /** Of the long-run mean, for the times' part. */
  meanRange: Range & { confidence: number };
  resamples: number;
}

/**
 * Variance components of the one-way layout (resamples as groups): the variance between the groups' means
 * less what luck alone puts there (Searle, Casella, McCulloch, Variance Components, 1992, ch. 3; from
 * memory). The resamples may differ in size.
 * @param results one array a resample: the number of interest (good units, say) of each of its shifts; NaN
 *   are left out.
 * @param hold share of single shifts the ranges hold. @param confidence of `meanRange`.
 * @returns null under two resamples with results, or without a second shift in any.
 */
export function splitUncertainty(
  results: readonly ArrayLike<number>[],
  hold = 0.8,
  confidence = 0.95,
): UncertaintySplit | null {
  const groups = results
    .map((group) => Array.from(group).filter((value) => !Number.isNaN(value)))
    .filter((group) => group.length > 0);
  const total = groups.reduce((sum, group) => sum + group.length, 0);
  if (groups.length < 2 || total <= groups.length) return null;
  const means = groups.map((group) => group.reduce((sum, value) => sum + value, 0) / group.length);
  const mean = groups.reduce((sum, group, i) => sum + group.length * means[i]!, 0) / total;
  const within =
    groups.reduce(
      (sum, group, i) => sum + group.reduce((squares, value) => squares + (value - means[i]!) ** 2, 0),
      0,
    ) /
    (total - groups.length);
  const between =
    groups.reduce((sum, group, i) => sum + group.length * (means[i]! - mean) ** 2, 0) / (groups.length - 1);
  const size =
    (total - groups.reduce((sum, group) => sum + group.length ** 2, 0) / total) / (groups.length - 1);
  const input = Math.max(0, (between - within) / size);
  const spread = means.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (means.length - 1);
  // Means of resamples hold luck too: they are drawn in until only the times' part is left.
  const shrink = spread > 0 ? Math.min(1, Math.sqrt(input / spread)) : 0;
  const alone = groups.flatMap((group, i) => group.map((value) => value - means[i]! + mean));
  const together = groups.flatMap((group, i) =>
    group.map((value) => value + (shrink - 1) * (means[i]! - mean)),
  );
  const half = studentQuantile(confidence, groups.length - 1) * Math.sqrt(input);
  return {
    mean,
    luck: Math.sqrt(within),
    input: Math.sqrt(input),
    share: input + within > 0 ? input / (input + within) : 0,
    shifts: { luckOnly: middleOf(alone, hold), widened: middleOf(together, hold), hold },
    meanRange: { low: mean - half, high: mean + half, confidence },
    resamples: groups.length,
  };
}

function middleOf(values: readonly number[], hold: number): Range {
  const sorted = sortedValues(values);
  return { low: percentile(sorted, (1 - hold) / 2), high: percentile(sorted, (1 + hold) / 2) };
}

/**
 * Chance of reaching a target when the times' part is carried along: of all shifts of all resamples, with its
 * range over resamples.
 */
export function chanceOverResamples(
  results: readonly ArrayLike<number>[],
  target: number,
): { chance: number; low: number; high: number } {
  const chances = results.flatMap((group) => {
    const values = Array.from(group).filter((value) => !Number.isNaN(value));
    return values.length === 0
      ? []
      : [chanceInterval(values.filter((value) => value >= target).length, values.length).estimate];
  });
  const sorted = sortedValues(chances);
  const chance = chances.reduce((sum, one) => sum + one, 0) / chances.length;
  return { chance, low: percentile(sorted, 0.1), high: percentile(sorted, 0.9) };
}

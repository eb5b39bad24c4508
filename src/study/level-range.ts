/**
 * What is not known of a level that so many shifts in ten make: the runs leave open between which of them it
 * lies (order statistics, whatever the distribution), the inputs move all shifts together.
 */
import type { Frequencies } from './intervals/frequencies.ts';
import { percentileInterval, percentileRanks } from './intervals/percentile-interval.ts';

/** -Infinity or Infinity where there are too few shifts to say. */
export interface LevelRange {
  low: number;
  high: number;
}

/**
 * Of whole units.
 *
 * @param level as it is told, and `plain` as the runs alone have it: where the inputs are in it, they differ.
 * @param share of the shifts that make it, over 0 and under 1.
 * @param open how far either side the inputs leave a mean open, at the confidence.
 */
export function levelRange(
  made: Frequencies,
  { level, plain, share }: { level: number; plain: number; share: number },
  open: number,
  confidence: number,
): LevelRange {
  const ranks = percentileRanks(made.total, 1 - share, confidence);
  if (ranks.kind === 'too few') return { low: -Infinity, high: Infinity };
  // Squares add up; rounded outwards, as nobody makes part of a unit.
  const end = (luck: number): number => Math.hypot(plain - luck, open);
  const low = Math.floor(plain - end(ranked(made, ranks.low)) + 1e-9);
  const high = Math.ceil(plain + end(ranked(made, ranks.high)) - 1e-9);
  return { low: Math.max(0, Math.min(low, level)), high: Math.max(high, level) };
}

/** The observation at a rank, from 1. */
function ranked({ values, counts }: Frequencies, rank: number): number {
  let seen = 0;
  for (let i = 0; i < values.length; i++) {
    seen += counts[i]!;
    if (seen >= rank) return values[i]!;
  }
  return values[values.length - 1]!;
}

/**
 * Of minutes, or of a level between whole units. @param sorted ascending, without NaN. @param told the level,
 * where it is not the percentile of the observations itself. @param open as of `levelRange`.
 */
export function percentileRange(
  sorted: ArrayLike<number>,
  share: number,
  confidence: number,
  open = 0,
  told?: number,
): LevelRange {
  const { estimate, low, high } = percentileInterval(sorted, share, confidence);
  const level = told ?? estimate;
  return {
    low: Math.min(level, estimate - Math.hypot(estimate - low, open)),
    high: Math.max(level, estimate + Math.hypot(high - estimate, open)),
  };
}

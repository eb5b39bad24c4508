/** An estimate with the range that the runs leave open for it. */
export interface Interval {
  estimate: number;
  low: number;
  high: number;
  /** Half the width, (high - low) / 2; Infinity where the observations are too few to say. */
  half: number;
  /** Observations behind it. */
  count: number;
  /** Shifts in a row behind each observation; left out: one. */
  inARow?: number;
  /** Chance that the rule gives a range that holds the true value: over 0, under 1. */
  confidence: number;
}

/** An interval the same width either side of its estimate. */
export function around(estimate: number, half: number, count: number, confidence: number): Interval {
  return { estimate, low: estimate - half, high: estimate + half, half, count, confidence };
}

/**
 * The confidence each of `several` statements needs for all to hold together at `confidence` (Bonferroni's
 * inequality).
 */
export function shared(confidence: number, several: number): number {
  return 1 - (1 - confidence) / Math.max(1, several);
}

/** Throws unless `confidence` is over 0 and under 1. */
export function checkConfidence(confidence: number): void {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence must be over 0 and under 1, not ${confidence}`);
}

/** An estimate with the range that the runs and what is not known of the inputs leave open for it. */
export interface Interval {
  estimate: number;
  low: number;
  high: number;
  /** Half the width, (high - low) / 2; Infinity where the observations are too few to say. */
  half: number;
  /** Half the width for luck alone: what the number of runs leaves open. */
  luck: number;
  /** What is not known of times, shares and attendance adds to it: half^2 = luck^2 + inputs^2. */
  inputs: number;
  /** Observations behind it. */
  count: number;
  /** Shifts in a row behind each observation; left out: one. */
  inARow?: number;
  /** Chance that the rule gives a range that holds the true value: over 0, under 1. */
  confidence: number;
}

/** An interval of luck alone, the same width either side of its estimate. */
export function around(estimate: number, half: number, count: number, confidence: number): Interval {
  return {
    estimate,
    low: estimate - half,
    high: estimate + half,
    half,
    luck: half,
    inputs: 0,
    count,
    confidence,
  };
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

/**
 * What the runs leave open of a chance that has the inputs' uncertainty in it: a promise that is kept nine
 * times in ten, times and all, is one that can be made; how far better timings might move it is another
 * question.
 */
export function asPromised({
  estimate,
  low,
  high,
  luck,
  inputs,
}: Pick<Interval, 'estimate' | 'low' | 'high' | 'luck' | 'inputs'>): { low: number; high: number } {
  return inputs > 0
    ? { low: Math.max(0, estimate - luck), high: Math.min(1, estimate + luck) }
    : { low, high };
}

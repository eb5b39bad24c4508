/** Times that stand far from the rest: shown, never taken out unasked. */
import { exp, log } from '../random/exact.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';

export interface Fences {
  /** Minutes; times outside are far from the rest. */
  low: number;
  high: number;
}

export interface Outlier {
  /** Place among the values. */
  at: number;
  minutes: number;
  side: 'short' | 'long';
  /** Beyond three spreads of the middle half, not only one and a half. */
  far: boolean;
}

/**
 * Tukey's fences on the logarithms (times lean to the right, so fences on the minutes would call every slow
 * piece strange): `reach` times the middle half's spread beyond the quartiles (Tukey, Exploratory Data
 * Analysis, 1977; from memory). Null under five times.
 */
export function fencesOf(values: readonly number[], reach = 1.5): Fences | null {
  if (values.length < 5) return null;
  const logs = sortedValues(values.map(log));
  const [low, high] = [percentile(logs, 0.25), percentile(logs, 0.75)];
  return { low: exp(low - reach * (high - low)), high: exp(high + reach * (high - low)) };
}

/** The times outside the fences, in their order. */
export function outliersOf(values: readonly number[]): Outlier[] {
  const [near, far] = [fencesOf(values), fencesOf(values, 3)];
  if (near === null || far === null) return [];
  const slack = 1 + 1e-9;
  return values.flatMap((minutes, at): Outlier[] => {
    const side = minutes * slack < near.low ? 'short' : minutes > near.high * slack ? 'long' : null;
    if (side === null) return [];
    return [{ at, minutes, side, far: minutes * slack < far.low || minutes > far.high * slack }];
  });
}

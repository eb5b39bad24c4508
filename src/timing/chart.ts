/** What a picture of observed times and curves shows, as plain numbers. */
import { compileTime } from '../duration/compile.ts';
import type { Time } from '../duration/time.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';

export interface Histogram {
  /** Width of every bin, minutes; the first begins at `from`. */
  width: number;
  from: number;
  counts: number[];
}

/** Points of a curve: minutes, and how many of the observations it expects in one bin's width there. */
export interface CurveLine {
  name: string;
  points: { minutes: number; expected: number }[];
}

const MOST_BINS = 40;

/**
 * Bins as Freedman and Diaconis have them (1981; from memory: twice the middle half over the cube root of n),
 * widened to a round number of minutes. Null without observations.
 */
export function histogramOf(values: readonly number[]): Histogram | null {
  if (values.length === 0) return null;
  const sorted = sortedValues(values);
  const [least, most] = [sorted[0]!, sorted[sorted.length - 1]!];
  const middle = percentile(sorted, 0.75) - percentile(sorted, 0.25);
  const wanted = Math.max(
    (2 * middle) / Math.cbrt(values.length),
    (most - least) / MOST_BINS,
    least / 1000,
    1e-6,
  );
  const width = roundUp(wanted);
  const from = Math.floor(least / width + 1e-9) * width;
  const counts = Array<number>(Math.floor((most - from) / width + 1e-9) + 1).fill(0);
  for (const value of values)
    counts[Math.min(counts.length - 1, Math.max(0, Math.floor((value - from) / width + 1e-9)))]! += 1;
  return { width, from, counts };
}

/** The next of 1, 2, 2.5, 5 times a power of ten. */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return power * ([1, 2, 2.5, 5].find((step) => step * power >= value * (1 - 1e-12)) ?? 10);
}

/** A curve over a histogram of `count` observations. */
export function curveLine(
  name: string,
  time: Time,
  histogram: Histogram,
  count: number,
  points = 80,
): CurveLine {
  const curve = compileTime(time);
  const from = Math.max(0, histogram.from - histogram.width);
  const to = histogram.from + histogram.width * (histogram.counts.length + 1);
  return {
    name,
    points: Array.from({ length: points }, (_, i) => {
      const minutes = from + ((to - from) * i) / (points - 1);
      const [low, high] = [minutes - histogram.width / 2, minutes + histogram.width / 2];
      return { minutes, expected: count * (curve.cdf(high) - curve.cdf(Math.max(0, low))) };
    }),
  };
}

/**
 * How often the printed ranges hold the truth, with the stopping rule at work: many whole studies on fresh
 * luck, each judged against figures known beforehand (from theory, or from a run so long that its own error
 * does not matter).
 */
import { chanceInterval } from './intervals/chance-interval.ts';
import type { Interval } from './intervals/interval.ts';
import { meanInterval } from './intervals/mean-interval.ts';
import { addRow, createMoments, deviationOf, type Moments } from './intervals/moments.ts';
import { createStopping, lookAt, tellRow, type StoppingSettings } from './stopping.ts';

export interface CoverageStudy {
  /** Whole studies. */
  repeats: number;
  settings: Partial<StoppingSettings>;
  /** Which option's figure minus which (after, before) is found to the precision. */
  differences: { before: number; after: number }[];
  /** The chance asked about: that an option's figure reaches this. */
  target: number;
  /** By option. */
  truth: { means: number[]; chances: number[] };
  /**
   * Figures of replications `from` to `from + count - 1` of one study, an array an option; the same whenever
   * asked again.
   */
  sample: (repeat: number, from: number, count: number) => ArrayLike<number>[];
}

export interface Cover {
  kind: 'mean' | 'chance' | 'difference' | 'all differences';
  /** Place among the options or differences. */
  at: number;
  held: number;
  repeats: number;
  /** Share of the studies whose range held the truth, 99 % Wilson interval. */
  share: Interval;
}

export interface CoverageResult {
  covers: Cover[];
  /** Replications an option, on average over the studies. */
  replications: number;
  /** Studies stopped by the cap. */
  capped: number;
}

const holds = (range: { low: number; high: number }, truth: number): boolean =>
  range.low <= truth && truth <= range.high;

export function coverage(study: CoverageStudy): CoverageResult {
  const { means, chances } = study.truth;
  const held = {
    mean: means.map(() => 0),
    chance: chances.map(() => 0),
    difference: study.differences.map(() => 0),
    all: 0,
  };
  let [replications, capped] = [0, 0];
  for (let repeat = 0; repeat < study.repeats; repeat++) {
    const one = oneStudy(study, repeat);
    replications += one.count / study.repeats;
    capped += one.capped ? 1 : 0;
    one.means.forEach((range, at) => (held.mean[at]! += holds(range, means[at]!) ? 1 : 0));
    one.chances.forEach((range, at) => (held.chance[at]! += holds(range, chances[at]!) ? 1 : 0));
    const right = one.differences.map((range, at) => {
      const { before, after } = study.differences[at]!;
      return holds(range, means[after]! - means[before]!);
    });
    right.forEach((is, at) => (held.difference[at]! += is ? 1 : 0));
    held.all += right.every((is) => is) ? 1 : 0;
  }
  const cover = (kind: Cover['kind'], count: number, at: number): Cover => ({
    kind,
    at,
    held: count,
    repeats: study.repeats,
    share: chanceInterval(count, study.repeats, 0.99),
  });
  const covers = [
    ...held.mean.map((count, at) => cover('mean', count, at)),
    ...held.chance.map((count, at) => cover('chance', count, at)),
    ...held.difference.map((count, at) => cover('difference', count, at)),
    cover('all differences', held.all, 0),
  ];
  return { covers, replications, capped };
}

interface OneStudy {
  count: number;
  capped: boolean;
  means: Interval[];
  chances: Interval[];
  differences: Interval[];
}

function oneStudy(study: CoverageStudy, repeat: number): OneStudy {
  const options = study.truth.means.length;
  const stopping = createStopping(study.differences.length, study.settings);
  const { confidence } = stopping.settings;
  const moments = createMoments(options);
  const reached = new Array<number>(options).fill(0);
  while (stopping.done < stopping.needed) {
    const rows = stopping.needed - stopping.done;
    const figures = study.sample(repeat, stopping.done, rows);
    for (let i = 0; i < rows; i++) {
      takeIn(study, figures, i, moments, reached);
      tellRow(
        stopping,
        study.differences.map(({ before, after }) => figures[after]![i]! - figures[before]![i]!),
      );
    }
  }
  const look = lookAt(stopping);
  return {
    count: look.done,
    capped: look.capped,
    means: reached.map((_, at) =>
      meanInterval(look.done, moments.mean[at]!, deviationOf(moments, at), confidence),
    ),
    chances: reached.map((count) => chanceInterval(count, look.done, confidence)),
    differences: look.ranges,
  };
}

function takeIn(
  study: CoverageStudy,
  figures: ArrayLike<number>[],
  i: number,
  moments: Moments,
  reached: number[],
): void {
  addRow(
    moments,
    figures.map((values) => values[i]!),
  );
  figures.forEach((values, at) => (reached[at]! += values[i]! >= study.target ? 1 : 0));
}

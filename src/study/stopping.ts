/**
 * How many replications are enough: Stein's two stages (Annals of Mathematical Statistics 16, 1945).
 *
 * The first replications (a number fixed beforehand) give each difference its spread; from those spreads
 * alone follows, once and for all, how many replications there will be; the ranges at the end use the spreads
 * of the first stage with Student's t at its degrees of freedom. Nothing seen later changes the number, so
 * looking on the way, as often as one likes, breaks nothing: for normal differences every final range holds
 * the true mean with exactly the confidence stated, whatever the spreads, however they correlate, and whether
 * or not the cap was hit; several together hold by Bonferroni's inequality. For other distributions this is
 * an approximation, as good as the first stage is long; `coverage` (coverage.ts) measures it. Ranges shown on
 * the way are those of the same rule at that count; each alone is honest, not all of them at once, so they
 * are marked interim and no verdict is to be drawn from them.
 *
 * Whole units need one thing more: differences that are almost always 0 may be 0 throughout the first stage,
 * which is not proof of no spread. With a `grain` the spread is therefore taken to be at least what the first
 * stage cannot rule out: a chance p of one grain, where (1 - p)^first = 1 - confidence (the exact form of the
 * rule of three).
 *
 * Measures outside the rule use the ordinary intervals at the final count: their count depends on the first
 * stage's spreads only, which moves their cover by less than the measured coverage can see.
 */
import { DEFAULTS } from '../scenario/defaults.ts';
import { around, shared, type Interval } from './intervals/interval.ts';
import { addDifferences, addRow, createMoments, varianceOf, type Moments } from './intervals/moments.ts';
import { studentQuantile } from './intervals/student-quantile.ts';

export interface StoppingSettings {
  /** Replications of the first stage: 30 or more for a range worth having; 1 gives ranges without an end. */
  first: number;
  /** Half-width wanted for every column, over 0. */
  precision: number;
  /** Over 0, under 1: that all columns' ranges hold together. */
  confidence: number;
  /** Cap on the replications, the first stage included. */
  most: number;
  /** The least step of the measure (1 for whole units); 0: none. */
  grain: number;
  /**
   * How many of the columns' ranges hold together at the confidence. All of them by default, and then all go
   * on until the widest is known. A number: each column stops at its own count and has a range of its own, so
   * that what is said of it is the same whatever else was asked at the same time.
   */
  together: number | 'all';
}

export const STOPPING: StoppingSettings = {
  first: 200,
  precision: DEFAULTS.study.precision,
  confidence: DEFAULTS.study.confidence / 100,
  most: DEFAULTS.study.most,
  grain: 1,
  together: 'all',
};

/** Where the rule stands. Plain data, changed only by the functions below. */
export interface Stopping {
  settings: StoppingSettings;
  /** Of every column, over the rows told so far. */
  moments: Moments;
  done: number;
  /** Variance each column's range is built on; null during the first stage. */
  variances: number[] | null;
  /** Replications there will be: those of the first stage until it is over. */
  needed: number;
  /** By column: so many of them count towards it; null during the first stage. */
  each: number[] | null;
  /** The precision asks for more than the cap. */
  capped: boolean;
}

export interface Look {
  /** Interim ranges are to be shown as such. */
  kind: 'interim' | 'final';
  /** No more replications are wanted. */
  enough: boolean;
  done: number;
  needed: number;
  capped: boolean;
  /** One a column; over an infinite width while fewer than two rows are in. */
  ranges: Interval[];
}

/** @param columns how many means (of differences, say) are to be found together. */
export function createStopping(columns: number, given: Partial<StoppingSettings> = {}): Stopping {
  const asked = { ...STOPPING, ...given };
  const settings = { ...asked, first: Math.min(asked.first, asked.most) };
  if (!(settings.precision > 0)) throw new RangeError(`precision must be over 0, not ${settings.precision}`);
  if (!(settings.first >= 1))
    throw new RangeError(`the first stage needs at least one replication, not ${settings.first}`);
  return {
    settings,
    moments: createMoments(columns),
    done: 0,
    variances: null,
    needed: settings.first,
    each: null,
    capped: false,
  };
}

/** How many ranges hold together at the confidence asked for. */
export const statedTogether = ({ settings, moments }: Pick<Stopping, 'settings' | 'moments'>): number =>
  settings.together === 'all' ? moments.size : settings.together;

/** Whether the next row still counts towards a column. */
export const stillCounts = ({ done, each }: Pick<Stopping, 'done' | 'each'>, column: number): boolean =>
  each === null || done < each[column]!;

/**
 * Tells one replication's row; rows come in the order of their replications. False, and nothing is changed,
 * once enough.
 */
export function tellRow(stopping: Stopping, row: ArrayLike<number>, offset = 0): boolean {
  if (stopping.done >= stopping.needed) return false;
  const { size } = stopping.moments;
  if (stopping.each === null) addRow(stopping.moments, row, offset);
  else
    addRow(
      stopping.moments,
      Float64Array.from({ length: size }, (_, i) => (stillCounts(stopping, i) ? row[offset + i]! : NaN)),
    );
  return told(stopping);
}

/** The same for a row of differences `after - before`. */
export function tellDifferences(
  stopping: Stopping,
  before: ArrayLike<number>,
  beforeOffset: number,
  after: ArrayLike<number>,
  afterOffset: number,
): boolean {
  if (stopping.done >= stopping.needed) return false;
  addDifferences(stopping.moments, before, beforeOffset, after, afterOffset);
  return told(stopping);
}

function told(stopping: Stopping): boolean {
  stopping.done += 1;
  if (stopping.variances === null && stopping.done === stopping.settings.first) {
    const plan = planTotal(firstStageVariances(stopping.moments, stopping.settings), stopping.settings);
    stopping.variances = plan.variances;
    stopping.needed = plan.total;
    if (stopping.settings.together !== 'all') stopping.each = plan.each;
    stopping.capped = plan.capped;
  }
  return true;
}

/** What the first stage says of the spreads, not less than the grain allows. */
export function firstStageVariances(moments: Moments, settings: StoppingSettings): number[] {
  const chance = 1 - (1 - settings.confidence) ** (1 / settings.first);
  const least = settings.grain ** 2 * chance * (1 - chance);
  return Array.from({ length: moments.size }, (_, column) => Math.max(least, varianceOf(moments, column)));
}

export interface Plan {
  variances: number[];
  /**
   * Replications in all that bring every half-width to the precision; not under the first stage, not over the
   * cap.
   */
  total: number;
  /** The same for each column alone. */
  each: number[];
  capped: boolean;
}

/** @param variances of the columns in the first stage; NaN (nothing to measure) asks for nothing. */
export function planTotal(variances: number[], settings: StoppingSettings): Plan {
  const quantile = firstStageQuantile(
    settings.together === 'all' ? variances.length : settings.together,
    settings,
  );
  const wanted = variances.map((variance) =>
    Number.isNaN(variance) ? 0 : Math.ceil(variance * (quantile / settings.precision) ** 2),
  );
  const needed = Math.max(settings.first, ...wanted);
  return {
    variances,
    total: Math.min(needed, settings.most),
    each: wanted.map((one) => Math.min(settings.most, Math.max(settings.first, one))),
    capped: needed > settings.most,
  };
}

function firstStageQuantile(together: number, settings: StoppingSettings): number {
  return studentQuantile(shared(settings.confidence, together), settings.first - 1);
}

export function lookAt(stopping: Stopping): Look {
  const { settings, moments, variances, done, needed, capped } = stopping;
  const enough = variances !== null && done >= needed;
  const confidence = shared(settings.confidence, statedTogether(stopping));
  const ranges = Array.from({ length: moments.size }, (_, column) => {
    const count = moments.count[column]!;
    const degrees = (variances === null ? count : settings.first) - 1;
    const variance = variances === null ? varianceOf(moments, column) : variances[column]!;
    const half = count < 2 ? Infinity : studentQuantile(confidence, degrees) * Math.sqrt(variance / count);
    return around(moments.mean[column]!, half, count, settings.confidence);
  });
  return { kind: enough ? 'final' : 'interim', enough, done, needed, capped, ranges };
}

/**
 * Times of the scenario file, made ready for drawing: moments, percentiles, and minutes for a random word.
 */
import { uniform } from '../random/threefry.ts';
import type { Distribution, Moments } from './distribution.ts';
import { evaluate, fill, TABLE_LENGTH } from './table.ts';
import { curveOf, type Time } from './time.ts';

/** How `sample` works out a time. */
export const FIXED = 0;
export const TABLE = 1;
export const LIST = 2;

/** One shape for every curve, so that the drawing of times stays fast. Everything is in minutes. */
export class CompiledTime {
  readonly kind: typeof FIXED | typeof TABLE | typeof LIST;
  /**
   * Of a table: the cubic pieces (table.ts). Of a list: the values, ascending. Of a fixed time: that time.
   */
  readonly values: Float64Array;
  readonly distribution: Distribution;
  private known: Moments | null = null;

  constructor(distribution: Distribution) {
    this.distribution = distribution;
    this.kind = KINDS[distribution.kind];
    this.values = valuesOf(distribution);
  }

  get mean(): number {
    return (this.known ??= momentsOf(this.distribution)).mean;
  }

  /** Minutes squared. */
  get variance(): number {
    return (this.known ??= momentsOf(this.distribution)).variance;
  }

  /** The longest it can be, minutes; Infinity where it has no end. */
  get longest(): number {
    const { distribution } = this;
    if (distribution.kind === 'constant') return distribution.mean;
    return distribution.kind === 'continuous' ? distribution.longest : distribution.values.at(-1)!;
  }

  get standardDeviation(): number {
    return Math.sqrt(this.variance);
  }

  /** The time that a share u of all times does not exceed, exactly; 0 < u < 1. */
  quantile(u: number): number {
    const { distribution } = this;
    if (distribution.kind === 'constant') return distribution.mean;
    if (distribution.kind === 'continuous') return distribution.quantile(u);
    const { values } = distribution;
    return values[Math.min(values.length - 1, Math.floor(u * values.length))]!;
  }

  /** `percent` above 0 and below 100. */
  percentile(percent: number): number {
    return this.quantile(percent / 100);
  }

  /** Share of all times that are at most `minutes`, 0 to 1. */
  cdf(minutes: number): number {
    if (this.kind === FIXED) return minutes >= this.mean ? 1 : 0;
    if (this.kind === LIST)
      return this.values.filter((value) => value <= minutes).length / this.values.length;
    let low = 0;
    let high = 1;
    for (let i = 0; i < 60 && high - low > 1e-16; i++) {
      const middle = (low + high) / 2;
      if (this.quantile(middle) <= minutes) low = middle;
      else high = middle;
    }
    return low < 1e-15 ? 0 : high > 1 - 1e-15 ? 1 : (low + high) / 2;
  }
}

const KINDS = { constant: FIXED, continuous: TABLE, empirical: LIST } as const satisfies Record<
  Distribution['kind'],
  CompiledTime['kind']
>;

const valuesOf = (distribution: Distribution): Float64Array => {
  if (distribution.kind === 'empirical') return distribution.values;
  return distribution.kind === 'constant'
    ? Float64Array.of(distribution.mean)
    : new Float64Array(TABLE_LENGTH).fill(NaN);
};

const momentsOf = (distribution: Distribution): Moments => {
  if (distribution.kind === 'constant') return { mean: distribution.mean, variance: 0 };
  if (distribution.kind === 'continuous') return distribution.moments();
  const { values } = distribution;
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) * (value - mean);
  return { mean, variance: squares / values.length };
};

/** Minutes for a random word (32 bits, signed): the hot path of a run. */
export const sample = (time: CompiledTime, word: number): number => {
  if (time.kind === TABLE) {
    const minutes = evaluate(time.values, word);
    return minutes === minutes ? minutes : sampleSlowly(time, word);
  }
  if (time.kind === FIXED) return time.values[0]!;
  return time.values[Math.floor(uniform(word) * time.values.length)]!;
};

/** First word in its bin, or a bin that is left to the exact quantile. */
const sampleSlowly = (time: CompiledTime, word: number): number => {
  return time.distribution.kind === 'continuous'
    ? fill(time.values, time.distribution, word)
    : time.quantile(uniform(word));
};

/**
 * The whole time of a piece that already has `worked` minutes: a draw among the times longer than that. At
 * least `worked`; where no time is as long, `worked` itself (it ends at once).
 */
export const sampleBeyond = (time: CompiledTime, word: number, worked: number): number => {
  if (worked <= 0) return sample(time, word);
  const passed = time.cdf(worked);
  if (passed >= 1) return worked;
  return Math.max(worked, time.quantile(passed + (1 - passed) * uniform(word)));
};

const MOST_KEPT = 500;
const kept = new Map<string, CompiledTime>();

/**
 * The compiled time of a checked time; equal times share one (times longer than `MOST_KEPT` others ago are
 * made anew).
 */
export const compileTime = (time: Time): CompiledTime => {
  const key = JSON.stringify(time);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = new CompiledTime(curveOf(time).distribution(time));
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, made);
  return made;
};

/** Mean of a time as the file gives it, minutes. */
export const meanOf = (time: Time): number => compileTime(time).mean;

/** Whether it is the same every time. */
export const isFixed = (time: Time): boolean => compileTime(time).kind === FIXED;

/**
 * Times of the scenario file, made ready for drawing: moments, percentiles, and minutes for a random word.
 */
import type { Time } from '../scenario/schema.ts';
import { uniform } from '../random/threefry.ts';
import type { AnyCurve, Moments } from './curve.ts';
import { curveOf } from './curves.ts';
import { evaluate, fill, TABLE_LENGTH } from './table.ts';

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
  readonly curve: AnyCurve;
  private known: Moments | null = null;

  constructor(curve: AnyCurve) {
    this.curve = curve;
    this.kind = curve.kind === 'fixed' ? FIXED : curve.kind === 'curve' ? TABLE : LIST;
    this.values = valuesOf(curve);
  }

  get mean(): number {
    return (this.known ??= momentsOf(this.curve)).mean;
  }

  /** Minutes squared. */
  get variance(): number {
    return (this.known ??= momentsOf(this.curve)).variance;
  }

  get standardDeviation(): number {
    return Math.sqrt(this.variance);
  }

  /** The time that a share u of all times does not exceed, exactly; 0 < u < 1. */
  quantile(u: number): number {
    const curve = this.curve;
    if (curve.kind === 'fixed') return curve.mean;
    if (curve.kind === 'curve') return curve.quantile(u);
    return curve.values[Math.min(curve.values.length - 1, Math.floor(u * curve.values.length))]!;
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

const valuesOf = (curve: AnyCurve): Float64Array => {
  if (curve.kind === 'list') return curve.values;
  return curve.kind === 'fixed' ? Float64Array.of(curve.mean) : new Float64Array(TABLE_LENGTH).fill(NaN);
};

const momentsOf = (curve: AnyCurve): Moments => {
  if (curve.kind === 'fixed') return { mean: curve.mean, variance: 0 };
  if (curve.kind === 'curve') return curve.moments();
  let sum = 0;
  for (const value of curve.values) sum += value;
  const mean = sum / curve.values.length;
  let squares = 0;
  for (const value of curve.values) squares += (value - mean) * (value - mean);
  return { mean, variance: squares / curve.values.length };
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
  return time.curve.kind === 'curve' ? fill(time.values, time.curve, word) : time.quantile(uniform(word));
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
  const made = new CompiledTime(curveOf(time));
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, made);
  return made;
};

/**
 * Time curves as the core draws from them. What a curve is (its shape, mean, exact quantile) is known to the
 * host alone; here stands its sampling table (src/duration/table.ts), bins of which are filled when a word
 * first falls into them.
 */
import {
  coefficient,
  fillBin,
  leadingZeros,
  list,
  type List,
  type Numbers,
  sampleBeyond,
  whole,
} from './platform.ts';
import { uniform } from './random.ts';

export const FIXED: i32 = 0;
export const TABLE: i32 = 1;
/** @public Whatever is neither of the others. */
export const LISTED: i32 = 2;

export class Curve {
  readonly id: i32;
  readonly kind: i32;
  /** FIXED: that time. TABLE: four coefficients a bin. LISTED: the values, ascending. Minutes. */
  readonly values: Numbers;

  constructor(id: i32, kind: i32, values: Numbers) {
    this.id = id;
    this.kind = kind;
    this.values = values;
  }
}

let curves: List<Curve> = list<Curve>(64);

/** Keeps a curve under its number, which is the next one. */
export function addCurve(id: i32, kind: i32, values: Numbers): void {
  if (id === curves.length) {
    const longer = list<Curve>(2 * id);
    for (let i = 0; i < id; i++) longer[i] = curves[i]!;
    curves = longer;
  }
  curves[id] = new Curve(id, kind, values);
}

export function clearCurves(): void {
  curves = list<Curve>(64);
}

export function curveAt(id: i32): Curve {
  return curves[id]!;
}

const SUB_BITS: i32 = 3;
const SUBS: i32 = 1 << SUB_BITS;
/** Bits of a reflected word, once shifted up, below its bin number. */
const REST_BITS: i32 = 31 - SUB_BITS;
const REST_MASK: i32 = (1 << REST_BITS) - 1;
const REST_SCALE: number = 1 / 268435456;

/** Minutes for a random word. */
// @inline
export function sample(curve: Curve, word: i32): number {
  const values = curve.values;
  if (curve.kind === TABLE) {
    const distance: i32 = word ^ (word >> 31);
    const row: i32 = leadingZeros(distance);
    const shifted: i32 = distance << row;
    const bin: i32 =
      ((((word >>> 31) << 5) + row - 1) << (SUB_BITS + 2)) + (((shifted >>> REST_BITS) & (SUBS - 1)) << 2);
    const from = values[bin]!;
    if (from !== from) return fill(curve, word, bin);
    const t: number = ((shifted & REST_MASK) + (1 << (row - 1))) * REST_SCALE;
    return from + t * (values[bin + 1]! + t * (values[bin + 2]! + t * values[bin + 3]!));
  }
  if (curve.kind === FIXED) return values[0]!;
  return values[whole(Math.floor(uniform(word) * values.length))]!;
}

/** The whole time of a piece that already has `worked` minutes: a draw among the times longer than that. */
export function sampleAfter(curve: Curve, word: i32, worked: number): number {
  return worked > 0 ? sampleBeyond(curve.id, word, worked) : sample(curve, word);
}

/** First word in its bin, or a bin that is left to the exact quantile. */
function fill(curve: Curve, word: i32, bin: i32): number {
  const minutes = fillBin(curve.id, word);
  const from = coefficient(0);
  if (from === from) {
    const values = curve.values;
    values[bin] = from;
    values[bin + 1] = coefficient(1);
    values[bin + 2] = coefficient(2);
    values[bin + 3] = coefficient(3);
  }
  return minutes;
}

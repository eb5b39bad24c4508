/**
 * What the core asks of the machine under it, as plain JavaScript has it. `platform.wasm.ts` says the same
 * in AssemblyScript; everything else in this room is one source for both.
 */
export type Integers = Int32Array;
export type Numbers = Float64Array;
export type List<T> = T[];

/** So many zeros. */
export const integers = (count: i32): Integers => new Int32Array(count);
export const numbers = (count: i32): Numbers => new Float64Array(count);
/** So many nulls, to be filled before anything is read. */
export const list = <T>(count: i32): List<T> => Array.from({ length: count }, () => null as T);

/** Copies `count` numbers within an array, which may overlap. */
export const moveIntegers = (array: Integers, to: i32, from: i32, count: i32): void => {
  array.copyWithin(to, from, from + count);
};
export const clearNumbers = (array: Numbers): void => {
  array.fill(0);
};

/** A whole number that stands in a double. */
export const whole = (value: number): i32 => value | 0;
/** A 32-bit word as a number from 0 to 2^32 - 1. */
export const unsigned = (word: i32): number => word >>> 0;
/** Zeros before the highest bit, 32 for 0; and after the lowest. */
export const leadingZeros = (word: i32): i32 => Math.clz32(word);
export const lowestBit = (word: i32): i32 => 31 - Math.clz32(word & -word);

/** What only the host knows: see `Host`. */
export interface Host {
  /**
   * The exact time of curve `curve` at a random word, in minutes, while the word's bin of its sampling table
   * is worked out: `coefficient` 0 to 3 are what belongs into it, the first NaN where it may not be filled.
   */
  fillBin(curve: number, word: number): number;
  coefficient(index: number): number;
  /** The whole time of a piece that already has `worked` minutes, see `sampleBeyond`. */
  sampleBeyond(curve: number, word: number, worked: number): number;
}

let host: Host | null = null;
export const setHost = (given: Host): void => {
  host = given;
};
export const fillBin = (curve: i32, word: i32): number => host!.fillBin(curve, word);
export const coefficient = (index: i32): number => host!.coefficient(index);
export const sampleBeyond = (curve: i32, word: i32, worked: number): number =>
  host!.sampleBeyond(curve, word, worked);

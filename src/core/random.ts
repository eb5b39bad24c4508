/**
 * Random words, keyed by what they are for and never by the order of events. `src/random` says where the
 * hash comes from and what the counters mean; this is the same arithmetic for the core.
 */
import { unsigned } from './platform.ts';

/** What a draw is for: `PURPOSE` of src/random/keys.ts, which a test compares. */
export const TASK: i32 = 0;
export const PRODUCT: i32 = 1;
export const GAP: i32 = 2;
export const ATTENDANCE: i32 = 3;
export const LATENESS: i32 = 4;
export const GEAR_FAILURE: i32 = 5;

/** Salmon et al. 2011, table 2 (N = 2, W = 32). */
const PARITY: i32 = 0x1bd11bda;

let second: i32 = 0;

/** The second word of the latest draw. */
export function secondWord(): i32 {
  return second;
}

export function counterOf(purpose: i32, step: i32, visit: i32): i32 {
  return (purpose << 26) | (step << 16) | (visit & 0xffff);
}

/** Threefry-2x32, thirteen rounds: returns the first word, leaves the other in `secondWord()`. */
// @inline
export function threefry(key0: i32, key1: i32, counter0: i32, counter1: i32): i32 {
  const key2: i32 = PARITY ^ key0 ^ key1;
  let a: i32 = (counter0 + key0) | 0;
  let b: i32 = (counter1 + key1) | 0;
  a = (a + b) | 0;
  b = ((b << 13) | (b >>> 19)) ^ a;
  a = (a + b) | 0;
  b = ((b << 15) | (b >>> 17)) ^ a;
  a = (a + b) | 0;
  b = ((b << 26) | (b >>> 6)) ^ a;
  a = (a + b) | 0;
  b = ((b << 6) | (b >>> 26)) ^ a;
  a = (a + key1) | 0;
  b = (b + key2 + 1) | 0;
  a = (a + b) | 0;
  b = ((b << 17) | (b >>> 15)) ^ a;
  a = (a + b) | 0;
  b = ((b << 29) | (b >>> 3)) ^ a;
  a = (a + b) | 0;
  b = ((b << 16) | (b >>> 16)) ^ a;
  a = (a + b) | 0;
  b = ((b << 24) | (b >>> 8)) ^ a;
  a = (a + key2) | 0;
  b = (b + key0 + 2) | 0;
  a = (a + b) | 0;
  b = ((b << 13) | (b >>> 19)) ^ a;
  a = (a + b) | 0;
  b = ((b << 15) | (b >>> 17)) ^ a;
  a = (a + b) | 0;
  b = ((b << 26) | (b >>> 6)) ^ a;
  a = (a + b) | 0;
  b = ((b << 6) | (b >>> 26)) ^ a;
  a = (a + key0) | 0;
  b = (b + key1 + 3) | 0;
  a = (a + b) | 0;
  b = ((b << 17) | (b >>> 15)) ^ a;
  second = b;
  return a;
}

/** A word as a number strictly between 0 and 1: the middle of its 2^32nd part. */
export function uniform(word: i32): number {
  return (unsigned(word) + 0.5) / 4294967296;
}

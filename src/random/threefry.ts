/**
 * Threefry-2x32, a keyed hash of a counter: the same key and counter always give the same two words, in
 * whatever order they are asked for. Source: Salmon, Moraes, Dror, Shaw, "Parallel random numbers: as easy as
 * 1, 2, 3", SC11, 2011. Thirteen rounds are the fewest that the authors found to pass every test of TestU01's
 * BigCrush.
 */

/** Salmon et al. 2011, table 2 (N = 2, W = 32). */
const PARITY = 0x1bd11bda;

/**
 * `words[1]` is the second word of the latest `threefry`, a signed 32-bit integer. One array for all calls:
 * nothing is allocated.
 */
export const words = new Int32Array(2);

/**
 * Thirteen rounds, written out: a loop over the rotations costs twice the time. Keys and counters are 32-bit
 * integers (signed or not). Returns the first word, signed; the second is left in `words[1]` until the next
 * call.
 */
export const threefry = (key0: number, key1: number, counter0: number, counter1: number): number => {
  const key2 = PARITY ^ key0 ^ key1;
  let a = (counter0 + key0) | 0;
  let b = (counter1 + key1) | 0;
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
  words[1] = b;
  return a;
};

/** A word as a number strictly between 0 and 1: the middle of its 2^32nd part. Exact in binary. */
export const uniform = (word: number): number => {
  return ((word >>> 0) + 0.5) / 4294967296;
};

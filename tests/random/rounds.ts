/**
 * Threefry-2x32 as the paper writes it, with any number of rounds, slow and plain: an independent check of
 * the fast form, and with too few rounds a bad generator that the statistical tests must reject. Salmon et
 * al. 2011, rotations of table 2.
 */
const ROTATIONS = [13, 15, 26, 6, 17, 29, 16, 24];

export function threefryRounds(
  rounds: number,
  key: [number, number],
  counter: [number, number],
): [number, number] {
  const modulus = 2n ** 32n;
  const wrap = (x: bigint): bigint => ((x % modulus) + modulus) % modulus;
  const keys = [wrap(BigInt(key[0])), wrap(BigInt(key[1]))];
  keys.push(0x1bd11bdan ^ keys[0]! ^ keys[1]!);
  let a = wrap(BigInt(counter[0]) + keys[0]!);
  let b = wrap(BigInt(counter[1]) + keys[1]!);
  for (let round = 0; round < rounds; round++) {
    const rotation = BigInt(ROTATIONS[round % 8]!);
    a = wrap(a + b);
    b = wrap((b << rotation) | (b >> (32n - rotation))) ^ a;
    if (round % 4 === 3) {
      const injection = (round + 1) / 4;
      a = wrap(a + keys[injection % 3]!);
      b = wrap(b + keys[(injection + 1) % 3]! + BigInt(injection));
    }
  }
  return [Number(a), Number(b)];
}

/**
 * Chi-square of the top eight bits of words over 256 cells, as a number of standard deviations from its mean.
 */
export function unevenness(wordsToTest: Iterable<number>): number {
  const counts = new Float64Array(256);
  let all = 0;
  for (const word of wordsToTest) {
    counts[word >>> 24]! += 1;
    all++;
  }
  let chiSquare = 0;
  for (const count of counts) chiSquare += (count - all / 256) ** 2 / (all / 256);
  return (chiSquare - 255) / Math.sqrt(2 * 255);
}

/**
 * Correlation of two equally long rows of words, in standard errors from 0 (1 / sqrt(n), the means known to
 * be a half).
 */
export function correlation(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += ((a[i]! >>> 0) / 2 ** 32 - 0.5) * ((b[i]! >>> 0) / 2 ** 32 - 0.5);
  return (sum * 12) / Math.sqrt(a.length);
}

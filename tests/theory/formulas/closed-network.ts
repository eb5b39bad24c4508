/**
 * A closed line with a constant number inside: product form (Gordon and Newell 1967), normalized by Buzen's
 * convolution (1973).
 */

export interface Station {
  /** Mean time of a visit. */
  mean: number;
  /** People side by side; Infinity is a wait that needs nobody, of any distribution. */
  servers: number;
}

/** Units a unit of time with `inside` units going round; every station is visited once a round. */
export function closedThroughput(stations: Station[], inside: number): number {
  let constants = [1, ...new Array<number>(inside).fill(0)];
  for (const { mean, servers } of stations) {
    const weights = [1];
    for (let n = 1; n <= inside; n++) weights.push((weights[n - 1]! * mean) / Math.min(n, servers));
    constants = constants.map((_, n) =>
      weights.slice(0, n + 1).reduce((sum, weight, here) => sum + weight * constants[n - here]!, 0),
    );
  }
  return constants[inside - 1]! / constants[inside]!;
}

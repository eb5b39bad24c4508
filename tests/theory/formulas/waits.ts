/**
 * Mean waits that have a formula though the work is not exponential, or the arrivals are not at random, or
 * some go first.
 */
import { stationary } from './chain.ts';

/**
 * Pollaczek and Khinchine: mean wait, one server, random arrivals; work of this mean and squared coefficient
 * of variation.
 */
export function pollaczekKhinchine(arrivals: number, mean: number, squaredVariation: number): number {
  const load = arrivals * mean;
  return (load / (1 - load)) * ((1 + squaredVariation) / 2) * mean;
}

/**
 * Mean wait where arrivals come at an even beat and work is exponential: the root of s = exp(-work (1 - s)
 * beat).
 */
export function evenBeatWait(beat: number, mean: number): number {
  let root = 0.5;
  for (let i = 0; i < 10_000; i++) root = Math.exp((-(1 - root) * beat) / mean);
  return (mean * root) / (1 - root);
}

/**
 * Cobham 1954: mean waits of classes served in this order of precedence, none interrupted; exponential work
 * of one mean, one server.
 */
export function precedence(arrivals: number[], mean: number): number[] {
  const total = arrivals.reduce((sum, rate) => sum + rate, 0);
  let above = 0;
  return arrivals.map((rate) => {
    const before = 1 - above * mean;
    above += rate;
    return (total * mean * mean) / (before * (1 - above * mean));
  });
}

/**
 * Crommelin 1932: mean wait for one of `servers` with a fixed time `fixed` and random arrivals. The number
 * inside at times `fixed` apart is a chain: who was being served is gone, who came is there.
 */
export function fixedTimeWait(arrivals: number, fixed: number, servers: number): number {
  const size = 260;
  const came = [Math.exp(-arrivals * fixed)];
  for (let n = 1; n < size; n++) came.push((came[n - 1]! * arrivals * fixed) / n);
  const rows = Array.from({ length: size }, (_, from) => {
    const row = new Float64Array(size);
    const left = Math.max(0, from - servers);
    for (let n = 0; left + n < size; n++) row[left + n] = came[n]!;
    row[size - 1]! += Math.max(0, 1 - row.reduce((sum, chance) => sum + chance, 0));
    return row;
  });
  const chances = stationary(rows);
  return chances.reduce((sum, chance, n) => sum + chance * Math.max(0, n - servers), 0) / arrivals;
}

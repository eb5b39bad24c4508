/**
 * Rinott's two stages (Communications in Statistics - Theory and Methods 7, 1978): a first stage for the
 * spreads, then as many more as each candidate's own spread asks for, then the best mean.
 *
 * Guarantee: as KN's (kim-nelson.ts), but the candidates' observations must be independent of each other (no
 * common luck). It eliminates nobody on the way; it stands here as the yardstick for what the sequential
 * procedure saves.
 */
import chisquarePdf from '@stdlib/stats-base-dists-chisquare-pdf';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Choice, KimNelsonSettings } from '../../../src/study/selection/kim-nelson.ts';
import { createSeen, see, type Procedure } from '../../../src/study/selection/procedure.ts';

/**
 * Rinott's constant h: the probability that the best of `candidates` wins is `guarantee`. Solved by bisection
 * on the double integral over two chi-square spreads, each by the trapezium rule on the logarithm, where both
 * tails die away (to 1e-6).
 * @param first replications of the first stage, at least 3. @param candidates at least 2.
 */
export function rinottConstant(first: number, candidates: number, guarantee = 0.95): number {
  const degrees = first - 1;
  const { points, weights } = spreadGrid(degrees);
  const scales = points.map((one) => points.map((other) => Math.sqrt(1 / (degrees * (1 / one + 1 / other)))));
  const chance = (h: number): number => {
    let total = 0;
    scales.forEach((row, at) => {
      let wins = 0;
      for (let i = 0; i < row.length; i++) wins += weights[i]! * normalCdf(h * row[i]!, 0, 1);
      total += weights[at]! * wins ** (candidates - 1);
    });
    return total;
  };
  let [low, high] = [0, 4];
  while (chance(high) < guarantee) high *= 2;
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (chance(middle) < guarantee) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Points and weights of a chi-square spread, evenly set on the logarithm. */
function spreadGrid(degrees: number, size = 120): { points: number[]; weights: number[] } {
  const from = Math.log(degrees) - 74 / degrees;
  const to = Math.log(degrees + 10 * Math.sqrt(2 * degrees) + 80);
  const points = Array.from({ length: size }, (_, at) => Math.exp(from + ((to - from) * at) / (size - 1)));
  const raw = points.map((point) => point * chisquarePdf(point, degrees));
  const sum = raw.reduce((total, weight) => total + weight, 0);
  return { points, weights: raw.map((weight) => weight / sum) };
}

export function* rinott(settings: KimNelsonSettings): Procedure<Choice, ArrayLike<number>> {
  const { candidates, matters, guarantee, first = 30, most = Infinity } = settings;
  const everybody = Array.from({ length: candidates }, (_, candidate) => candidate);
  const seen = createSeen(candidates);
  const h = candidates < 2 ? 0 : rinottConstant(first, candidates, guarantee);
  yield* see(seen, everybody, first);
  const wanted = seen.rows.map((rows) => Math.max(first, Math.ceil((h / matters) ** 2 * variance(rows))));
  for (const candidate of everybody) yield* see(seen, [candidate], Math.min(wanted[candidate]!, most));
  const means = seen.rows.map(meanOf);
  const sign = settings.better === 'more' ? 1 : -1;
  const chosen = everybody.reduce((best, one) => (sign * means[one]! > sign * means[best]! ? one : best));
  return {
    chosen,
    out: [],
    taken: seen.rows.map((rows) => rows.length),
    capped: wanted.some((count) => count > most),
    means,
  };
}

const meanOf = (rows: number[]): number => rows.reduce((sum, value) => sum + value, 0) / rows.length;

function variance(rows: number[]): number {
  const mean = meanOf(rows);
  return rows.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (rows.length - 1);
}

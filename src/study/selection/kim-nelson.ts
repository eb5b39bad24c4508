/**
 * The fully sequential procedure KN with c = 1 (Kim and Nelson, ACM Transactions on Modeling and Computer
 * Simulation 11, 2001).
 *
 * Guarantee: if one candidate's mean is better than every other's by at least `matters`, it is the one chosen
 * with probability at least `guarantee`, for normal observations that are independent from replication to
 * replication; those of one replication may hang together (common luck is allowed and helps). Looking after
 * blocks rather than after every replication only looks less often, which the proof allows.
 */
import { createSeen, nextLook, see, type Procedure } from './procedure.ts';

export interface KimNelsonSettings {
  candidates: number;
  better: 'more' | 'less';
  /** The difference in means worth finding (the indifference zone), over 0. */
  matters: number;
  /** Probability of correct selection, over 1 / candidates and under 1. */
  guarantee: number;
  /** Replications before the first look; at least 2. Default 30. */
  first?: number;
  /** Replications between looks. Default 20. */
  block?: number;
  /** Stop here at the latest, and say so. Default: no cap. */
  most?: number;
}

export interface Choice {
  chosen: number;
  /** Candidates in the order they fell out, with the replications it took. */
  out: { candidate: number; after: number }[];
  /** Replications seen, by candidate. */
  taken: number[];
  /** Ended by the cap: the best so far, without the guarantee. */
  capped: boolean;
  /** Sample means over what was seen. */
  means: number[];
}

/** The constants eta and h squared. @param rivals candidates less one. */
export function kimNelsonConstants(
  rivals: number,
  first: number,
  alpha: number,
): { eta: number; h2: number } {
  const eta = 0.5 * (((2 * alpha) / Math.max(1, rivals)) ** (-2 / (first - 1)) - 1);
  return { eta, h2: 2 * eta * (first - 1) };
}

export function* kimNelson(settings: KimNelsonSettings): Procedure<Choice, ArrayLike<number>> {
  const { candidates, matters, first = 30, block = 20, most = Infinity } = settings;
  check(settings, first);
  const sign = settings.better === 'more' ? 1 : -1;
  const { h2 } = kimNelsonConstants(candidates - 1, first, 1 - settings.guarantee);
  const seen = createSeen(candidates);
  let left = Array.from({ length: candidates }, (_, candidate) => candidate);
  const out: Choice['out'] = [];
  const sums = new Float64Array(candidates);
  let [count, summed] = [first, 0];
  yield* see(seen, left, count);
  // Spread of each pair's difference, times h2: where the range of the contest closes.
  const closes = left.map((one) =>
    left.map((other) => h2 * pairVariance(seen.rows[one]!, seen.rows[other]!, first)),
  );
  for (;;) {
    for (const one of left)
      for (let row = summed; row < count; row++) sums[one]! += sign * seen.rows[one]![row]!;
    summed = count;
    const beaten = left.filter((one) =>
      left.some((other) => {
        const room = Math.max(0, (closes[one]![other]! / matters - matters * count) / 2);
        return other !== one && sums[one]! < sums[other]! - room;
      }),
    );
    for (const candidate of beaten) out.push({ candidate, after: count });
    left = left.filter((one) => !beaten.includes(one));
    const open = left.some((one) =>
      left.some((other) => other !== one && closes[one]![other]! >= matters ** 2 * count),
    );
    if (left.length === 1 || !open || count >= most) break;
    count = Math.min(nextLook(count, block), most);
    yield* see(seen, left, count);
  }
  const capped = left.some((one) =>
    left.some((other) => other !== one && closes[one]![other]! >= matters ** 2 * count),
  );
  const chosen = left.reduce((best, one) => (sums[one]! > sums[best]! ? one : best));
  const taken = seen.rows.map((rows) => rows.length);
  return {
    chosen,
    out,
    taken,
    capped,
    means: seen.rows.map((rows) => rows.reduce((sum, value) => sum + value, 0) / rows.length),
  };
}

function pairVariance(one: number[], other: number[], first: number): number {
  let [mean, squares] = [0, 0];
  for (let row = 0; row < first; row++) {
    const away = one[row]! - other[row]! - mean;
    mean += away / (row + 1);
    squares += away * (one[row]! - other[row]! - mean);
  }
  return squares / (first - 1);
}

function check({ candidates, matters, guarantee }: KimNelsonSettings, first: number): void {
  if (!(candidates >= 1)) throw new RangeError(`there must be a candidate to choose`);
  if (!(matters > 0)) throw new RangeError(`the difference that matters must be over 0, not ${matters}`);
  if (!(guarantee > 0 && guarantee < 1))
    throw new RangeError(`guarantee must be over 0 and under 1, not ${guarantee}`);
  if (!(first >= 2)) throw new RangeError(`the first stage needs at least 2 replications, not ${first}`);
}

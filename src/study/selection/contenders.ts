/**
 * The best of some candidates and those that are as good: KN (kim-nelson.ts) for the best, then, on the same
 * replications, which of the others are surely no worse than it by more than half of the indifference zone.
 *
 * Guarantee: with probability at least `1 - error` every one of the equals has a mean within `matters` of the
 * largest of all, for near-normal observations. Half of the error and half of the zone are KN's; the other
 * half of each are Student's one-sided bounds of the paired differences, evenly over the candidates
 * (Bonferroni).
 */
import { createMoments, addDifferences, deviationOf } from '../intervals/moments.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import { kimNelson } from './kim-nelson.ts';
import { createSeen, see, type Procedure } from './procedure.ts';

export interface ContendersSettings {
  candidates: number;
  better: 'more' | 'less';
  /** The difference in means worth finding (the indifference zone), over 0. */
  matters: number;
  /** Probability of a wrong answer, over 0 and under 1. */
  error: number;
  first: number;
  block: number;
  most: number;
}

export interface Contenders {
  /** The best and those as good, in the order given. */
  equals: number[];
  /** Of the others, the last to fall; null where there are none. */
  nextBest: number | null;
  /** Ended by the cap, without the guarantee. */
  capped: boolean;
}

/**
 * Replications by which it is settled who is as good as the best: a first look at their spread, then as many
 * as tell those apart that differ by a quarter of the zone, but no more than this.
 */
const FIRST_LOOK = 200;
const SETTLED = 1000;

export function* bestAndEquals(settings: ContendersSettings): Procedure<Contenders, ArrayLike<number>> {
  const { candidates, error, most, better } = settings;
  const near = settings.matters / 2;
  const seen = createSeen(candidates);
  const choice = yield* remembered(kimNelson({ ...settings, matters: near, guarantee: 1 - error / 2 }), seen);
  const best = choice.chosen;
  const others = seen.rows.map((_, at) => at).filter((at) => at !== best);
  const sign = better === 'more' ? 1 : -1;
  // Two-sided, for a one-sided bound that fails in half of what is left out.
  const confidence = 1 - error / Math.max(1, candidates - 1);
  const hopeful = others.filter((one) => sign * behind(seen.rows[best]!, seen.rows[one]!).mean < near);
  const look = Math.min(most, Math.max(FIRST_LOOK, choice.taken[best]!));
  if (hopeful.length > 0) yield* see(seen, [best, ...hopeful], look);
  const wanted = hopeful.map((one) => {
    const { mean, deviation, count } = behind(seen.rows[best]!, seen.rows[one]!);
    const enough = ((2 * studentQuantile(confidence, count - 1) * deviation) / near) ** 2;
    return sign * mean < near ? Math.min(most, SETTLED, Math.ceil(enough)) : 0;
  });
  for (const [at, one] of hopeful.entries())
    if (wanted[at]! > look) yield* see(seen, [best, one], wanted[at]!);
  const equals = hopeful.filter((one) => {
    const { mean, deviation, count } = behind(seen.rows[best]!, seen.rows[one]!);
    const bound = (studentQuantile(confidence, count - 1) * deviation) / Math.sqrt(count);
    return sign * mean + bound <= near;
  });
  const fell = new Map(choice.out.map(({ candidate, after }) => [candidate, after]));
  const rest = others
    .filter((one) => !equals.includes(one))
    .sort(
      (a, b) =>
        (fell.get(b) ?? Infinity) - (fell.get(a) ?? Infinity) || sign * (choice.means[b]! - choice.means[a]!),
    );
  return {
    equals: [best, ...equals].sort((a, b) => a - b),
    nextBest: rest[0] ?? null,
    capped: choice.capped,
  };
}

/** A procedure whose rows are kept as they come by. */
function* remembered<Result>(
  procedure: Procedure<Result, ArrayLike<number>>,
  seen: ReturnType<typeof createSeen>,
): Procedure<Result, ArrayLike<number>> {
  let turn = procedure.next();
  while (!turn.done) {
    const answers = yield turn.value;
    turn.value.forEach(({ candidate, count }, at) => {
      for (let i = 0; i < count; i++) seen.rows[candidate]!.push(answers[at]![i]!);
    });
    turn = procedure.next(answers);
  }
  return turn.value;
}

/** By how much one is behind the best, over the replications seen of both. */
function behind(best: number[], one: number[]): { mean: number; deviation: number; count: number } {
  const moments = createMoments(1);
  const count = Math.min(best.length, one.length);
  for (let at = 0; at < count; at++) addDifferences(moments, one, at, best, at);
  return { mean: moments.mean[0]!, deviation: deviationOf(moments, 0), count };
}

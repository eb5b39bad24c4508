/**
 * What single shifts make when the inputs are not known exactly: the shifts that were run, moved all together
 * by what the inputs leave open. A promise read off them is kept as often as it says, over all the shops that
 * the timings may have come from: a predictive level, not a plug-in one (Geisser, Predictive Inference, 1993,
 * from memory).
 *
 * Whole units are spread evenly over the unit above them first, so that a move by part of a unit counts for
 * its part; without a move they are as they were.
 */
import { chanceInterval } from '../intervals/chance-interval.ts';
import type { Interval } from '../intervals/interval.ts';
import { madeByShareOf, reaching as countReaching, type Frequencies } from '../intervals/frequencies.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import { LEAST_DEGREES, type InputComponents } from './components.ts';

/** The moves are taken at the middles of so many equally likely stretches. */
const STRETCHES = 40;

/** So many equally likely moves of the mean, ascending; the one move 0 where nothing is open. */
export function movesOf({ variance, degrees }: InputComponents): number[] {
  if (!(variance > 0)) return [0];
  const deviation = Math.sqrt(variance);
  const outwards = Array.from(
    { length: STRETCHES / 2 },
    (_, i) => deviation * studentQuantile((2 * i + 1) / STRETCHES, Math.max(LEAST_DEGREES, degrees)),
  );
  return [...outwards.map((move) => -move).reverse(), ...outwards];
}

/** How far either side the inputs leave a mean open, at a confidence. */
export const endOf = ({ variance, degrees }: InputComponents, confidence: number): number =>
  studentQuantile(confidence, Math.max(LEAST_DEGREES, degrees)) * Math.sqrt(variance);

/** Share of shifts that reach `asked`, 0 to 1. @param moves from `movesOf`. */
export function shareReaching(
  { values, counts, total }: Frequencies,
  asked: number,
  moves: readonly number[],
): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const short = asked - values[i]!;
    let here = 0;
    for (const move of moves) here += Math.min(1, Math.max(0, 1 + move - short));
    sum += here * counts[i]!;
  }
  return sum / total / moves.length;
}

/**
 * The most whole units that at least `share` of the shifts reach; without moves what the runs themselves say.
 * @param share over 0, under 1.
 */
export function promisedLevel(
  made: Frequencies,
  share: number,
  moves: readonly number[],
  reaching = shareReaching,
): number {
  const plain = madeByShareOf(made, share);
  if (moves.length === 1 || !Number.isFinite(plain)) return plain;
  const holds = (level: number): boolean => reaching(made, level, moves) >= share - 1e-9;
  let level = Math.floor(plain);
  while (level > 0 && !holds(level)) level -= 1;
  while (holds(level + 1)) level += 1;
  return Math.max(0, level);
}

/**
 * The chance that a margin is 0 or more: its predictive value, and the range that luck (Wilson's interval of
 * the runs) and inputs (the margins moved to either end of theirs) leave for the true one.
 */
export function predictiveChance(
  margins: Frequencies,
  components: InputComponents | null,
  confidence: number,
): Interval {
  const plain = chanceInterval(countReaching(margins, 0), margins.total, confidence);
  if (components === null || !(components.variance > 0) || margins.total === 0) return plain;
  const estimate = shareReaching(margins, 0, movesOf(components));
  const end = endOf(components, confidence);
  const apart = (luck: number, moved: number): number =>
    Math.sqrt((plain.estimate - luck) ** 2 + (plain.estimate - moved) ** 2);
  const low = plain.estimate - apart(plain.low, shareReaching(margins, 0, [-end]));
  const high = plain.estimate + apart(plain.high, shareReaching(margins, 0, [end]));
  const range = { low: Math.max(0, Math.min(low, estimate)), high: Math.min(1, Math.max(high, estimate)) };
  const half = (range.high - range.low) / 2;
  return {
    ...plain,
    ...range,
    estimate,
    half,
    luck: plain.half,
    inputs: Math.sqrt(Math.max(0, half ** 2 - plain.half ** 2)),
  };
}

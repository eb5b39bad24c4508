/** Which inputs a range hangs on, and what timing or counting more of them would make of it. */
import type { Interval } from '../intervals/interval.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import type { InputComponents } from './components.ts';
import { HALF_RANGE } from './deviation.ts';
import type { StudiedInput } from './input-study.ts';

/** More timings (or pieces or days counted) of one input. */
export interface More {
  input: string;
  more: number;
}

export interface Narrowing {
  /** Inputs by their share of what is open for them (0 to 1), largest first; those under 1 % left out. */
  shares: { input: string; share: number }[];
  /** What helps most, and the half-widths then; null where luck leaves more open. */
  advice: { rounds: More[]; inputs: number; half: number; halves: boolean } | null;
}

/** Timings are asked for by so many, of whatever leaves most open then. */
const A_ROUND = 10;
/** So many rounds fill an hour or two with the stopwatch, */
const ROUNDS = 8;
/** and so many more are offered where they settle the question. */
const MOST_ROUNDS = 12;
/** Pieces are counted by the hundred, not timed. */
const PIECES = 10;

/** What is left of an input's variance after so many more timings of it, 0 to 1. */
export function leftAfter(input: StudiedInput, more: number): number {
  const { known, deviation, variation } = input;
  const of = (variance: number): number => Math.min(1, variance / deviation ** 2);
  switch (known.kind) {
    case 'counted':
      return known.of / (known.of + more * PIECES);
    case 'times': {
      const wide = (degrees: number): number => studentQuantile(0.95, Math.max(1, degrees)) / HALF_RANGE;
      const [before, after] = [known.count - 1, known.count + more - 1];
      return (known.count / (known.count + more)) * (wide(after) / wide(before)) ** 2;
    }
    case 'within': {
      // What is remembered and what is timed weigh by their precision.
      const timed = (variation ?? 0) ** 2 / more;
      return of(timed > 0 ? 1 / (1 / deviation ** 2 + 1 / timed) : 0);
    }
  }
}

export function narrowingOf(
  interval: Interval,
  components: InputComponents,
  inputs: readonly StudiedInput[],
): Narrowing {
  const { variance, parts } = components;
  if (!(variance > 0)) return { shares: [], advice: null };
  const shares = parts
    .map((part, at) => ({ input: inputs[at]!, share: part / variance }))
    .filter(({ share }) => share >= 0.01)
    .sort((a, b) => b.share - a.share);
  return {
    shares: shares.map(({ input, share }) => ({ input: input.id, share })),
    advice: adviceOf(interval, shares),
  };
}

/** What halves the inputs' half-width, or what a good look would do to it. */
function adviceOf(interval: Interval, shares: Hanging[]): Narrowing['advice'] {
  const { inputs: open, luck } = interval;
  if (shares.length === 0 || open <= luck / 2) return null;
  const taken = takeUntil(shares, ROUNDS, (left) => Math.sqrt(left) <= 0.5);
  const inputs = open * Math.sqrt(taken.left);
  return {
    rounds: taken.rounds,
    inputs,
    half: Math.hypot(inputs, luck),
    halves: Math.sqrt(taken.left) <= 0.5,
  };
}

/**
 * What would bring the whole half-width under `wanted`. Null where luck alone leaves more, or where it would
 * take more than `MOST_ROUNDS` rounds.
 */
export function toReach(
  { inputs: open, luck }: Interval,
  { shares }: Narrowing,
  inputs: readonly StudiedInput[],
  wanted: number,
): { rounds: More[]; half: number } | null {
  if (shares.length === 0 || luck >= wanted) return null;
  const hanging = shares.map(({ input, share }) => ({
    input: inputs.find(({ id }) => id === input)!,
    share,
  }));
  const half = (left: number): number => Math.hypot(luck, open * Math.sqrt(left));
  const { rounds, left } = takeUntil(hanging, MOST_ROUNDS, (one) => half(one) < wanted);
  return half(left) < wanted ? { rounds, half: half(left) } : null;
}

interface Hanging {
  input: StudiedInput;
  share: number;
}

/**
 * A round more of whatever leaves most open, again and again, until it is enough. @param enough told the
 * share of the inputs' variance that is left.
 */
function takeUntil(
  shares: readonly Hanging[],
  most: number,
  enough: (left: number) => boolean,
): { rounds: More[]; left: number } {
  const hanging = shares.map((one) => ({ ...one, more: 0 }));
  const leftOf = ({ input, share }: Hanging, more: number): number =>
    share * (more === 0 ? 1 : leftAfter(input, more));
  const named = hanging.reduce((sum, { share }) => sum + share, 0);
  const left = (): number => 1 - named + hanging.reduce((sum, one) => sum + leftOf(one, one.more), 0);
  const gain = (one: (typeof hanging)[number]): number =>
    leftOf(one, one.more) - leftOf(one, one.more + A_ROUND);
  for (let round = 0; round < most && !enough(left()); round++)
    hanging.reduce((best, one) => (gain(one) > gain(best) ? one : best)).more += A_ROUND;
  const taken = hanging.filter(({ more }) => more > 0);
  return { rounds: taken.map(({ input, more }) => moreOf(input, more)), left: left() };
}

const moreOf = ({ id, known }: StudiedInput, more: number): More => ({
  input: id,
  more: known.kind === 'counted' ? more * PIECES : more,
});

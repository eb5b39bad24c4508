/** What single shifts make: levels, and how often each is reached. */
import { NO_COMPONENTS, type InputComponents } from './inputs/components.ts';
import { endOf, movesOf, promisedLevel, shareReaching } from './inputs/predictive.ts';
import { madeByShareOf, type Frequencies } from './intervals/frequencies.ts';
import { levelRange, type LevelRange } from './level-range.ts';

/** The spread of single shifts, or of so many in a row together: for promises. */
export interface Spread {
  /** What nine in ten, half, and one in ten make. */
  nineInTen: number;
  half: number;
  oneInTen: number;
  /** Between what each of the three surely lies. */
  ranges: { nineInTen: LevelRange; half: LevelRange; oneInTen: LevelRange };
  least: number;
  most: number;
  /** How often each value came in the runs, ascending. */
  counts: { value: number; shifts: number }[];
  /** Share of shifts (0 to 1) that make so many or more, inputs in; ascending, from all to none. */
  reached: { value: number; share: number }[];
  /** Share of shifts from `nineInTen` to `oneInTen`: whole units make it more than eight in ten. */
  inside: number;
}

/** Shares under this, and over one less it, are none and all. */
const HARDLY = 5e-4;
/** So many levels at most are told of each end: a wide spread of many units has hardly any of each. */
const MOST_LEVELS = 2000;

/**
 * @param made whole units, one a shift. @param part the inputs' in their mean: what is promised then holds
 *   for all that they may be. What was made at least and at most, and how often, is of the runs themselves.
 * @param capped people stay until so many are made and no longer: better times then make no more of them.
 */
export function spreadOf(
  made: Frequencies,
  confidence: number,
  part: InputComponents | null = null,
  reaching = shareReaching,
  capped = Infinity,
): Spread {
  const moves = movesOf(part ?? NO_COMPONENTS);
  const open = part === null ? 0 : endOf(part, confidence);
  const counts = countsOf(made);
  const [nineInTen, half, oneInTen] = [0.9, 0.5, 0.1].map((share) =>
    promisedLevel(made, share, moves, reaching),
  ) as [number, number, number];
  const rangeOf = (level: number, share: number): LevelRange => {
    const plain = madeByShareOf(made, share);
    const luck = levelRange(made, { level, plain, share }, 0, confidence);
    const all = levelRange(made, { level, plain, share }, open, confidence);
    return { low: all.low, high: Math.min(all.high, Math.max(capped, luck.high)) };
  };
  const shareOf = (level: number): number => reaching(made, level, moves);
  return {
    nineInTen,
    half,
    oneInTen,
    ranges: {
      nineInTen: rangeOf(nineInTen, 0.9),
      half: rangeOf(half, 0.5),
      oneInTen: rangeOf(oneInTen, 0.1),
    },
    least: made.values[0] ?? NaN,
    most: made.values[made.values.length - 1] ?? NaN,
    counts,
    reached: moves.length === 1 ? reachedIn(counts, made.total) : levelsOf(half, shareOf),
    inside: made.total === 0 ? NaN : shareOf(nineInTen) - shareOf(oneInTen + 1),
  };
}

const countsOf = ({ values, counts }: Frequencies): Spread['counts'] =>
  Array.from(values, (value, i) => ({ value, shifts: counts[i]! }));

function reachedIn(counts: Spread['counts'], all: number): Spread['reached'] {
  let left = all;
  return counts.map(({ value, shifts }) => {
    const share = left / all;
    left -= shifts;
    return { value, share };
  });
}

function levelsOf(middle: number, shareOf: (level: number) => number): Spread['reached'] {
  let least = middle;
  while (least > 0 && shareOf(least) < 1 - HARDLY && middle - least < MOST_LEVELS) least -= 1;
  const reached: Spread['reached'] = [];
  for (let value = least; value - middle < MOST_LEVELS; value += 1) {
    const share = shareOf(value);
    if (share < HARDLY) break;
    reached.push({ value, share });
  }
  return reached;
}

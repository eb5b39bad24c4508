/**
 * In which way every uncertain input is moved in every pair of runs: a two-level design, folded over.
 *
 * Each pair of runs has the luck of one replication; in the one every input is moved up or down by its
 * standard deviation, in the other the opposite way. Half the difference of the two is what the inputs do,
 * to first order; what moving them does to second order, and most of the luck, cancels (antithetic runs on
 * common random numbers). Over a block of pairs the signs of any two inputs are orthogonal (columns of a
 * Hadamard matrix of Sylvester's), so that every run tells of every input: Plackett and Burman, Biometrika
 * 33, 1946; fold-over: Box and Wilson 1951 (both from memory). With many inputs the sum of signed moves is
 * spread like the sum of as many drawn ones.
 */
import { seedKey } from '../../random/keys.ts';
import { threefry, uniform } from '../../random/threefry.ts';

/**
 * Inputs are moved by so many standard deviations: the outer points of the three-point Gauss-Hermite rule, so
 * that what the answer does over the whole range counts, and luck little against it.
 */
export const STEP = Math.sqrt(3);

export interface Design {
  inputs: number;
  /** Pairs in a block; blocks 0 and 1 are twins, 2 and 3, and so on. */
  block: number;
  pairs: number;
  /** [pairs x inputs] 1 or -1, of the first run of a pair. */
  signs: Int8Array;
}

/** Pairs in a block: the least power of two that is not under the number of inputs, at least eight. */
export function blockOf(inputs: number): number {
  let size = 8;
  while (size < inputs) size *= 2;
  return size;
}

/**
 * @param inputs how many. @param wanted pairs: rounded to whole twins of blocks, one twin at least.
 * @param seed the columns are dealt out by it, anew for every twin. The two blocks of a twin have the same
 *   moves on other luck: so what belongs to the moves is told from what belongs to the luck.
 * @param common so many of the inputs, the first, are those of the cell asked about; the others belong to
 *   changes to it. The common ones are moved alike whatever else is asked about, and the others share the
 *   columns that are left: as a rule no two of them are in one answer.
 */
export function designOf(inputs: number, wanted: number, seed: string, common?: number): Design {
  const block = blockOf(common === undefined ? inputs : common + SPARE);
  const twins = Math.max(1, Math.round(wanted / block / 2));
  const signs = new Int8Array(2 * twins * block * inputs);
  const key = seedKey(`inputs of ${seed}`);
  for (let at = 0; at < 2 * twins; at++) {
    const columns = shuffled(block, (i) => uniform(threefry(key, at >> 1, i, 0)));
    for (let row = 0; row < block; row++)
      for (let input = 0; input < inputs; input++)
        signs[(at * block + row) * inputs + input] =
          parity(row & columns[columnOf(input, common ?? inputs, block)]!) === 0 ? 1 : -1;
  }
  return { inputs, block, pairs: 2 * twins * block, signs };
}

/** Columns kept for inputs of changes, at least. */
const SPARE = 2;

const columnOf = (input: number, common: number, block: number): number =>
  input < block ? input : common + ((input - common) % (block - common));

/** The design of some of the inputs alone, in the order given. */
export function designFor(design: Design, inputs: readonly number[]): Design {
  if (inputs.length === design.inputs) return design;
  const signs = new Int8Array(design.pairs * inputs.length);
  for (let pair = 0; pair < design.pairs; pair++)
    inputs.forEach((input, i) => {
      signs[pair * inputs.length + i] = design.signs[pair * design.inputs + input]!;
    });
  return { ...design, inputs: inputs.length, signs };
}

function shuffled(length: number, luck: (i: number) => number): number[] {
  const list = Array.from({ length }, (_, i) => i);
  for (let i = length - 1; i > 0; i--) {
    const j = Math.floor(luck(i) * (i + 1));
    [list[i], list[j]] = [list[j]!, list[i]!];
  }
  return list;
}

function parity(bits: number): number {
  let odd = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) odd ^= 1;
  return odd;
}

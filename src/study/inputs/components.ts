/**
 * From the pairs of a design to what is not known of the inputs: a variance, how well it is known, and each
 * input's part.
 *
 * To first order an answer moves by the sum of the inputs' effects, so its variance for the inputs is the sum
 * of their squares (the derivative form of Cheng and Holland, 1997: variance = inputs + luck). Each estimated
 * effect holds luck too, and its square too much of it by the variance of that luck, which the pairs
 * themselves tell; taken off, the sum is unbiased, as in the one-way random effects layout of Ankenman and
 * Nelson (Winter Simulation Conference 2012); by input as in Song and Nelson (2015). All from memory.
 *
 * Where two steps are about equally slow the answer has a kink: whichever way the inputs lie it is less, and
 * the first order misses half of it. So the mean square of the second order (the mean of both runs of a pair
 * less the run as the file has it) is put to it, found as the mean product of twins with the same moves on
 * other luck, which holds no luck at all on average.
 */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { around, type Interval } from '../intervals/interval.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import type { Design } from './design.ts';

export interface InputComponents {
  /** Of the answer's mean, for all that is not known of the inputs together; 0 or more. */
  variance: number;
  /** Degrees of freedom of that variance; Infinity where there is none to know. */
  degrees: number;
  /** By input: its part of the variance, 0 or more; they sum to `variance`. */
  parts: number[];
  /** By input: by how much the answer moves with one standard deviation of it upwards. */
  effects: number[];
}

export const NO_COMPONENTS: InputComponents = { variance: 0, degrees: Infinity, parts: [], effects: [] };

/** What the pairs of a design made, for moves of one standard deviation; NaN where it does not exist. */
export interface PairValues {
  /** Half of (first run less second run), one a pair. */
  odd: ArrayLike<number>;
  /** Mean of both runs less the run as the file has it, on the same luck. */
  even: ArrayLike<number>;
}

/** @param degrees by input, of its own deviation. */
export function componentsOf(
  design: Design,
  { odd, even }: PairValues,
  degrees: readonly number[],
): InputComponents {
  const { inputs, signs } = design;
  const effects = new Array<number>(inputs).fill(0);
  let [count, squares] = [0, 0];
  for (let pair = 0; pair < odd.length; pair++) {
    const half = odd[pair]!;
    if (Number.isNaN(half)) continue;
    count += 1;
    squares += half * half;
    for (let input = 0; input < inputs; input++) effects[input]! += signs[pair * inputs + input]! * half;
  }
  if (count <= inputs) return NO_COMPONENTS;
  for (let input = 0; input < inputs; input++) effects[input]! /= count;
  const explained = effects.reduce((sum, effect) => sum + effect * effect, 0);
  const left = count - inputs;
  // Variance of the luck in an estimated effect.
  const luck = Math.max(0, squares - count * explained) / left / count;
  const first = atLeastNothing(
    explained - inputs * luck,
    Math.sqrt(firstNoise(explained, inputs, luck, left)),
  );
  const variance = first + secondOrder(design, even, first);
  const own = effects.map((effect) => Math.max(0, effect * effect - luck));
  const total = own.reduce((sum, one) => sum + one, 0);
  const parts = own.map((one) => (total > 0 ? one / total : 1 / inputs) * variance);
  return { variance, degrees: degreesOf(variance, parts, degrees, luck, left), parts, effects };
}

/** Variance of the first order's estimate for luck: effects squared, and what is taken off for their luck. */
const firstNoise = (explained: number, inputs: number, luck: number, left: number): number =>
  4 * Math.max(0, explained - inputs * luck) * luck + 2 * inputs * luck * luck * (1 + inputs / left);

/**
 * What an estimate of a variance says of it, as no variance is under 0: the mean of the normal curve round
 * the estimate, cut off at 0. Far over its error it is the estimate; near 0 it is what cannot be ruled out.
 */
function atLeastNothing(estimate: number, error: number): number {
  if (!(error > 0)) return Math.max(0, estimate);
  const z = estimate / error;
  const over = normalCdf(z, 0, 1);
  // Mills' ratio far below 0, where the share above is too small to divide by.
  if (z < -8) return -error / z;
  return estimate + (error * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI) / over;
}

/**
 * What moving the inputs does to second order. The square of its mean over all moves is told well by few
 * runs and is the most of it. Its mean square, by twins with other luck, takes many: it counts for as much as
 * its error is small against the first order (the weight of a sum of two by their squares), or, where that
 * says nothing, for what the twins surely show.
 */
function secondOrder({ block }: Design, values: ArrayLike<number>, first: number): number {
  const all = momentsOfList(Array.from(values).filter((value) => !Number.isNaN(value)));
  if (all.count < 2) return 0;
  const twins: number[] = [];
  for (let pair = 0; pair < values.length; pair++) {
    const product = values[pair]! * values[pair + block]!;
    if (Math.floor(pair / block) % 2 === 0 && !Number.isNaN(product)) twins.push(product);
  }
  const { count, mean, variance } = momentsOfList(twins);
  const ofMean = all.mean ** 2 - all.variance / all.count;
  if (count < 2) return Math.max(0, ofMean);
  const weight = first > 0 ? first ** 2 / (first ** 2 + variance / count) : 0;
  return Math.max(0, ofMean, weight * mean, mean - SURELY * Math.sqrt(variance / count));
}

/** Standard errors that 95 in 100 lie over (one-sided). */
const SURELY = 1.645;

function momentsOfList(list: readonly number[]): { count: number; mean: number; variance: number } {
  const mean = list.reduce((sum, one) => sum + one, 0) / list.length;
  const squares = list.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { count: list.length, mean, variance: squares / (list.length - 1) };
}

/**
 * Satterthwaite's degrees of freedom (Biometrics Bulletin 2, 1946): twice the square of the variance over the
 * variance of its estimate, which comes from few timings of an input (2 v^2 / degrees of each) and from the
 * luck in the effects (4 v luck + 2 luck^2 for each, and what is taken off for it). The luck's own part is
 * not let under `FEWEST_FROM_LUCK`: near nothing the variance is a difference of two, for which the formula
 * says far too little.
 */
function degreesOf(
  variance: number,
  parts: readonly number[],
  degrees: readonly number[],
  luck: number,
  left: number,
): number {
  if (!(variance > 0)) return Infinity;
  const inputs = parts.length;
  const fromTimings = parts.reduce((sum, part, i) => sum + (2 * part * part) / degrees[i]!, 0);
  const fromLuck = firstNoise(variance + inputs * luck, inputs, luck, left);
  const share = (spread: number): number => spread / (2 * variance * variance);
  return 1 / (share(fromTimings) + Math.min(share(fromLuck), 1 / FEWEST_FROM_LUCK));
}

const FEWEST_FROM_LUCK = 10;
/** A variance from two timings has one degree of freedom, and no variance has fewer. */
export const LEAST_DEGREES = 1;

/**
 * The interval of luck alone widened by what is not known of the inputs: half^2 = luck^2 + inputs^2, each
 * half by its own Student's t, as margins of independent parts are put together (Howe, JASA 69, 1974; from
 * memory). Several ranges stated together share out the chance of being misled by luck, which each has its
 * own of; the inputs are the same for all of them, so for those each holds at the confidence by itself.
 */
export function withInputs(interval: Interval, { variance, degrees }: InputComponents): Interval {
  if (!(variance > 0) || !Number.isFinite(interval.half)) return interval;
  const inputs = studentQuantile(interval.confidence, Math.max(LEAST_DEGREES, degrees)) * Math.sqrt(variance);
  const half = Math.hypot(interval.half, inputs);
  return {
    ...around(interval.estimate, half, interval.count, interval.confidence),
    luck: interval.half,
    inputs,
  };
}

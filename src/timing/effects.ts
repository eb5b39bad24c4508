/**
 * Do products or people take different times at a step? Least squares on the logarithms, one term for each
 * product and one for each person, so that a person who mostly got the long product is not called slow for
 * it. Given as ratios with ranges; where the data cannot tell, that is said.
 */
import { exp, log } from '../random/exact.ts';
import { shared } from '../study/intervals/interval.ts';
import { studentQuantile } from '../study/intervals/student-quantile.ts';
import type { Observation } from './observation.ts';

export type EffectVerdict = 'longer' | 'shorter' | 'cannot tell';

export interface Effect {
  kind: 'product' | 'person';
  id: string;
  /** What it is compared with: the one with most observations. */
  against: string;
  count: number;
  /**
   * Times as long as the other's (geometric means), with its range; all NaN where the two cannot be told
   * apart.
   */
  ratio: number;
  low: number;
  high: number;
  verdict: EffectVerdict;
  /** Why it cannot be told, or the finding, in plain words. */
  sentence: string;
}

export interface Effects {
  effects: Effect[];
  count: number;
  /**
   * Left out: without a product or a person where others have one, or one of so many that only the most
   * frequent are compared.
   */
  leftOut: number;
  /** Standard deviation of the logarithms once the terms are out; NaN where nothing is left to judge by. */
  residual: number;
  confidence: number;
}

/** A level with fewer observations is not compared. */
const FEWEST_OF_ONE = 3;
const MOST_LEVELS = 20;
const ALMOST_NOTHING = 1e-9;

interface Term {
  kind: 'product' | 'person';
  id: string;
  against: string;
  count: number;
}

/**
 * Effects at one step (the observations of other steps must be left out by the caller). All ranges hold
 * together (Bonferroni).
 */
export function effectsOf(observations: readonly Observation[], confidence = 0.95): Effects {
  const [byProduct, byPerson] = [levelsOf(observations, 'product'), levelsOf(observations, 'person')];
  const counts = (levels: Set<string>, level: string | null): boolean =>
    levels.size < 2 || (level !== null && levels.has(level));
  const used = observations.filter((one) => counts(byProduct, one.product) && counts(byPerson, one.person));
  const terms = [...termsOf(used, 'product'), ...termsOf(used, 'person')];
  const leftOut = observations.length - used.length;
  if (terms.length === 0) return { effects: [], count: used.length, leftOut, residual: NaN, confidence };
  const cells = cellsOf(used);
  const rows = cells.map((cell) => [1, ...terms.map((term) => (cell[term.kind] === term.id ? 1 : 0))]);
  const fit = leastSquares(
    rows,
    cells.map((cell) => cell.mean),
    cells.map((cell) => cell.count),
    cells.reduce((sum, cell) => sum + cell.squares, 0),
  );
  const several = terms.filter((term) => term.count >= FEWEST_OF_ONE).length;
  const effects = terms.map((term, place) => effectOf(term, place + 1, fit, shared(confidence, several)));
  return { effects, count: used.length, leftOut, residual: fit.deviation, confidence };
}

/** The products or people met, the most frequent first; beyond `MOST_LEVELS` they are not compared. */
function levelsOf(observations: readonly Observation[], kind: 'product' | 'person'): Set<string> {
  return new Set(
    countsOf(observations, kind)
      .slice(0, MOST_LEVELS)
      .map(([id]) => id),
  );
}

function countsOf(observations: readonly Observation[], kind: 'product' | 'person'): [string, number][] {
  const count = new Map<string, number>();
  for (const one of observations)
    if (one[kind] !== null) count.set(one[kind], (count.get(one[kind]) ?? 0) + 1);
  return [...count].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
}

/** All but the most frequent level, which the others are compared with. */
function termsOf(observations: readonly Observation[], kind: 'product' | 'person'): Term[] {
  const [first, ...rest] = countsOf(observations, kind);
  return first === undefined ? [] : rest.map(([id, many]) => ({ kind, id, against: first[0], count: many }));
}

interface Cell {
  product: string | null;
  person: string | null;
  count: number;
  /** Of the logarithms, and their squared deviations from it. */
  mean: number;
  squares: number;
}

/** The observations of one product by one person taken together: half a million rows are then a few dozen. */
function cellsOf(observations: readonly Observation[]): Cell[] {
  const cells = new Map<string, Cell>();
  for (const { product, person, minutes } of observations) {
    const key = `${product ?? ''}\n${person ?? ''}`;
    let cell = cells.get(key);
    if (cell === undefined) cells.set(key, (cell = { product, person, count: 0, mean: 0, squares: 0 }));
    const value = log(minutes);
    const before = value - cell.mean;
    cell.count += 1;
    cell.mean += before / cell.count;
    cell.squares += before * (value - cell.mean);
  }
  return [...cells.values()];
}

function effectOf(term: Term, place: number, fit: LeastSquares, confidence: number): Effect {
  const none = { ...term, ratio: NaN, low: NaN, high: NaN, verdict: 'cannot tell' as const };
  if (term.count < FEWEST_OF_ONE)
    return {
      ...none,
      sentence: `${term.id}: cannot tell from ${term.count === 1 ? 'one time' : `${term.count} times`}.`,
    };
  const variance = fit.variances[place]!;
  if (Number.isNaN(variance)) {
    return {
      ...none,
      sentence: `${term.id}: cannot tell, since in these times it always comes with the same ${term.kind === 'product' ? 'person' : 'product'}.`,
    };
  }
  if (!(fit.degrees >= 1))
    return { ...none, sentence: `${term.id}: cannot tell, too few times for so many differences.` };
  const half = studentQuantile(confidence, fit.degrees) * Math.sqrt(variance);
  const [ratio, low, high] = [
    exp(fit.estimates[place]!),
    exp(fit.estimates[place]! - half),
    exp(fit.estimates[place]! + half),
  ];
  const verdict: EffectVerdict = low > 1 ? 'longer' : high < 1 ? 'shorter' : 'cannot tell';
  const range = `${low.toFixed(2)} to ${high.toFixed(2)}`;
  const sentence =
    verdict === 'cannot tell'
      ? `${term.id} against ${term.against}: cannot tell (between ${range} times as long).`
      : `${term.id} takes ${ratio.toFixed(2)} times as long as ${term.against} (${range}).`;
  return { ...term, ratio, low, high, verdict, sentence };
}

export interface LeastSquares {
  /** NaN for a term that the others already determine. */
  estimates: number[];
  /** Of the estimates; NaN likewise, and where no degrees of freedom are left. */
  variances: number[];
  deviation: number;
  degrees: number;
}

/**
 * Ordinary least squares by the normal equations (a few dozen terms of zeros and ones: well enough
 * conditioned), swept one term after the other; a term whose pivot has vanished is determined by earlier
 * ones, and it and all it hangs together with are marked.
 * @param weights how many observations each row stands for, `values` being their mean; `within` the sum of
 *   their squared deviations from it.
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[] = rows.map(() => 1),
  within = 0,
): LeastSquares {
  const size = rows[0]?.length ?? 0;
  const matrix = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size + 1 }, (_, j) =>
      rows.reduce((sum, row, at) => sum + weights[at]! * row[i]! * (j < size ? row[j]! : values[at]!), 0),
    ),
  );
  const inverse = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)),
  );
  const scale = matrix.map((row, i) => Math.max(1, row[i]!));
  const vanished: number[] = [];
  for (let pivot = 0; pivot < size; pivot += 1) {
    if (Math.abs(matrix[pivot]![pivot]!) < ALMOST_NOTHING * scale[pivot]!) vanished.push(pivot);
    else sweep(matrix, inverse, pivot, vanished);
  }
  const entangled = new Set(vanished);
  for (const gone of vanished) {
    for (let i = 0; i < size; i += 1)
      if (!vanished.includes(i) && Math.abs(matrix[i]![gone]!) > ALMOST_NOTHING) entangled.add(i);
  }
  const estimates = matrix.map((row, i) => (vanished.includes(i) ? 0 : row[size]!));
  const squares = rows.reduce((sum, row, at) => {
    const off = values[at]! - row.reduce((total, cell, i) => total + cell * estimates[i]!, 0);
    return sum + weights[at]! * off * off;
  }, within);
  const degrees = weights.reduce((sum, weight) => sum + weight, 0) - (size - vanished.length);
  const variance = degrees >= 1 ? squares / degrees : NaN;
  return {
    estimates: estimates.map((value, i) => (entangled.has(i) ? NaN : value)),
    variances: estimates.map((_, i) => (entangled.has(i) ? NaN : variance * inverse[i]![i]!)),
    deviation: Math.sqrt(variance),
    degrees,
  };
}

/** Gauss and Jordan's elimination of one term. */
function sweep(matrix: number[][], inverse: number[][], pivot: number, vanished: readonly number[]): void {
  const by = matrix[pivot]![pivot]!;
  for (const table of [matrix, inverse]) table[pivot] = table[pivot]!.map((cell) => cell / by);
  for (let i = 0; i < matrix.length; i += 1) {
    if (i === pivot || vanished.includes(i)) continue;
    const times = matrix[i]![pivot]!;
    if (times === 0) continue;
    for (const table of [matrix, inverse])
      table[i] = table[i]!.map((cell, j) => cell - times * table[pivot]![j]!);
  }
}

import { solve } from 'yalps';

/**
 * A linear programme: the most of `objective` with columns at least 0 and every row at most its bound (at
 * least 0).
 */
export interface Programme {
  bounds: Map<string, number>;
  columns: Map<string, Map<string, number>>;
  objective: string;
}

export interface Optimum {
  value: number;
  /** Columns that are not 0. */
  columns: Map<string, number>;
}

export function createProgramme(objective: string): Programme {
  return { bounds: new Map(), columns: new Map(), objective };
}

/**
 * Adds to a coefficient. A row without a bound (or an infinite one) binds nothing, but the objective may be
 * one.
 */
export function put(programme: Programme, column: string, row: string, coefficient: number): void {
  let entries = programme.columns.get(column);
  if (entries === undefined) programme.columns.set(column, (entries = new Map<string, number>()));
  entries.set(row, (entries.get(row) ?? 0) + coefficient);
}

export function bound(programme: Programme, row: string, most: number): void {
  if (Number.isFinite(most)) programme.bounds.set(row, most);
}

/**
 * @throws Error where there is no optimum to be had (an objective without bound, or a solver that gave up).
 */
export function solveProgramme(programme: Programme): Optimum {
  const constraints = [...programme.bounds].map(([row, max]) => [row, { max }] as const);
  const variables = [...programme.columns].map(([column, entries]) => [column, [...entries]] as const);
  const solution = solve<string, string>({
    direction: 'maximize',
    objective: programme.objective,
    constraints,
    variables,
  });
  if (solution.status !== 'optimal')
    throw new Error(`the linear programme of ${programme.objective} is ${solution.status}`);
  return { value: solution.result, columns: new Map(solution.variables) };
}

/** What a row adds up to at an optimum. */
export function usedOf(programme: Programme, optimum: Optimum, row: string): number {
  let used = 0;
  for (const [column, value] of optimum.columns)
    used += value * (programme.columns.get(column)?.get(row) ?? 0);
  return used;
}

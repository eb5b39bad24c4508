/** What was brought and decided of a cell's list of times: it stays while one looks at other pages. */
import type { Mapping } from '../../../src/timing/mapping.ts';
import type { ListSource } from '../../work/lists.ts';

export interface ListKept {
  source: ListSource | null;
  /** What columns and words were said to be; null: as they can be guessed. */
  mapping: Mapping | null;
  /** Times left out, by `timeKey`. */
  leaveOut: readonly string[];
  /** Places of the work (`placeKey`) whose times are not to be used. */
  unused: readonly string[];
  withNames: boolean;
}

export const NO_LIST: ListKept = { source: null, mapping: null, leaveOut: [], unused: [], withNames: false };

const byCell = new Map<string, ListKept>();

export const listOf = (cell: string): ListKept => byCell.get(cell) ?? NO_LIST;

export function keepList(cell: string, change: Partial<ListKept>): ListKept {
  const kept = { ...listOf(cell), ...change };
  byCell.set(cell, kept);
  return kept;
}

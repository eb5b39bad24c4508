/** The count of a cell, kept in this browser as it is counted, so that a tablet that sleeps loses nothing. */
import type { NowState } from '../../../src/today/state.ts';
import { nowSchema } from '../../../src/today/check-now.ts';
import { Own } from '../../store/own.ts';

export interface KeptNow {
  now: NowState;
  note: string;
  /** Of which day it is: a count of another day is never taken for this one's. Before 0.2 nobody wrote it. */
  day?: string;
}

const counts = new Own<KeptNow>({
  key: 'clampwright-now',
  name: 'a count of the shift',
  read: (value) => {
    const { now, note, day } = (value ?? {}) as { now?: unknown; note?: unknown; day?: unknown };
    const read = nowSchema.safeParse(now);
    if (!read.success) return null;
    const kept = { now: read.data as NowState, note: typeof note === 'string' ? note : '' };
    return typeof day === 'string' ? { ...kept, day } : kept;
  },
});

/** What is being counted for this cell on a day; null where nothing is. */
export function countFor(cell: string, day: string): KeptNow | null {
  const kept = counts.get(cell);
  return kept === null || (kept.day !== undefined && kept.day !== day) ? null : kept;
}

/** False where this browser keeps nothing. */
export const keepCount = (cell: string, count: KeptNow): boolean => counts.set(cell, count) !== null;

/** Told of what another tab counts for this cell. Returns the way to stop. */
export const watchCount = (cell: string, told: (count: KeptNow) => void): (() => void) =>
  counts.watch(cell, told);

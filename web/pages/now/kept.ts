/** The count of a cell, kept in this browser as it is counted, so that a tablet that sleeps loses nothing. */
import { emptyNow, type NowState } from '../../../src/today/state.ts';
import { nowSchema } from '../../../src/today/check-now.ts';
import { Own } from '../../store/own.ts';

export interface KeptNow {
  now: NowState;
  note: string;
}

const counts = new Own<KeptNow>({
  key: 'clampwright-now',
  name: 'a count of the shift',
  read: (value) => {
    const { now, note } = (value ?? {}) as { now?: unknown; note?: unknown };
    const read = nowSchema.safeParse(now);
    return read.success ? { now: read.data as NowState, note: typeof note === 'string' ? note : '' } : null;
  },
});

/** What was counted for this cell, or an empty count at `at`. */
export const countFor = (cell: string, at: string): KeptNow =>
  counts.get(cell) ?? { now: emptyNow(at), note: '' };

/** False where this browser keeps nothing. */
export const keepCount = (cell: string, count: KeptNow): boolean => counts.set(cell, count) !== null;

/** Told of what another tab counts for this cell. Returns the way to stop. */
export const watchCount = (cell: string, told: (count: KeptNow) => void): (() => void) =>
  counts.watch(cell, told);

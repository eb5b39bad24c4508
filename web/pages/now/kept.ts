/** The count of a cell, kept in this browser as it is counted, so that a tablet that sleeps loses nothing. */
import { emptyNow, type NowState } from '../../../src/today/state.ts';
import { nowSchema } from '../../../src/today/check-now.ts';

const KEY = 'clampwright-now';

export interface KeptNow {
  now: NowState;
  note: string;
}

/** What was counted for this cell, or an empty count at `at`. */
export function countFor(cell: string, at: string): KeptNow {
  try {
    const all = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    const kept = all[cell] as { now?: unknown; note?: unknown } | undefined;
    const read = nowSchema.safeParse(kept?.now);
    if (read.success)
      return { now: read.data as NowState, note: typeof kept?.note === 'string' ? kept.note : '' };
  } catch {
    // Nothing kept, or nothing that can be read: begin anew.
  }
  return { now: emptyNow(at), note: '' };
}

/** False where this browser keeps nothing. */
export function keepCount(cell: string, count: KeptNow): boolean {
  try {
    const all = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    localStorage.setItem(KEY, JSON.stringify({ ...all, [cell]: count }));
    return true;
  } catch {
    return false;
  }
}

/** A new entry for a book. */
import { instantOf, millisecondsOf } from './calendar-day.ts';
import { newestOf } from './book.ts';
import type { Entry } from './entry.ts';
import type { Kind } from './kinds.ts';

export interface Made {
  id: string;
  /** Milliseconds since 1970, and the minutes the clock on the wall is ahead of UTC. */
  now: number;
  offset: number;
  by: string;
  cell: string;
}

/**
 * The entry, made after all others of its day and kind: what was said last holds, even where an earlier entry
 * came from a clock that was ahead.
 */
export function nextEntry(
  entries: readonly Entry[],
  day: string,
  { kind, content }: { kind: Kind; content: Entry['content'] },
  { id, now, offset, by, cell }: Made,
): Entry {
  const newest = newestOf(entries, day, kind);
  const after = newest === null ? 0 : millisecondsOf(newest.at)! + 1;
  return {
    entry: 1,
    id,
    day,
    kind,
    at: instantOf(Math.max(now, after), offset),
    by,
    cell: cell.slice(0, 200),
    content,
  };
}

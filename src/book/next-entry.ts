/** A new entry for a book. */
import { instantOf, millisecondsOf } from './calendar-day.ts';
import { newestOf } from './book.ts';
import type { Entry } from './entry.ts';
import type { Content, Kind } from './kinds.ts';

/** Of one kind, said of one day. */
export type ToSay = { [K in Kind]: { day: string; kind: K; content: Content<K> } }[Kind];

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

/** Several at once, each after those before it. @param idOf called for each. */
export function nextEntries(
  entries: readonly Entry[],
  said: readonly ToSay[],
  { idOf, ...made }: Omit<Made, 'id'> & { idOf: () => string },
): Entry[] {
  const fresh: Entry[] = [];
  for (const { day, ...one } of said)
    fresh.push(nextEntry([...entries, ...fresh], day, one, { ...made, id: idOf() }));
  return fresh;
}

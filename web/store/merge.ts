/** A cell's record with what came in elsewhere put on top: another tab's entries, or those of a crash. */
import { applied, nameIn } from './draft.ts';
import { MOST, type Entry } from './history.ts';
import type { Journal, TypedChanges } from './journal.ts';
import type { CellRecord } from './record.ts';

/** So many of the last entries are remembered; more than a page gathers while it cannot write. */
const TAKEN = 500;

export const withTaken = (taken: string[], entries: Entry[]): string[] =>
  [...taken, ...entries.map((entry) => entry.id)].slice(-Math.max(TAKEN, entries.length));

export interface Merged {
  record: CellRecord;
  /** Changes whose place is no more (its step was taken out in the other tab), to be set aside and said. */
  lost: Entry[];
}

/** Entries that are in the record already are left out, however often they come. */
export function withJournal(
  record: CellRecord,
  { entries, typed }: Pick<Journal, 'entries' | 'typed'>,
): Merged {
  const fresh = entries.filter((entry) => !record.taken.includes(entry.id));
  const lost: Entry[] = [];
  let { draft } = record;
  for (const entry of fresh) {
    const gone = entry.changes.filter((change) => {
      const next = applied(draft, change);
      if (next !== null) draft = next;
      return next === null;
    });
    if (gone.length > 0) lost.push({ ...entry, changes: gone });
  }
  const next = { ...record, typed: withTyped(record.typed, typed) };
  if (fresh.length === 0) return { record: next, lost };
  return {
    record: {
      ...next,
      draft,
      name: nameIn(draft),
      history: { past: [...record.history.past, ...fresh].slice(-MOST), future: [] },
      taken: withTaken(record.taken, fresh),
    },
    lost,
  };
}

export const withTyped = (typed: Record<string, string>, changes: TypedChanges): Record<string, string> =>
  Object.fromEntries(
    Object.entries({ ...typed, ...changes }).filter((one): one is [string, string] => one[1] !== null),
  );

/** What came, changed or went between two states of the texts in fields. */
export function typedChanges(before: Record<string, string>, now: Record<string, string>): TypedChanges {
  const keys = new Set([...Object.keys(before), ...Object.keys(now)]);
  return Object.fromEntries(
    [...keys].filter((key) => before[key] !== now[key]).map((key) => [key, now[key] ?? null]),
  );
}

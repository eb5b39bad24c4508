/** The book of a cell's days as this browser keeps it: read, added to, and taken back. */
import { readEntry, type Entry } from '../../src/book/entry.ts';
import { nextEntries, type ToSay } from '../../src/book/next-entry.ts';
import { standing } from '../../src/book/standing.ts';
import { VERSION } from '../../src/report/version.ts';
import type { CellStore } from './cell-store.ts';
import type { KeptEntry } from './database.ts';
import { newId } from './shelf.ts';

const read = new WeakMap<KeptEntry[], Entry[]>();

/** Those that this version can read; the others are kept all the same. The same list while none is added. */
export function entriesOf(store: CellStore): Entry[] {
  const kept = store.entries.all.get();
  const before = read.get(kept);
  if (before !== undefined) return before;
  const entries = kept.flatMap((one): Entry[] => {
    const reading = readEntry(one);
    return reading.kind === 'fine' ? [reading.entry] : [];
  });
  read.set(kept, entries);
  return entries;
}

export interface Added {
  entries: Entry[];
  /** False where they last only as long as this page. */
  kept: boolean;
}

/** Adds what is said of days; it stands at once. */
export async function addToBook(store: CellStore, said: readonly ToSay[]): Promise<Added> {
  const entries = nextEntries(entriesOf(store), said, {
    idOf: newId,
    now: Date.now(),
    offset: -new Date().getTimezoneOffset(),
    by: `clampwright ${VERSION}`,
    cell: store.name,
  });
  return { entries, kept: (await store.entries.add(entries as KeptEntry[])).kind === 'kept' };
}

/** Takes entries back by further ones; those that are taken back already are let be. */
export function takeBack(store: CellStore, ids: readonly string[]): Promise<Added> {
  const undone = standing(entriesOf(store)).filter(({ id }) => ids.includes(id));
  return addToBook(
    store,
    undone.map(({ id, day }): ToSay => ({ day, kind: 'correction', content: { undoes: id } })),
  );
}

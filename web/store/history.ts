/** Undo and redo as lists of changes, each with a word for what it was. */
import { applied, inverse, placeKey, type Change, type Json } from './draft.ts';

export interface Entry {
  /** Its own, also across tabs. */
  id: string;
  /** "two more clamp sets": read out as "undo: …". */
  say: string;
  changes: Change[];
  /** When, ms; presses on the same stepper close together are one entry. */
  at: number;
}

export interface History {
  past: Entry[];
  /** Taken back, the next to come again last. */
  future: Entry[];
}

export const EMPTY: History = { past: [], future: [] };
export const MOST = 200;
const TOGETHER = 1500;

/**
 * The history with one more entry; joined to the last one where both change the same place in quick
 * succession.
 */
export function recorded({ past }: History, entry: Entry): History {
  const last = past.at(-1);
  if (last !== undefined && entry.at - last.at < TOGETHER && samePlaces(last, entry)) {
    const changes = last.changes.map((change, i) => ({ ...change, after: entry.changes[i]!.after! }));
    return { past: [...past.slice(0, -1), { ...entry, changes }], future: [] };
  }
  return { past: [...past, entry].slice(-MOST), future: [] };
}

const samePlaces = (one: Entry, other: Entry): boolean =>
  one.changes.length === other.changes.length &&
  one.changes.every(
    (change, i) =>
      placeKey(change.place) === placeKey(other.changes[i]!.place) &&
      plain(change) &&
      plain(other.changes[i]!),
  );

/**
 * Neither put in nor taken out: only a value that was replaced is joined with the next, and no whole part of
 * the file (a step renamed, then taken out).
 */
const plain = (change: Change): boolean =>
  change.before !== undefined && change.after !== undefined && change.place.length > 1;

/** Changes in order; those whose place is no more are left out and counted. */
export function played(draft: Json, changes: Change[]): { draft: Json; lost: number } {
  let lost = 0;
  for (const change of changes) {
    const next = applied(draft, change);
    if (next === null) lost += 1;
    else draft = next;
  }
  return { draft, lost };
}

export const undoing = (entry: Entry): Change[] => [...entry.changes].reverse().map(inverse);

export function undone({ past, future }: History): { entry: Entry; history: History } | null {
  const entry = past.at(-1);
  return entry === undefined
    ? null
    : { entry, history: { past: past.slice(0, -1), future: [...future, entry] } };
}

export function redone({ past, future }: History): { entry: Entry; history: History } | null {
  const entry = future.at(-1);
  return entry === undefined
    ? null
    : { entry, history: { past: [...past, entry], future: future.slice(0, -1) } };
}

/**
 * What is kept of one cell, and how a kept record is read again. A record may have been damaged since (a disk
 * fault, a crash, another program's hand): what is whole in it is used, and the rest is named, so that it can
 * be set aside instead of being written over.
 */
import type { CellState } from './cell-store.ts';
import { nameIn, type Change, type Json, type JsonGroup } from './draft.ts';
import { EMPTY, type Entry, type History } from './history.ts';

export interface CellRecord extends CellState {
  id: string;
  name: string;
  /** Counts the times it was written. */
  revision: number;
  /** ms. */
  changedAt: number;
  /** The last entries that came in, so that none comes in twice after a crash. */
  taken: string[];
}

/** A part that could not be read, as it stood. `part` in words: "the way back (undo)". */
export interface DamagedPart {
  part: string;
  value: unknown;
}

export type RecordReading =
  | { kind: 'fine'; record: CellRecord; damaged: DamagedPart[] }
  /** Nothing to work on. `name` as far as it can be told. */
  | { kind: 'wrong'; name: string };

/** Deeper than any cell that can be opened; what is deeper could end a page in a stack overflow. */
const DEEPEST = 100;

/** Whether a value is plain JSON all through: groups, lists, text, finite numbers, true, false, null. */
export function isJson(value: unknown, deepest = DEEPEST): value is Json {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return true;
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object' || deepest === 0) return false;
  if (Array.isArray(value)) {
    // Not `every`, which skips the holes of a list.
    for (let at = 0; at < value.length; at++) if (!isJson(value[at], deepest - 1)) return false;
    return true;
  }
  if (Object.getPrototypeOf(value) !== Object.prototype) return false;
  return Object.values(value).every((part) => isJson(part, deepest - 1));
}

export const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A record as the database gives it, under its key there. */
export function readRecord(key: string, value: unknown): RecordReading {
  if (!isGroup(value)) return { kind: 'wrong', name: 'a cell without a name' };
  const draft = wholeDraft(value['draft']);
  if (draft === null)
    return {
      kind: 'wrong',
      name: typeof value['name'] === 'string' ? value['name'] : 'a cell without a name',
    };
  const damaged: DamagedPart[] = [];
  const part = <T>(name: string, key: string, read: (value: unknown) => T | null, otherwise: T): T => {
    const found = read(value[key]);
    if (found !== null) return found;
    if (value[key] !== undefined && value[key] !== null) damaged.push({ part: name, value: value[key] });
    return otherwise;
  };
  if (draft !== value['draft']) damaged.push({ part: 'the cell as it stood', value: value['draft'] });
  const typed = part('text in fields', 'typed', readTyped, {});
  const history = readHistory(value['history']);
  if (!history.whole && value['history'] !== undefined)
    damaged.push({ part: 'the way back (undo)', value: value['history'] });
  return {
    kind: 'fine',
    record: {
      id: key,
      name: nameIn(draft),
      draft,
      typed,
      history: history.history,
      revision: Number.isSafeInteger(value['revision']) ? Math.max(0, value['revision'] as number) : 0,
      changedAt: Number.isFinite(value['changedAt']) ? (value['changedAt'] as number) : 0,
      taken: Array.isArray(value['taken']) ? value['taken'].filter((id) => typeof id === 'string') : [],
    },
    damaged,
  };
}

/** The draft; what of it JSON can say, where something else got in; null where it is no cell at all. */
function wholeDraft(value: unknown): JsonGroup | null {
  if (!isGroup(value)) return null;
  if (isJson(value)) return value as JsonGroup;
  try {
    const plain: unknown = JSON.parse(JSON.stringify(value));
    return isGroup(plain) && isJson(plain) ? (plain as JsonGroup) : null;
  } catch {
    return null;
  }
}

function readTyped(value: unknown): Record<string, string> | null {
  if (!isGroup(value)) return null;
  return Object.values(value).every((text) => typeof text === 'string')
    ? (value as Record<string, string>)
    : null;
}

/** Entries behind the last damaged one can be taken back as before; those under it can't be reached. */
export function readHistory(value: unknown): { history: History; whole: boolean } {
  if (!isGroup(value)) return { history: EMPTY, whole: false };
  const [past, future] = [readEntries(value['past']), readEntries(value['future'])];
  return { history: { past: past.entries, future: future.entries }, whole: past.whole && future.whole };
}

export function readEntries(value: unknown): { entries: Entry[]; whole: boolean } {
  if (!Array.isArray(value)) return { entries: [], whole: false };
  const last = value.findLastIndex((one) => !isEntry(one));
  return { entries: value.slice(last + 1) as Entry[], whole: last < 0 };
}

function isEntry(value: unknown): value is Entry {
  if (!isGroup(value)) return false;
  const { id, say, at, changes } = value;
  return (
    typeof id === 'string' &&
    typeof say === 'string' &&
    Number.isFinite(at) &&
    Array.isArray(changes) &&
    changes.every(isChange)
  );
}

function isChange(value: unknown): value is Change {
  if (!isGroup(value) || !Array.isArray(value['place'])) return false;
  const { place, before, after, followed } = value;
  return (
    (place as unknown[]).every((key) => typeof key === 'string' || Number.isSafeInteger(key)) &&
    (before === undefined || isJson(before)) &&
    (after === undefined || isJson(after)) &&
    (followed === undefined ||
      (Array.isArray(followed) && followed.every((name) => typeof name === 'string'))) &&
    // Nothing before and nothing after is no change, and a place at the top can only hold a whole cell.
    !(before === undefined && after === undefined) &&
    (place.length > 0 || (isGroup(before) && isGroup(after)))
  );
}

export const recordOf = (id: string, draft: Json): CellRecord => ({
  id,
  name: nameIn(draft),
  draft,
  typed: {},
  history: EMPTY,
  revision: 0,
  changedAt: Date.now(),
  taken: [],
});

/**
 * What has been typed and is not in the database yet, written at once and in one go (localStorage), so that a
 * page that is closed or crashes a moment later has lost nothing. One journal a tab and cell; it stays until
 * what it holds is in the database.
 */
import { isGroup, readEntries, readRecord, type CellRecord } from './record.ts';
import type { Entry } from './history.ts';

/** Texts in fields that came (text) or went (null), by place. */
export type TypedChanges = Record<string, string | null>;

export interface Journal {
  entries: Entry[];
  typed: TypedChanges;
  /** The whole cell, where there is no database it could be in. */
  whole?: CellRecord;
}

/** A journal left by a tab that is no more. */
export interface LeftJournal {
  cell: string;
  key: string;
  text: string;
  /** Null where it cannot be read. `whole` is false where only a part of it can. */
  journal: Journal | null;
  whole: boolean;
}

const PREFIX = 'clampwright-unsaved:';
const keyOf = (cell: string, tab: string): string => `${PREFIX}${cell}:${tab}`;

/** False where it could not be written (no storage, or full). */
export function writeJournal(cell: string, tab: string, journal: Journal): boolean {
  try {
    localStorage.setItem(keyOf(cell, tab), JSON.stringify(journal));
    return true;
  } catch {
    return false;
  }
}

export function clearJournal(cell: string, tab: string): void {
  try {
    localStorage.removeItem(keyOf(cell, tab));
  } catch {
    // Nothing could be written either.
  }
}

/** Journals left by tabs that are no more, of every cell. They are left where they are: see `clearLeft`. */
export function leftJournals(living: Set<string>): LeftJournal[] {
  try {
    return Object.keys(localStorage).flatMap((key): LeftJournal[] => {
      if (!key.startsWith(PREFIX)) return [];
      const split = key.lastIndexOf(':');
      const cell = key.slice(PREFIX.length, split);
      const text = localStorage.getItem(key);
      if (split < PREFIX.length || living.has(key.slice(split + 1)) || text === null) return [];
      return [{ cell, key, text, ...readJournal(cell, text) }];
    });
  } catch {
    return [];
  }
}

/** Takes journals out, once what they hold is stored; one that was written anew since stays. */
export function clearLeft(journals: Pick<LeftJournal, 'key' | 'text'>[]): void {
  try {
    for (const { key, text } of journals)
      if (localStorage.getItem(key) === text) localStorage.removeItem(key);
  } catch {
    // They are met again next time, and what is in the database already does not come in twice.
  }
}

function readJournal(cell: string, text: string): Pick<LeftJournal, 'journal' | 'whole'> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { journal: null, whole: false };
  }
  if (!isGroup(value)) return { journal: null, whole: false };
  const { entries, whole: every } = readEntries(value['entries']);
  const typed = isGroup(value['typed']) ? Object.entries(value['typed']) : [];
  const texts = typed.filter(([, one]) => typeof one === 'string' || one === null);
  const record = value['whole'] === undefined ? null : readRecord(cell, value['whole']);
  return {
    journal: {
      entries,
      typed: Object.fromEntries(texts) as TypedChanges,
      ...(record?.kind === 'fine' ? { whole: record.record } : {}),
    },
    whole: every && texts.length === typed.length && isGroup(value['typed']) && record?.kind !== 'wrong',
  };
}

const LOCK = 'clampwright-tab:';

/** Shows that this tab lives, until it is closed. */
export function showLife(tab: string): void {
  void globalThis.navigator?.locks?.request(`${LOCK}${tab}`, () => new Promise<never>(() => {}));
}

/** Tabs that live; none where the browser has no way to tell (a page served without a secure connection). */
export async function livingTabs(): Promise<Set<string>> {
  try {
    const held = (await globalThis.navigator?.locks?.query())?.held ?? [];
    return new Set(
      held.flatMap(({ name }) => (name?.startsWith(LOCK) === true ? [name.slice(LOCK.length)] : [])),
    );
  } catch {
    return new Set();
  }
}

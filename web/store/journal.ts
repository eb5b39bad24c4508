/**
 * What has been typed and is not in the database yet, written at once and in one go (localStorage), so that a
 * page that is closed or crashes a moment later has lost nothing. One journal a tab and cell.
 */
import type { Entry } from './history.ts';

export interface Journal {
  entries: Entry[];
  typed: Record<string, string>;
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

/** Journals of a cell left by tabs that are no more; they are taken out. */
export function takeJournals(cell: string, living: Set<string>): Journal[] {
  try {
    const keys = Object.keys(localStorage).filter(
      (key) => key.startsWith(`${PREFIX}${cell}:`) && !living.has(key.slice(PREFIX.length + cell.length + 1)),
    );
    return keys.flatMap((key) => {
      const text = localStorage.getItem(key);
      localStorage.removeItem(key);
      const read = text === null ? null : (JSON.parse(text) as Journal);
      return read !== null && Array.isArray(read.entries) ? [read] : [];
    });
  } catch {
    return [];
  }
}

const LOCK = 'clampwright-tab:';

/** Shows that this tab lives, until it is closed. */
export function showLife(tab: string): void {
  void globalThis.navigator?.locks?.request(`${LOCK}${tab}`, () => new Promise<never>(() => {}));
}

export async function livingTabs(): Promise<Set<string>> {
  const held = (await globalThis.navigator?.locks?.query())?.held ?? [];
  return new Set(
    held.flatMap(({ name }) => (name?.startsWith(LOCK) === true ? [name.slice(LOCK.length)] : [])),
  );
}

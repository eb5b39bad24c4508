/**
 * What a page keeps for a cell beside the cell itself: a count under way, words for the brief, times taken.
 * One text a cell and kind in the browser's small store (localStorage), and once more in the database; a tab
 * hears of another's writing at once and goes on from there. What cannot be read is never written over: it
 * is moved aside first.
 */
import type { SetAside } from './database.ts';
import { writeText } from './texts.ts';

export interface OwnSettings<T> {
  /** "clampwright-now": also the name under which older versions kept all cells in one text. */
  key: string;
  /** What it is called where it is set aside: "the count". */
  name: string;
  /** Null where the value is no such thing. */
  read: (value: unknown) => T | null;
  /**
   * What to keep where another tab has written since `base` was read; without it, the last to write stands.
   */
  merge?: (base: T | null, theirs: T, ours: T) => T;
}

const ASIDE = 'clampwright-aside ';
/** Stands where something was moved aside, so that an older version's text is not read once more. */
const NOTHING = 'null';

export class Own<T> {
  private readonly settings: OwnSettings<T>;
  /** As last read or written here, by cell. */
  private readonly bases = new Map<string, T>();

  constructor(settings: OwnSettings<T>) {
    this.settings = settings;
  }

  private keyOf(cell: string): string {
    return `${this.settings.key} ${cell}`;
  }

  /** What is kept for a cell; null where nothing is, or nothing that can be read. */
  get(cell: string): T | null {
    try {
      const text = localStorage.getItem(this.keyOf(cell)) ?? this.older(cell);
      if (text === null || text === NOTHING) return null;
      const value = this.parsed(text);
      if (value === null) moveAside(this.keyOf(cell), this.settings.name, text);
      else this.bases.set(cell, value);
      return value;
    } catch {
      return null;
    }
  }

  /** Returns what is kept now; null where this browser keeps nothing, or has no room. */
  set(cell: string, value: T): T | null {
    try {
      const base = this.bases.get(cell) ?? null;
      const theirs = this.get(cell);
      const { merge } = this.settings;
      const next = theirs === null || merge === undefined ? value : merge(base, theirs, value);
      writeText(this.keyOf(cell), JSON.stringify(next));
      this.bases.set(cell, next);
      return next;
    } catch {
      return null;
    }
  }

  /** Tells of what another tab writes for a cell. Returns the way to stop. */
  watch(cell: string, told: (value: T) => void): () => void {
    const heard = (event: StorageEvent): void => {
      if (event.key !== this.keyOf(cell)) return;
      const value = this.get(cell);
      if (value !== null) told(value);
    };
    addEventListener('storage', heard);
    return () => removeEventListener('storage', heard);
  }

  private parsed(text: string): T | null {
    try {
      return this.settings.read(JSON.parse(text));
    } catch {
      return null;
    }
  }

  /** As versions before 0.2 kept it: the texts of all cells in one. It is read and left as it is. */
  private older(cell: string): string | null {
    try {
      const all: unknown = JSON.parse(localStorage.getItem(this.settings.key) ?? 'null');
      if (typeof all !== 'object' || all === null || !Object.hasOwn(all, cell)) return null;
      return JSON.stringify((all as Record<string, unknown>)[cell]);
    } catch {
      return null;
    }
  }
}

function moveAside(key: string, name: string, text: string): void {
  // Time and chance: two damaged texts found in one millisecond keep both.
  const id = `${ASIDE}${name} ${Date.now()}.${Math.random().toString(36).slice(2)}`;
  try {
    localStorage.setItem(id, text);
    writeText(key, NOTHING);
  } catch {
    // No room for it under another name: it stays where it is, and nothing is written over it this time.
    return;
  }
  for (const listener of listeners) listener(thingAt(id, text));
}

const listeners = new Set<(thing: SetAside) => void>();

/** Told of what is moved aside from now on. */
export const onOwnAside = (listener: (thing: SetAside) => void): unknown => listeners.add(listener);

function thingAt(key: string, text: string): SetAside {
  const split = key.lastIndexOf(' ');
  const at = Number.parseInt(key.slice(split + 1), 10) || 0;
  return { id: key, name: key.slice(ASIDE.length, split), at, value: text };
}

/** What was moved aside, as it stood. */
export function ownThings(): SetAside[] {
  try {
    return Object.keys(localStorage).flatMap((key): SetAside[] => {
      const text = key.startsWith(ASIDE) ? localStorage.getItem(key) : null;
      return text === null ? [] : [thingAt(key, text)];
    });
  } catch {
    return [];
  }
}

/** Throws away what was moved aside; false where it is not one of these. */
export function dropOwn(id: string): boolean {
  if (!id.startsWith(ASIDE)) return false;
  try {
    localStorage.removeItem(id);
  } catch {
    // Then nothing could be shown of it either.
  }
  return true;
}

/** Lists whose items have ids: what either tab added is there, what either took out is gone. */
export function mergeById<T extends { id: string }>(base: T[], theirs: T[], ours: T[]): T[] {
  const [before, mine] = [new Set(base.map(({ id }) => id)), new Map(ours.map((one) => [one.id, one]))];
  const kept = theirs
    .filter(({ id }) => mine.has(id) || !before.has(id))
    .map((one) => mine.get(one.id) ?? one);
  const there = new Set(theirs.map(({ id }) => id));
  return [...kept, ...ours.filter(({ id }) => !there.has(id) && !before.has(id))];
}

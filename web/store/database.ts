/**
 * The browser's database: opened with patience, opened again where it was closed under us, and given the
 * places it lacks.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Json } from './draft.ts';

/** An entry of a cell's days, whatever it says. Entries are only ever added. */
export interface KeptEntry {
  id: string;
  [field: string]: Json | undefined;
}

/** What could not be read, as it stood, under a name. */
export interface SetAside {
  id: string;
  /** "“Chair works”: the way back (undo)". */
  name: string;
  /** When it was found, ms. */
  at: number;
  value: unknown;
}

/** A text of the small store, and when it was written, ms. */
export interface KeptText {
  key: string;
  text: string;
  at: number;
}

/** `unknown` where what comes out must be read first: see record.ts. */
export interface Places extends DBSchema {
  cells: { key: string; value: unknown };
  entries: { key: [string, string]; value: { cell: string; id: string; entry: unknown } };
  aside: { key: string; value: SetAside };
  texts: { key: string; value: KeptText };
}

/** Why nothing lasts here. */
export type Refusal =
  /** No storage: a private window, storage switched off, a database that cannot be opened. */
  | { kind: 'refused' }
  /** The browser does not answer. `later` resolves when it does after all. */
  | { kind: 'silent'; later: Promise<Database | null> };

/** A page is not held up for longer than this by a browser that does not answer. */
export const PATIENCE = 2000;

export class Database {
  private readonly name: string;
  private open: Promise<IDBPDatabase<Places>> | null;

  private constructor(name: string, open: IDBPDatabase<Places>) {
    this.name = name;
    this.open = Promise.resolve(open);
    this.follow(open);
  }

  static async open(name: string, patience = PATIENCE): Promise<Database | Refusal> {
    const opening = openWhole(name).then(
      (open) => new Database(name, open),
      () => null,
    );
    const first = await Promise.race([opening, waited(patience)]);
    if (first === 'waited') return { kind: 'silent', later: opening };
    return first ?? { kind: 'refused' };
  }

  /** The connection; a new one where the last was closed by the browser or for another page. */
  get(): Promise<IDBPDatabase<Places>> {
    if (this.open !== null) return this.open;
    const opening = openWhole(this.name).then((open) => {
      this.follow(open);
      return open;
    });
    this.open = opening;
    opening.catch(() => {
      if (this.open === opening) this.open = null;
    });
    return opening;
  }

  close(): void {
    void this.open?.then((open) => open.close());
    this.open = null;
  }

  /** Another page wants to change the database, or the browser has closed it: opened again when needed. */
  private follow(open: IDBPDatabase<Places>): void {
    const gone = (): void => {
      this.open = null;
    };
    open.addEventListener('versionchange', () => {
      open.close();
      gone();
    });
    open.addEventListener('close', gone);
  }
}

/**
 * Opened as it is there, whatever its version: a place that is missing is added, and those of a later version
 * of this page stay as they are.
 */
async function openWhole(name: string): Promise<IDBPDatabase<Places>> {
  const upgrade = (open: IDBPDatabase<Places>): void => {
    const there = open.objectStoreNames;
    if (!there.contains('cells')) open.createObjectStore('cells', { keyPath: 'id' });
    if (!there.contains('entries')) open.createObjectStore('entries', { keyPath: ['cell', 'id'] });
    if (!there.contains('aside')) open.createObjectStore('aside', { keyPath: 'id' });
    if (!there.contains('texts')) open.createObjectStore('texts', { keyPath: 'key' });
  };
  const open = await openDB<Places>(name, undefined, { upgrade });
  const whole = (['cells', 'entries', 'aside', 'texts'] as const).every((place) =>
    open.objectStoreNames.contains(place),
  );
  if (whole) return open;
  const { version } = open;
  open.close();
  return openDB<Places>(name, version + 1, { upgrade });
}

const waited = (ms: number): Promise<'waited'> =>
  new Promise((resolve) => setTimeout(() => resolve('waited'), ms));

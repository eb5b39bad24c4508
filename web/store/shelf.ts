/** Where cells are kept: the browser's database, or memory alone where it refuses. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { CellState } from './cell-store.ts';

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

export type CellCard = Pick<CellRecord, 'id' | 'name' | 'changedAt'>;

export interface Shelf {
  /** False where cells are gone with the page. */
  lasting: boolean;
  /** Newest first. */
  list(): Promise<CellCard[]>;
  read(id: string): Promise<CellRecord | undefined>;
  /** Reads, changes and writes as one step that no other tab comes between. */
  update(id: string, change: (now: CellRecord | undefined) => CellRecord): Promise<CellRecord>;
  remove(id: string): Promise<void>;
  close(): void;
}

interface Cells extends DBSchema {
  cells: { key: string; value: CellRecord };
}

const byNewest = (cards: CellCard[]): CellCard[] => cards.sort((a, b) => b.changedAt - a.changedAt);
const cardOf = ({ id, name, changedAt }: CellRecord): CellCard => ({ id, name, changedAt });

/** The database; memory where the browser gives none (some private windows, storage switched off). */
export async function openShelf(name = 'clampwright'): Promise<Shelf> {
  try {
    return new DatabaseShelf(
      await openDB<Cells>(name, 1, {
        upgrade: (db) => void db.createObjectStore('cells', { keyPath: 'id' }),
        // A newer page in another tab wants to change the database: let it.
        blocking: (_now, _wanted, event) => (event.target as IDBDatabase).close(),
      }),
    );
  } catch {
    return new MemoryShelf();
  }
}

class DatabaseShelf implements Shelf {
  readonly lasting = true;
  private readonly db: IDBPDatabase<Cells>;

  constructor(db: IDBPDatabase<Cells>) {
    this.db = db;
  }

  async list(): Promise<CellCard[]> {
    return byNewest((await this.db.getAll('cells')).map(cardOf));
  }

  read(id: string): Promise<CellRecord | undefined> {
    return this.db.get('cells', id);
  }

  async update(id: string, change: (now: CellRecord | undefined) => CellRecord): Promise<CellRecord> {
    const step = this.db.transaction('cells', 'readwrite');
    const record = change(await step.store.get(id));
    await Promise.all([step.store.put(record), step.done]);
    return record;
  }

  remove(id: string): Promise<void> {
    return this.db.delete('cells', id);
  }

  close(): void {
    this.db.close();
  }
}

export class MemoryShelf implements Shelf {
  readonly lasting = false;
  private readonly records = new Map<string, CellRecord>();

  async list(): Promise<CellCard[]> {
    return byNewest([...this.records.values()].map(cardOf));
  }

  async read(id: string): Promise<CellRecord | undefined> {
    return this.records.get(id);
  }

  async update(id: string, change: (now: CellRecord | undefined) => CellRecord): Promise<CellRecord> {
    const record = change(this.records.get(id));
    this.records.set(id, record);
    return record;
  }

  async remove(id: string): Promise<void> {
    this.records.delete(id);
  }

  close(): void {}
}

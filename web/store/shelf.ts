/**
 * Where cells and the entries of their days are kept: the browser's database (database-shelf.ts), or memory
 * alone where it gives none. Everything that comes out has been read and is whole; what could not be read is
 * set aside.
 */
import type { KeptEntry, KeptText, SetAside } from './database.ts';
import type { CellRecord } from './record.ts';

export type CellCard = Pick<CellRecord, 'id' | 'name' | 'changedAt'>;

export interface Shelf {
  /** False where cells are gone with the page. */
  lasting: boolean;
  /** Newest first. One that cannot be read hides no other. */
  list(): Promise<CellCard[]>;
  read(id: string): Promise<CellRecord | undefined>;
  /** Reads, changes and writes as one step that no other tab comes between. */
  update(id: string, change: (now: CellRecord | undefined) => CellRecord): Promise<CellRecord>;
  /** The cell, and the entries of its days with it. */
  remove(id: string): Promise<void>;
  entries(cell: string): Promise<KeptEntry[]>;
  /** Adds those whose id is not there yet. Returns those that say something else than the one there. */
  addEntries(cell: string, entries: KeptEntry[]): Promise<KeptEntry[]>;
  /** What was set aside, newest first. */
  aside(): Promise<SetAside[]>;
  setAside(things: SetAside[]): Promise<void>;
  dropAside(id: string): Promise<void>;
  /** Texts of the small store, and one of them; a newer one that is there already stays. */
  texts(): Promise<KeptText[]>;
  keepText(text: KeptText): Promise<void>;
  /** Told of what was newly set aside. */
  onAside: (things: SetAside[]) => void;
  close(): void;
}

export const byNewest = (cards: CellCard[]): CellCard[] => cards.sort((a, b) => b.changedAt - a.changedAt);
export const cardOf = ({ id, name, changedAt }: CellRecord): CellCard => ({ id, name, changedAt });

export const newId = (): string => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;

export const sameEntry = (one: unknown, other: unknown): boolean => sorted(one) === sorted(other);

/** As text with the names of every group in order: two writings of one entry are the same entry. */
const sorted = (value: unknown): string =>
  JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );

export class MemoryShelf implements Shelf {
  readonly lasting = false;
  onAside: (things: SetAside[]) => void = () => {};
  private readonly records = new Map<string, CellRecord>();
  private readonly days = new Map<string, Map<string, KeptEntry>>();
  private things: SetAside[] = [];

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
    this.days.delete(id);
  }

  async entries(cell: string): Promise<KeptEntry[]> {
    return [...(this.days.get(cell)?.values() ?? [])];
  }

  async addEntries(cell: string, entries: KeptEntry[]): Promise<KeptEntry[]> {
    const there = this.days.get(cell) ?? new Map<string, KeptEntry>();
    this.days.set(cell, there);
    const other = entries.filter((entry) => there.has(entry.id) && !sameEntry(there.get(entry.id), entry));
    for (const entry of entries) if (!there.has(entry.id)) there.set(entry.id, entry);
    return other;
  }

  async aside(): Promise<SetAside[]> {
    return [...this.things].reverse();
  }

  async setAside(things: SetAside[]): Promise<void> {
    this.things.push(...things);
    this.onAside(things);
  }

  async dropAside(id: string): Promise<void> {
    this.things = this.things.filter((thing) => thing.id !== id);
  }

  /** What is kept in memory alone has no need of a second copy there. */
  async texts(): Promise<KeptText[]> {
    return [];
  }

  async keepText(): Promise<void> {}

  close(): void {}
}

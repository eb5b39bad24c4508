/**
 * The entries of a cell's days: each a record of its own that is only ever added, so that no tab can write
 * over another's. An entry is written down at once (localStorage) and stays there until the database has it.
 */
import type { KeptEntry } from './database.ts';
import { thingOf } from './database-shelf.ts';
import { isGroup, isJson } from './record.ts';
import type { Shelf } from './shelf.ts';
import { Value } from './value.ts';

const PREFIX = 'clampwright-entry:';
const keyOf = (cell: string, id: string): string => `${PREFIX}${cell}:${id}`;

export type EntriesKept =
  | { kind: 'kept' }
  /** In this page, and in the browser's small store where it has one, but not in the database. */
  | { kind: 'held' };

export class Entries {
  /** All of them, in no order that means anything; those not written yet too. */
  readonly all = new Value<KeptEntry[]>([]);
  /** False until the database was asked for the first time. */
  readonly read = new Value(false);
  private readonly cell: string;
  private shelf: Shelf;
  private readonly told: () => void;
  private running: Promise<void>;

  /** @param told called when entries were stored, to tell other tabs. */
  constructor({ cell, shelf, told = () => {} }: { cell: string; shelf: Shelf; told?: () => void }) {
    this.cell = cell;
    this.shelf = shelf;
    this.told = told;
    this.running = this.begin();
  }

  private async begin(): Promise<void> {
    const pending = await this.pending();
    this.put(pending);
    if (pending.length > 0) await this.store(pending).catch(() => {});
    await this.lookNow();
    this.read.set(true);
  }

  /** Adds entries: shown at once. Resolves when the database has them, or has refused them. */
  add(entries: KeptEntry[]): Promise<EntriesKept> {
    for (const entry of entries) writePending(this.cell, entry);
    this.put(entries);
    const done = this.running.then(async (): Promise<EntriesKept> => {
      try {
        await this.store(entries);
        return this.shelf.lasting ? { kind: 'kept' } : { kind: 'held' };
      } catch {
        return { kind: 'held' };
      }
    });
    this.running = done.then(() => {});
    return done;
  }

  /** Sets something aside that was meant to become entries; false where it cannot be kept there. */
  setAside(name: string, value: unknown): Promise<boolean> {
    return this.shelf.setAside([thingOf(name, value)]).then(
      () => this.shelf.lasting,
      () => false,
    );
  }

  /** The browser keeps things after all: what was added meanwhile is there already. */
  moveTo(shelf: Shelf): Promise<void> {
    this.shelf = shelf;
    return this.look();
  }

  /** Another tab has added some. */
  look(): Promise<void> {
    this.running = this.running.then(() => this.lookNow());
    return this.running;
  }

  private async lookNow(): Promise<void> {
    this.put(await this.shelf.entries(this.cell).catch(() => []));
  }

  private put(entries: KeptEntry[]): void {
    const there = new Set(this.all.get().map((entry) => entry.id));
    const fresh = entries.filter((entry) => !there.has(entry.id));
    if (fresh.length > 0) this.all.set([...this.all.get(), ...fresh]);
  }

  private async store(entries: KeptEntry[]): Promise<void> {
    const other = await this.shelf.addEntries(this.cell, entries);
    // Two that bear one id and say different things: the one that was there stays, the other is not dropped.
    if (other.length > 0)
      await this.shelf.setAside(
        other.map((one) => thingOf('an entry of the log that was there already', one)),
      );
    if (!this.shelf.lasting) return;
    for (const entry of entries) clearPending(this.cell, entry.id);
    this.told();
  }

  /** Entries a tab wrote down and did not come to store. */
  private async pending(): Promise<KeptEntry[]> {
    const { entries, damaged } = readPending(this.cell);
    if (damaged.length === 0) return entries;
    const things = damaged.map(({ text }) => thingOf('an entry of the log', text));
    const done = await this.shelf.setAside(things).then(
      () => this.shelf.lasting,
      () => false,
    );
    if (done) for (const { id } of damaged) clearPending(this.cell, id);
    return entries;
  }
}

function writePending(cell: string, entry: KeptEntry): void {
  try {
    localStorage.setItem(keyOf(cell, entry.id), JSON.stringify(entry));
  } catch {
    // The database is asked a moment later.
  }
}

function clearPending(cell: string, id: string): void {
  try {
    localStorage.removeItem(keyOf(cell, id));
  } catch {
    // Met again next time: the same entry is not added twice.
  }
}

interface Pending {
  entries: KeptEntry[];
  damaged: { id: string; text: string }[];
}

function readPending(cell: string): Pending {
  const found: Pending = { entries: [], damaged: [] };
  try {
    const before = keyOf(cell, '');
    for (const key of Object.keys(localStorage)) {
      const text = key.startsWith(before) ? localStorage.getItem(key) : null;
      if (text === null) continue;
      const id = key.slice(before.length);
      const entry = entryOf(text, id);
      if (entry === null) found.damaged.push({ id, text });
      else found.entries.push(entry);
    }
  } catch {
    // No small store: nothing was written down.
  }
  return found;
}

function entryOf(text: string, id: string): KeptEntry | null {
  try {
    const value: unknown = JSON.parse(text);
    return isGroup(value) && isJson(value) && (value as Record<string, unknown>)['id'] === id
      ? (value as unknown as KeptEntry)
      : null;
  } catch {
    return null;
  }
}

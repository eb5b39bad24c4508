/** Cells in the browser's database. */
import type { IDBPTransaction } from 'idb';
import {
  Database,
  PATIENCE,
  type KeptEntry,
  type KeptText,
  type Places,
  type Refusal,
  type SetAside,
} from './database.ts';
import { nameIn } from './draft.ts';
import { isGroup, isJson, readRecord, type CellRecord } from './record.ts';
import { byNewest, cardOf, MemoryShelf, newId, sameEntry, type CellCard, type Shelf } from './shelf.ts';

/** Written to the disk itself before it counts as kept: a power cut a moment later loses nothing. */
const FLUSHED = { durability: 'strict' } as const;

export interface OpenedShelf {
  shelf: Shelf;
  /** Why nothing lasts, null where it does. `later`: the shelf after all, once the browser answers. */
  refusal: { kind: 'refused' } | { kind: 'silent'; later: Promise<Shelf | null> } | null;
}

/** The database; memory where the browser gives none (some private windows, storage switched off). */
export async function openShelf(name = 'clampwright', patience = PATIENCE): Promise<OpenedShelf> {
  const opened: Database | Refusal = await Database.open(name, patience);
  if (opened instanceof Database) return { shelf: new DatabaseShelf(opened), refusal: null };
  if (opened.kind === 'refused') return { shelf: new MemoryShelf(), refusal: opened };
  const later = opened.later.then((database) => (database === null ? null : new DatabaseShelf(database)));
  return { shelf: new MemoryShelf(), refusal: { kind: 'silent', later } };
}

type Writing = IDBPTransaction<Places, ('aside' | 'cells' | 'entries')[], 'readwrite'>;

class DatabaseShelf implements Shelf {
  readonly lasting = true;
  onAside: (things: SetAside[]) => void = () => {};
  private readonly database: Database;

  constructor(database: Database) {
    this.database = database;
  }

  /** All of it is written, or none where any of it fails. */
  private async inStep<T>(act: (step: Writing) => Promise<T>): Promise<T> {
    const database = await this.database.get();
    const step = database.transaction(['cells', 'entries', 'aside'], 'readwrite', FLUSHED);
    // Heard below; where `act` fails first, its fault is the one to tell.
    step.done.catch(() => {});
    try {
      const result = await act(step);
      await step.done;
      return result;
    } catch (error) {
      try {
        step.abort();
      } catch {
        // Over already.
      }
      throw error;
    }
  }

  /** Each record by itself: where one cannot be got out of the database at all, the others can. */
  async list(): Promise<CellCard[]> {
    const keys = await (await this.database.get()).getAllKeys('cells');
    const cards = await Promise.all(keys.map((key) => this.card(key)));
    return byNewest(cards.flatMap((card) => card ?? []));
  }

  private async card(key: unknown): Promise<CellCard | undefined> {
    try {
      const record = await this.read(key as string);
      return record && cardOf(record);
    } catch {
      return undefined;
    }
  }

  async read(id: string): Promise<CellRecord | undefined> {
    const value = await (await this.database.get()).get('cells', id);
    if (value === undefined) return undefined;
    const reading = readRecord(id, value);
    if (typeof id === 'string' && reading.kind === 'fine' && reading.damaged.length === 0)
      return reading.record;
    return this.mended(id);
  }

  /** Reads again and sets aside what is damaged in one step: no tab comes between, and none does it twice. */
  private async mended(id: string): Promise<CellRecord | undefined> {
    const { record, aside } = await this.inStep(async (step) => {
      const found = await wholeFrom(step, id);
      if (found.record !== undefined && found.aside.length > 0)
        await step.objectStore('cells').put(found.record);
      return found;
    });
    if (aside.length > 0) this.onAside(aside);
    return record;
  }

  async update(id: string, change: (now: CellRecord | undefined) => CellRecord): Promise<CellRecord> {
    const { record, aside } = await this.inStep(async (step) => {
      const found = await wholeFrom(step, id);
      const next = change(found.record);
      await step.objectStore('cells').put(next);
      return { record: next, aside: found.aside };
    });
    if (aside.length > 0) this.onAside(aside);
    return record;
  }

  async remove(id: string): Promise<void> {
    await this.inStep(async (step) => {
      await step.objectStore('cells').delete(id);
      await step.objectStore('entries').delete(ofCell(id));
    });
  }

  async entries(cell: string): Promise<KeptEntry[]> {
    const database = await this.database.get();
    const keys = await database.getAllKeys('entries', ofCell(cell));
    const found = await Promise.all(
      keys.map(async (key): Promise<KeptEntry | 'damaged'> => {
        const kept = await database.get('entries', key).catch(() => undefined);
        return isEntry(kept?.entry, key[1]) ? kept.entry : 'damaged';
      }),
    );
    const damaged = keys.filter((_, i) => found[i] === 'damaged');
    // One that the database itself cannot give out stays where it is; the others are there all the same.
    if (damaged.length > 0) await this.setEntriesAside(damaged).catch(() => {});
    return found.filter((entry) => entry !== 'damaged');
  }

  private async setEntriesAside(keys: [string, string][]): Promise<void> {
    const aside: SetAside[] = [];
    await this.inStep(async (step) => {
      for (const key of keys) {
        const kept = await step.objectStore('entries').get(key);
        if (kept === undefined || isEntry(kept.entry, key[1])) continue;
        const thing = thingOf('an entry of the log', kept);
        await step.objectStore('aside').put(thing);
        await step.objectStore('entries').delete(key);
        aside.push(thing);
      }
    });
    if (aside.length > 0) this.onAside(aside);
  }

  async addEntries(cell: string, entries: KeptEntry[]): Promise<KeptEntry[]> {
    return this.inStep(async (step) => {
      const kept = step.objectStore('entries');
      const other: KeptEntry[] = [];
      for (const entry of entries) {
        const there = await kept.get([cell, entry.id]);
        if (there === undefined) await kept.add({ cell, id: entry.id, entry });
        else if (!sameEntry(there.entry, entry)) other.push(entry);
      }
      return other;
    });
  }

  async aside(): Promise<SetAside[]> {
    const database = await this.database.get();
    const keys = await database.getAllKeys('aside');
    const things = await Promise.all(keys.map((key) => database.get('aside', key).catch(() => undefined)));
    return things
      .flatMap((thing, i): SetAside[] => (thing === undefined ? [] : [wholeThing(thing, keys[i]!)]))
      .sort((a, b) => b.at - a.at);
  }

  async setAside(things: SetAside[]): Promise<void> {
    await this.inStep(async (step) => {
      for (const thing of things) await step.objectStore('aside').put(thing);
    });
    this.onAside(things);
  }

  async dropAside(id: string): Promise<void> {
    await (await this.database.get()).delete('aside', id);
  }

  async texts(): Promise<KeptText[]> {
    const database = await this.database.get();
    const keys = await database.getAllKeys('texts');
    const texts = await Promise.all(keys.map((key) => database.get('texts', key).catch(() => undefined)));
    return texts.filter((one) => isText(one));
  }

  async keepText(text: KeptText): Promise<void> {
    const step = (await this.database.get()).transaction('texts', 'readwrite', FLUSHED);
    const there = await step.store.get(text.key);
    if (!isText(there) || there.at < text.at) await step.store.put(text);
    await step.done;
  }

  close(): void {
    this.database.close();
  }
}

const isText = (value: unknown): value is KeptText =>
  isGroup(value) &&
  typeof value['key'] === 'string' &&
  typeof value['text'] === 'string' &&
  Number.isFinite(value['at']);

/** All entries of a cell: between the lowest and the highest text an id can be. */
const ofCell = (cell: string): IDBKeyRange => IDBKeyRange.bound([cell, ''], [cell, []]);

const isEntry = (value: unknown, id: string): value is KeptEntry =>
  isGroup(value) && value['id'] === id && isJson(value);

export const thingOf = (name: string, value: unknown): SetAside => ({
  id: newId(),
  name,
  at: Date.now(),
  value,
});

/** What was set aside may itself be damaged: then it is what it is. */
const wholeThing = (thing: unknown, id: string): SetAside =>
  isGroup(thing) && typeof thing['name'] === 'string' && Number.isFinite(thing['at'])
    ? { id, name: thing['name'], at: thing['at'] as number, value: thing['value'] }
    : { id, name: 'something set aside earlier', at: 0, value: thing };

/** The record of an id as far as it is whole; the rest is put aside within the same step. */
async function wholeFrom(
  step: Writing,
  id: string,
): Promise<{ record: CellRecord | undefined; aside: SetAside[] }> {
  const value = await step.objectStore('cells').get(id);
  if (value === undefined) return { record: undefined, aside: [] };
  const reading = readRecord(id, value);
  const wrong = reading.kind === 'wrong' || typeof id !== 'string';
  const aside = wrong
    ? [thingOf(`the cell “${reading.kind === 'wrong' ? reading.name : nameIn(reading.record.draft)}”`, value)]
    : reading.damaged.map((one) => thingOf(`“${reading.record.name}”: ${one.part}`, one.value));
  for (const thing of aside) await step.objectStore('aside').put(thing);
  if (wrong) await step.objectStore('cells').delete(id);
  return { record: wrong ? undefined : reading.record, aside };
}

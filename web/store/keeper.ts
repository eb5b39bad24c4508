/** Keeps one cell as it is typed: journal at once, database a moment later, other tabs told. */
import type { CellStore } from './cell-store.ts';
import { clearJournal, writeJournal, type Journal } from './journal.ts';
import { played, type Entry } from './history.ts';
import type { CellRecord, Shelf } from './shelf.ts';
import { Value } from './value.ts';

/** `held`: only in this page (no lasting storage). `failed`: why it could not be written. */
export type Kept =
  { kind: 'kept' } | { kind: 'keeping' } | { kind: 'held' } | { kind: 'failed'; full: boolean };

const SOON = 150;
const AGAIN = 5000;
const TAKEN = 60;

/** `record` with entries that came in elsewhere put on top. */
export function withEntries(record: CellRecord, { entries, typed }: Journal): CellRecord {
  const fresh = entries.filter((entry) => !record.taken.includes(entry.id));
  if (fresh.length === 0) return { ...record, typed: { ...record.typed, ...typed } };
  const { draft } = played(
    record.draft,
    fresh.flatMap((entry) => entry.changes),
  );
  return {
    ...record,
    draft,
    typed: { ...record.typed, ...typed },
    history: { past: [...record.history.past, ...fresh], future: [] },
    taken: [...record.taken, ...fresh.map((entry) => entry.id)].slice(-TAKEN),
  };
}

export class Keeper {
  readonly kept: Value<Kept>;
  private readonly stops: (() => void)[];
  private unsaved: Entry[] = [];
  private dirty = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> = Promise.resolve();
  private readonly store: CellStore;
  private readonly shelf: Shelf;
  private readonly tab: string;
  private readonly saved: (record: CellRecord) => void;
  private revision: number;

  constructor({
    store,
    shelf,
    tab,
    revision,
    saved,
  }: {
    store: CellStore;
    shelf: Shelf;
    tab: string;
    revision: number;
    saved: (record: CellRecord) => void;
  }) {
    this.store = store;
    this.shelf = shelf;
    this.tab = tab;
    this.saved = saved;
    this.revision = revision;
    this.kept = new Value<Kept>(shelf.lasting ? { kind: 'kept' } : { kind: 'held' });
    store.onEntry = (entry) => {
      this.unsaved.push(entry);
      this.soon();
    };
    this.stops = [store.typed.subscribe(() => this.soon())];
  }

  private soon(): void {
    this.dirty = true;
    writeJournal(this.store.id, this.tab, { entries: this.unsaved, typed: this.store.typed.get() });
    if (this.shelf.lasting) this.kept.set({ kind: 'keeping' });
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), SOON);
  }

  /** Writes what is not written yet; resolves when it is, or has failed and been said. */
  flush(): Promise<void> {
    clearTimeout(this.timer);
    this.running = this.running.then(() => this.write());
    return this.running;
  }

  private async write(): Promise<void> {
    if (!this.dirty) return;
    this.dirty = false;
    const sent = this.unsaved;
    this.unsaved = [];
    try {
      const record = await this.shelf.update(this.store.id, (now) => this.recordOn(now, sent));
      if (record.revision !== this.revision + 1)
        this.store.adopt(withEntries(record, { entries: this.unsaved, typed: this.store.typed.get() }));
      this.revision = record.revision;
      if (this.dirty) return;
      clearJournal(this.store.id, this.tab);
      this.kept.set(this.shelf.lasting ? { kind: 'kept' } : { kind: 'held' });
      this.saved(record);
    } catch (error) {
      this.unsaved = [...sent, ...this.unsaved];
      this.dirty = true;
      this.kept.set({
        kind: 'failed',
        full: error instanceof DOMException && error.name === 'QuotaExceededError',
      });
      this.timer = setTimeout(() => void this.flush(), AGAIN);
    }
  }

  /** Our state where nobody wrote in between; theirs with our entries on top where somebody did. */
  private recordOn(now: CellRecord | undefined, sent: Entry[]): CellRecord {
    const { store } = this;
    const changedAt = Date.now();
    if (now !== undefined && now.revision !== this.revision) {
      const merged = withEntries(now, { entries: sent, typed: store.typed.get() });
      return { ...merged, name: nameOf(merged.draft, store.name), revision: now.revision + 1, changedAt };
    }
    const taken = [...(now?.taken ?? []), ...sent.map((entry) => entry.id)].slice(-TAKEN);
    return { id: store.id, name: store.name, ...store.state, revision: this.revision + 1, changedAt, taken };
  }

  /** Another tab has written: take it over, unless something of ours is under way (it will be put on top). */
  async look(): Promise<void> {
    if (this.dirty) return this.flush();
    const record = await this.shelf.read(this.store.id).catch(() => undefined);
    if (record === undefined || record.revision <= this.revision || this.dirty) return;
    this.revision = record.revision;
    this.store.adopt(record);
  }

  async close(): Promise<void> {
    await this.flush();
    clearTimeout(this.timer);
    for (const stop of this.stops) stop();
    this.store.onEntry = () => {};
  }
}

function nameOf(draft: unknown, otherwise: string): string {
  const name = typeof draft === 'object' && draft !== null && 'name' in draft ? draft.name : undefined;
  return typeof name === 'string' && name !== '' ? name : otherwise;
}

/** Keeps one cell as it is typed: journal at once, database a moment later, other tabs told. */
import type { CellStore } from './cell-store.ts';
import { nameIn } from './draft.ts';
import type { Entry } from './history.ts';
import {
  clearJournal,
  clearLeft,
  writeJournal,
  type Journal,
  type LeftJournal,
  type TypedChanges,
} from './journal.ts';
import { typedChanges, withJournal, withTaken, type Merged } from './merge.ts';
import type { CellRecord } from './record.ts';
import type { Shelf } from './shelf.ts';
import { Value } from './value.ts';

/** `held`: only in this page (no lasting storage). `failed`: why it could not be written. */
export type Kept =
  | { kind: 'kept' }
  | { kind: 'keeping' }
  | { kind: 'held' }
  | { kind: 'failed'; why: 'full' | 'silent' | 'refused' };

const SOON = 20;
const AGAIN = 5000;
/** A browser that has not written by then is not waited for any longer. */
const LONGEST = 10_000;

type Unsent = Pick<Journal, 'entries' | 'typed'>;

class NoAnswer extends Error {}

export interface KeeperSettings {
  store: CellStore;
  shelf: Shelf;
  tab: string;
  /** The record as it is in the database. */
  record: Pick<CellRecord, 'revision' | 'typed' | 'taken'>;
  saved: (record: CellRecord) => void;
  /** Changes whose place is no more, since another tab took it out. */
  lost?: (entries: Entry[], record: CellRecord) => void;
}

export class Keeper {
  readonly kept: Value<Kept>;
  private readonly settings: KeeperSettings;
  private readonly stop: () => void;
  private unsaved: Entry[] = [];
  /** Sent to the database and not known to be there. */
  private underWay: Entry[] = [];
  /** Journals of tabs that are no more, taken in and to be taken away once that is stored. */
  private left: LeftJournal[] = [];
  private dirty = false;
  private adopting = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> = Promise.resolve();
  private revision: number;
  /** Texts in fields as the database has them. */
  private typed: Record<string, string>;
  /** Entries that the database has. */
  private taken: string[];

  constructor(settings: KeeperSettings) {
    const { store, shelf, record } = settings;
    this.settings = settings;
    this.revision = record.revision;
    this.typed = record.typed;
    this.taken = record.taken;
    this.kept = new Value<Kept>(shelf.lasting ? { kind: 'kept' } : { kind: 'held' });
    store.onEntry = (entry) => {
      this.unsaved.push(entry);
      this.soon();
    };
    this.stop = store.typed.subscribe(() => {
      if (!this.adopting) this.soon();
    });
  }

  private soon(): void {
    this.dirty = true;
    this.writeDown();
    if (this.settings.shelf.lasting) this.kept.set({ kind: 'keeping' });
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), SOON);
  }

  /** Writes the cell as it stands, changed or not. */
  writeAgain(): void {
    this.soon();
  }

  private writeDown(): void {
    const { store, tab, shelf } = this.settings;
    writeJournal(
      store.id,
      tab,
      shelf.lasting
        ? { entries: [...this.underWay, ...this.unsaved], typed: typedChanges(this.typed, store.typed.get()) }
        : { entries: [], typed: {}, whole: this.whole() },
    );
  }

  private whole(): CellRecord {
    const { store } = this.settings;
    const { revision } = this;
    return {
      id: store.id,
      name: store.name,
      ...store.state,
      revision,
      changedAt: Date.now(),
      taken: this.taken,
    };
  }

  /** Writes what is not written yet; resolves when it is, or has failed and been said. */
  flush(): Promise<void> {
    clearTimeout(this.timer);
    this.running = this.running.then(() => this.send());
    return this.running;
  }

  private async send(): Promise<void> {
    if (!this.dirty) return;
    const { store, shelf, tab } = this.settings;
    this.dirty = false;
    // As it is now: what is changed while the database writes belongs to the next time.
    const [sent, left, whole, texts] = [this.unsaved, [...this.left], this.whole(), store.typed.get()];
    const typed = typedChanges(this.typed, texts);
    [this.underWay, this.unsaved] = [sent, []];
    try {
      let lost: Entry[] = [];
      const update = shelf.update(store.id, (now) => {
        const merged = this.recordOn(now, whole, { entries: sent, typed });
        lost = merged.lost;
        return merged.record;
      });
      const record = await inTime(update);
      if (record.revision !== this.revision + 1) this.adopt(record, typedChanges(texts, store.typed.get()));
      this.took(record);
      this.underWay = [];
      this.left = this.left.filter((one) => !left.includes(one));
      clearLeft(left);
      if (lost.length > 0) this.settings.lost?.(lost, record);
      if (this.dirty) return;
      if (shelf.lasting) clearJournal(store.id, tab);
      this.kept.set(shelf.lasting ? { kind: 'kept' } : { kind: 'held' });
      this.settings.saved(record);
    } catch (error) {
      [this.underWay, this.unsaved] = [[], [...sent, ...this.unsaved]];
      this.dirty = true;
      this.kept.set({ kind: 'failed', why: whyNot(error) });
      this.timer = setTimeout(() => void this.flush(), AGAIN);
    }
  }

  /** Our state where nobody wrote in between; theirs with our entries on top where somebody did. */
  private recordOn(now: CellRecord | undefined, whole: CellRecord, sent: Unsent): Merged {
    const changedAt = Date.now();
    if (now !== undefined && now.revision !== this.revision) {
      const { record, lost } = withJournal(now, sent);
      return {
        record: { ...record, name: nameIn(record.draft), revision: now.revision + 1, changedAt },
        lost,
      };
    }
    const taken = withTaken(now?.taken ?? [], sent.entries);
    return { record: { ...whole, revision: this.revision + 1, changedAt, taken }, lost: [] };
  }

  /** Takes over what another tab wrote, with what is not written yet on top. */
  private adopt(record: CellRecord, typed: TypedChanges): void {
    this.show(withJournal(record, { entries: this.unsaved, typed }).record);
  }

  private show(record: CellRecord): void {
    this.adopting = true;
    this.settings.store.adopt(record);
    this.adopting = false;
  }

  private took(record: CellRecord): void {
    this.revision = record.revision;
    this.typed = record.typed;
    this.taken = record.taken;
  }

  /** Another tab has written: take it over, unless something of ours is under way (it will be put on top). */
  async look(): Promise<void> {
    if (this.dirty) return this.flush();
    const { store, shelf } = this.settings;
    const record = await shelf.read(store.id).catch(() => undefined);
    if (record === undefined || record.revision <= this.revision || this.dirty || this.underWay.length > 0)
      return;
    this.adopt(record, typedChanges(this.typed, store.typed.get()));
    this.took(record);
  }

  /** What tabs that are no more had typed is put on top of what is here, shown, and written. */
  take(found: LeftJournal[]): void {
    const left = found.filter(({ key }) => this.left.every((one) => one.key !== key));
    if (left.length === 0) return;
    this.left.push(...left);
    let record: CellRecord = this.whole();
    const before = record;
    for (const { journal } of left) {
      if (journal === null) continue;
      const merged = withJournal(record, journal);
      record = merged.record;
      if (merged.lost.length > 0) this.settings.lost?.(merged.lost, record);
      this.unsaved.push(...journal.entries.filter((entry) => !this.taken.includes(entry.id)));
    }
    if (record.draft !== before.draft || Object.keys(typedChanges(before.typed, record.typed)).length > 0)
      this.show(record);
    this.soon();
  }

  /** Writes what is left and lets go of the cell. */
  async close(): Promise<void> {
    await this.flush();
    clearTimeout(this.timer);
    this.stop();
    this.settings.store.onEntry = () => {};
  }
}

function whyNot(error: unknown): 'full' | 'silent' | 'refused' {
  if (error instanceof NoAnswer) return 'silent';
  return error instanceof DOMException && error.name === 'QuotaExceededError' ? 'full' : 'refused';
}

function inTime<T>(asked: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const silent = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new NoAnswer('the browser does not answer')), LONGEST);
  });
  return Promise.race([asked, silent]).finally(() => clearTimeout(timer));
}

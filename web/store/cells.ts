/** All cells of this browser and the one at hand. */
import { readScenario, type Fault } from '../../src/scenario/check.ts';
import { CellStore } from './cell-store.ts';
import type { SetAside } from './database.ts';
import { thingOf, type OpenedShelf } from './database-shelf.ts';
import type { Json } from './draft.ts';
import { Entries } from './entries.ts';
import { clearLeft, leftJournals, livingTabs, showLife, type LeftJournal } from './journal.ts';
import { Keeper } from './keeper.ts';
import { giveUpField } from './leaving.ts';
import { lostThings, restoreWhole } from './restore.ts';
import { dropOwn, onOwnAside, ownThings } from './own.ts';
import { recordOf, type CellRecord } from './record.ts';
import { byNewest, cardOf, newId, type CellCard, type Shelf } from './shelf.ts';
import { Tabs } from './tabs.ts';
import { keepTextsOn } from './texts.ts';
import { Value } from './value.ts';

const LAST = 'clampwright-last';
/** A tab that was closed the moment before may still count as living: what it left is looked for again. */
const LOOK_AGAIN = [1000, 5000];

export type Brought = { kind: 'fine' } | { kind: 'wrong'; faults: Fault[] };

export class Cells {
  readonly list = new Value<CellCard[]>([]);
  /** Also open in so many other tabs. */
  readonly others = new Value(0);
  /** What could not be read, newest first. */
  readonly aside = new Value<SetAside[]>([]);
  readonly current: Value<CellStore>;
  readonly keeper: Value<Keeper>;
  /** Told of what was newly set aside, while the page is open. */
  onAside: (things: SetAside[]) => void = () => {};
  /** Told when the browser, silent at first, keeps things after all. */
  onLasting: () => void = () => {};
  private shelf: Shelf;
  private readonly tabs: Tabs;

  private constructor(shelf: Shelf, tabs: Tabs, store: CellStore, record: CellRecord) {
    this.shelf = shelf;
    this.tabs = tabs;
    this.current = new Value(store);
    this.entriesOf(store);
    this.keeper = new Value(this.keeperOf(store, record));
  }

  /**
   * Opens the cell that was at hand last, or `first` where there is none. What a crash left unsaved is put
   * back. Whatever is damaged, a cell comes to hand.
   */
  static async open({ opened, first }: { opened: OpenedShelf; first: Json }): Promise<Cells> {
    const { shelf, refusal } = opened;
    const tabs = new Tabs();
    showLife(tabs.own);
    const found: SetAside[] = [];
    shelf.onAside = (things) => found.push(...things);
    await restoreWhole(shelf);
    await keepTextsOn(shelf);
    const { store, record } =
      (await lastAtHand(shelf)) ?? (await atHand(await put(shelf, recordOf(newId(), first))));
    const cells = new Cells(shelf, tabs, store, record);
    await cells.takeLeft();
    cells.watch();
    await cells.refresh();
    // Whoever opened the cells hears of it in a moment, once there is something to hear with.
    setTimeout(() => found.length > 0 && cells.onAside(found));
    if (refusal?.kind === 'silent')
      void refusal.later.then((late) => (late === null ? undefined : cells.moveTo(late)));
    return cells;
  }

  get lasting(): boolean {
    return this.shelf.lasting;
  }

  private watch(): void {
    this.follow(this.shelf);
    this.tabs.onSaved = (id) => {
      void this.refresh();
      if (id === this.current.get().id) void this.keeper.get().look();
    };
    this.tabs.onEntries = (id) => {
      if (id === this.current.get().id) void this.current.get().entries.look();
    };
    this.tabs.others.subscribe((count) => this.others.set(count));
    this.tabs.at(this.current.get().id);
    // A page may be frozen, or gone for good, any time after it is hidden.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') this.leave();
      else void this.takeLeft().then(() => this.keeper.get().look());
    });
    globalThis.addEventListener('pagehide', () => {
      this.leave();
      this.tabs.leave();
    });
    globalThis.addEventListener('pageshow', (event) => {
      if (event.persisted) this.tabs.at(this.current.get().id);
    });
    onOwnAside((thing) => {
      this.aside.set([thing, ...this.aside.get()]);
      this.onAside([thing]);
    });
    for (const ms of LOOK_AGAIN) setTimeout(() => void this.takeLeft(), ms);
    if (this.lasting) remember(this.current.get().id);
  }

  private leave(): void {
    giveUpField();
    void this.keeper.get().flush();
  }

  private follow(shelf: Shelf): void {
    shelf.onAside = (things) => {
      this.aside.set([...things, ...this.aside.get()]);
      this.onAside(things);
    };
  }

  private entriesOf(store: CellStore): void {
    const { shelf, tabs } = this;
    store.entries = new Entries({ cell: store.id, shelf, told: () => tabs.entries(store.id) });
  }

  private keeperOf(store: CellStore, record: CellRecord): Keeper {
    const { shelf, tabs } = this;
    return new Keeper({
      store,
      shelf,
      tab: tabs.own,
      record,
      saved: (now) => {
        tabs.saved(store.id);
        this.list.set(byNewest([cardOf(now), ...this.list.get().filter((card) => card.id !== store.id)]));
      },
      lost: (entries, now) => void this.putAside(lostThings(entries, now)),
    });
  }

  private async putAside(things: SetAside[]): Promise<boolean> {
    return this.shelf.setAside(things).then(
      () => this.shelf.lasting,
      () => false,
    );
  }

  /** What tabs that are no more left of the cell at hand comes in; what of it can't be read is set aside. */
  private async takeLeft(): Promise<void> {
    const store = this.current.get();
    const left = leftJournals((await livingTabs()).add(this.tabs.own)).filter(
      ({ cell }) => cell === store.id,
    );
    if (store !== this.current.get()) return;
    await this.asideOf(left.filter(({ whole }) => !whole));
    this.keeper.get().take(left.filter(({ journal }) => journal !== null));
  }

  private async asideOf(damaged: LeftJournal[]): Promise<void> {
    if (damaged.length === 0) return;
    const name = `“${this.current.get().name}”: the last changes before the page was left`;
    if (await this.putAside(damaged.map(({ text }) => thingOf(name, text))))
      clearLeft(damaged.filter(({ journal }) => journal === null));
  }

  private async refresh(): Promise<void> {
    this.list.set(await this.shelf.list().catch(() => this.list.get()));
    const aside = await this.shelf.aside().catch(() => []);
    this.aside.set([...ownThings(), ...aside].sort((a, b) => b.at - a.at));
  }

  private async take(record: CellRecord): Promise<void> {
    const store = await CellStore.inTurns(record.id, record);
    await this.keeper.get().close();
    this.entriesOf(store);
    this.keeper.set(this.keeperOf(store, record));
    this.current.set(store);
    await this.takeLeft();
    this.tabs.at(store.id);
    if (this.lasting) remember(store.id);
    await this.refresh();
  }

  /**
   * The browser keeps things after all: what was done here meanwhile goes where the others are. Where nothing
   * was done, the cell that was at hand last comes back.
   */
  private async moveTo(shelf: Shelf): Promise<void> {
    await keepTextsOn(shelf);
    const [memory, store] = [this.shelf, this.current.get()];
    await this.keeper.get().close();
    const touched = (one: CellStore | CellRecord): boolean =>
      one instanceof CellStore
        ? one.canUndo || one.entries.all.get().length > 0 || Object.keys(one.typed.get()).length > 0
        : one.history.past.length > 0;
    const before = touched(store) ? null : await lastAtHand(shelf).catch(() => null);
    if (before !== null && !touched(store)) {
      this.shelf = shelf;
      this.follow(shelf);
      await this.take(before.record);
      return this.onLasting();
    }
    try {
      for (const { id } of await memory.list()) {
        const record = await memory.read(id);
        if (record === undefined || !(record.id === store.id || touched(record))) continue;
        await shelf.update(id, (now) => now ?? record);
        await shelf.addEntries(id, await memory.entries(id));
      }
    } catch {
      this.keeper.set(this.keeperOf(store, { ...recordOf(store.id, null), ...store.state }));
      return;
    }
    this.shelf = shelf;
    this.follow(shelf);
    await store.entries.moveTo(shelf);
    const now = await shelf.read(store.id);
    this.keeper.set(this.keeperOf(store, now ?? { ...recordOf(store.id, null), ...store.state }));
    // Somebody may have gone on typing meanwhile.
    this.keeper.get().writeAgain();
    await this.refresh();
    remember(store.id);
    this.onLasting();
  }

  /** Another kept cell comes to hand; false where it is no more. */
  async turnTo(id: string): Promise<boolean> {
    const record = await this.shelf.read(id).catch(() => undefined);
    if (record === undefined) return false;
    await this.take(record);
    return true;
  }

  /** A new cell of this draft, kept beside the others, at hand. */
  async add(draft: Json, id = newId()): Promise<void> {
    await this.take(await put(this.shelf, recordOf(id, draft)));
  }

  async duplicate(name: string): Promise<void> {
    const draft = this.current.get().draft.get();
    await this.add(
      typeof draft === 'object' && draft !== null && !Array.isArray(draft) ? { ...draft, name } : draft,
    );
  }

  /** Takes a cell off the shelf; `otherwise` comes to hand where it was the last one. */
  async remove(id: string, otherwise: Json): Promise<void> {
    const other = (await this.shelf.list()).find((card) => card.id !== id);
    if (id === this.current.get().id && (other === undefined || !(await this.turnTo(other.id))))
      await this.add(otherwise);
    await this.shelf.remove(id);
    this.tabs.saved(id);
    await this.refresh();
  }

  async dropAside(id: string): Promise<void> {
    if (!dropOwn(id)) await this.shelf.dropAside(id);
    this.aside.set(this.aside.get().filter((thing) => thing.id !== id));
  }

  /**
   * A file or a shared cell: checked, and added where it is fine; where a cell of that `id` is kept already,
   * that one comes to hand.
   */
  async bring(text: string, id = newId()): Promise<Brought> {
    if (await this.turnTo(id)) return { kind: 'fine' };
    const reading = readScenario(text);
    if (reading.kind === 'wrong') return reading;
    await this.add(JSON.parse(text.replace(/^\ufeff/, '')) as Json, id);
    return { kind: 'fine' };
  }
}

interface AtHand {
  store: CellStore;
  record: CellRecord;
}

const atHand = async (record: CellRecord): Promise<AtHand> => ({
  store: await CellStore.inTurns(record.id, record),
  record,
});

/** The cell that was at hand last, else the newest that can be opened; null where there is none. */
async function lastAtHand(shelf: Shelf): Promise<AtHand | null> {
  const list = await shelf.list().catch((): CellCard[] => []);
  const wanted = lastId();
  for (const { id } of list.sort((a, b) => Number(b.id === wanted) - Number(a.id === wanted))) {
    try {
      const record = await shelf.read(id);
      if (record !== undefined) return await atHand(record);
    } catch {
      // It stays where it is, and in the list.
    }
  }
  return null;
}

/** Written, or held in the page alone where it cannot be; the keeper tries again with the first change. */
const put = (shelf: Shelf, record: CellRecord): Promise<CellRecord> =>
  shelf.update(record.id, () => record).catch(() => record);

function remember(id: string): void {
  try {
    localStorage.setItem(LAST, id);
  } catch {
    // The newest cell comes to hand next time.
  }
}

function lastId(): string | null {
  try {
    return localStorage.getItem(LAST);
  } catch {
    return null;
  }
}

/** All cells of this browser and the one at hand. */
import { readScenario, type Fault } from '../../src/scenario/check.ts';
import { CellStore, nameOf } from './cell-store.ts';
import type { Json } from './draft.ts';
import { EMPTY } from './history.ts';
import { livingTabs, showLife, takeJournals } from './journal.ts';
import { Keeper, withEntries } from './keeper.ts';
import type { CellCard, CellRecord, Shelf } from './shelf.ts';
import { Tabs } from './tabs.ts';
import { Value } from './value.ts';

const LAST = 'clampwright-last';

export type Brought = { kind: 'fine' } | { kind: 'wrong'; faults: Fault[] };

export class Cells {
  readonly list = new Value<CellCard[]>([]);
  /** Also open in so many other tabs. */
  readonly others = new Value(0);
  readonly current: Value<CellStore>;
  readonly keeper: Value<Keeper>;
  private readonly shelf: Shelf;
  private readonly tabs: Tabs;

  private constructor(shelf: Shelf, tabs: Tabs, store: CellStore, revision: number) {
    this.shelf = shelf;
    this.tabs = tabs;
    this.current = new Value(store);
    this.keeper = new Value(this.keeperOf(store, revision));
  }

  /**
   * Opens the cell that was at hand last, or `first` where there is none. What a crash left unsaved is put
   * back.
   */
  static async open({ shelf, first }: { shelf: Shelf; first: Json }): Promise<Cells> {
    const tabs = new Tabs();
    showLife(tabs.own);
    const list = await shelf.list();
    const wanted = lastId();
    const id = list.find((card) => card.id === wanted)?.id ?? list[0]?.id;
    const kept = id === undefined ? undefined : await readWhole(shelf, id);
    const record = kept ?? (await put(shelf, newRecord(first)));
    const cells = new Cells(shelf, tabs, await CellStore.inTurns(record.id, record), record.revision);
    cells.watch();
    await cells.refresh();
    return cells;
  }

  get lasting(): boolean {
    return this.shelf.lasting;
  }

  private watch(): void {
    this.tabs.onSaved = (id) => {
      void this.refresh();
      if (id === this.current.get().id) void this.keeper.get().look();
    };
    this.tabs.others.subscribe((count) => this.others.set(count));
    this.tabs.at(this.current.get().id);
    // A page may be frozen, or gone for good, any time after it is hidden.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') void this.keeper.get().flush();
      else void this.keeper.get().look();
    });
    globalThis.addEventListener('pagehide', () => {
      void this.keeper.get().flush();
      this.tabs.leave();
    });
    globalThis.addEventListener('pageshow', (event) => {
      if (event.persisted) this.tabs.at(this.current.get().id);
    });
    remember(this.current.get().id);
  }

  private keeperOf(store: CellStore, revision: number): Keeper {
    return new Keeper({
      store,
      shelf: this.shelf,
      tab: this.tabs.own,
      revision,
      saved: () => {
        this.tabs.saved(store.id);
        void this.refresh();
      },
    });
  }

  private async refresh(): Promise<void> {
    this.list.set(await this.shelf.list().catch(() => this.list.get()));
  }

  private async take(record: CellRecord): Promise<void> {
    const store = await CellStore.inTurns(record.id, record);
    await this.keeper.get().close();
    this.keeper.set(this.keeperOf(store, record.revision));
    this.current.set(store);
    this.tabs.at(store.id);
    remember(store.id);
    await this.refresh();
  }

  /** Another kept cell comes to hand; false where it is no more. */
  async turnTo(id: string): Promise<boolean> {
    const record = await readWhole(this.shelf, id);
    if (record === undefined) return false;
    await this.take(record);
    return true;
  }

  /** A new cell of this draft, kept beside the others, at hand. */
  async add(draft: Json, id = newId()): Promise<void> {
    await this.take(await put(this.shelf, newRecord(draft, id)));
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

/** The cell as a file, as the command line reads it. */
export const fileText = (store: CellStore): string => `${JSON.stringify(store.draft.get(), null, 2)}\n`;

/** A file name of the cell's name. */
export function fileName(store: CellStore): string {
  const plain = store.name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60);
  return `${plain === '' ? 'cell' : plain}.json`;
}

/** Written, or held in the page alone where it cannot be; the keeper tries again with the first change. */
const put = (shelf: Shelf, record: CellRecord): Promise<CellRecord> =>
  shelf.update(record.id, () => record).catch(() => record);

export const newId = (): string => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;

function newRecord(draft: Json, id = newId()): CellRecord {
  return {
    id,
    name: nameOf(draft),
    draft,
    typed: {},
    history: EMPTY,
    revision: 0,
    changedAt: Date.now(),
    taken: [],
  };
}

/** The record with what tabs that are no more had typed and not kept. */
async function readWhole(shelf: Shelf, id: string): Promise<CellRecord | undefined> {
  const record = await shelf.read(id).catch(() => undefined);
  if (record === undefined) return undefined;
  const journals = takeJournals(id, await livingTabs());
  if (journals.length === 0) return record;
  return shelf.update(id, (now) => {
    const whole = journals.reduce(withEntries, now ?? record);
    return { ...whole, revision: whole.revision + 1 };
  });
}

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

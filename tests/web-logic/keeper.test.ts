import { beforeEach, describe, expect, test, vi } from 'vitest';
import { CellStore } from '../../web/store/cell-store.ts';
import type { Json } from '../../web/store/draft.ts';
import type { Entry } from '../../web/store/history.ts';
import { leftJournals } from '../../web/store/journal.ts';
import { Keeper } from '../../web/store/keeper.ts';
import { withJournal } from '../../web/store/merge.ts';
import { recordOf, type CellRecord } from '../../web/store/record.ts';
import { restoreWhole } from '../../web/store/restore.ts';
import { MemoryShelf } from '../../web/store/shelf.ts';
import { smallStore } from './small-store.ts';

const draft: Json = {
  format: 1,
  name: 'cell',
  steps: { fit: { time: 5 } },
  people: { orla: { covers: ['fit'] } },
};
const record: CellRecord = { ...recordOf('one', draft), revision: 1 };

/** Lasting as far as anybody can tell. */
class Lasting extends MemoryShelf {
  override readonly lasting = true as false;
}

interface Opened {
  store: CellStore;
  keeper: Keeper;
  lost: Entry[];
}

async function opened(shelf: MemoryShelf, tab: string): Promise<Opened> {
  const now = (await shelf.read('one')) ?? (await shelf.update('one', () => record));
  const store = new CellStore('one', now);
  const lost: Entry[] = [];
  const keeper = new Keeper({
    store,
    shelf,
    tab,
    record: now,
    saved: () => {},
    lost: (entries) => lost.push(...entries),
  });
  return { store, keeper, lost };
}

beforeEach(() => {
  vi.stubGlobal('localStorage', smallStore());
  return () => vi.unstubAllGlobals();
});

describe('keeping a cell', () => {
  test('writes the draft, the way back and the text that could not be read', async () => {
    const shelf = new MemoryShelf();
    const { store, keeper } = await opened(shelf, 'a');
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    store.setTyped(['shift', 'start'], '6 oclok');
    await keeper.flush();
    const kept = (await shelf.read('one'))!;
    expect(kept.draft).toEqual({ ...(draft as object), steps: { fit: { time: 6 } } });
    expect(kept.typed).toEqual({ 'shift/start': '6 oclok' });
    expect(new CellStore('one', kept).undo()).toBe('fit 6');
  });

  test('loses neither side when two tabs change different things at once', async () => {
    const shelf = new MemoryShelf();
    const [a, b] = [await opened(shelf, 'a'), await opened(shelf, 'b')];
    a.store.change('fit 6', ['steps', 'fit', 'time'], 6);
    b.store.change('named', ['name'], 'ours');
    await a.keeper.flush();
    await b.keeper.flush();
    await a.keeper.look();
    expect(a.store.draft.get()).toEqual({ ...(draft as object), name: 'ours', steps: { fit: { time: 6 } } });
    expect(b.store.draft.get()).toEqual(a.store.draft.get());
  });

  test('loses neither side when both put something new into the same group', async () => {
    const shelf = new MemoryShelf();
    const [a, b] = [await opened(shelf, 'a'), await opened(shelf, 'b')];
    a.store.change('seed', ['seed'], 'x');
    a.store.change('a step', ['steps', 'glue'], { time: 8 });
    b.store.change('about', ['about'], 'ours');
    b.store.change('another step', ['steps', 'sand'], { time: 9 });
    b.store.change('named', ['name'], 'ours');
    await a.keeper.flush();
    await b.keeper.flush();
    await a.keeper.look();
    expect(a.store.draft.get()).toEqual({
      ...(draft as object),
      name: 'ours',
      seed: 'x',
      about: 'ours',
      steps: { fit: { time: 5 }, glue: { time: 8 }, sand: { time: 9 } },
    });
  });

  test('does not bring a text back that the other tab has put right meanwhile', async () => {
    const shelf = new MemoryShelf();
    const a = await opened(shelf, 'a');
    a.store.setTyped(['shift', 'start'], '6 oclok');
    await a.keeper.flush();
    const b = await opened(shelf, 'b');
    a.store.setTyped(['shift', 'start'], null);
    await a.keeper.flush();
    b.store.change('named', ['name'], 'ours');
    await b.keeper.flush();
    expect((await shelf.read('one'))!.typed).toEqual({});
    expect(b.store.typed.get()).toEqual({});
  });

  test('leaves two tabs in peace once both have what there is', async () => {
    const shelf = new MemoryShelf();
    const [a, b] = [await opened(shelf, 'a'), await opened(shelf, 'b')];
    a.store.setTyped(['shift', 'start'], '6 oclok');
    await a.keeper.flush();
    await b.keeper.look();
    const { revision } = (await shelf.read('one'))!;
    await b.keeper.flush();
    await a.keeper.look();
    await a.keeper.flush();
    expect((await shelf.read('one'))!.revision).toBe(revision);
    expect(b.store.typedAt(['shift', 'start'])).toBe('6 oclok');
  });

  test('hands back a change whose step the other tab took out', async () => {
    const shelf = new MemoryShelf();
    const [a, b] = [await opened(shelf, 'a'), await opened(shelf, 'b')];
    a.store.change('no fit', ['steps', 'fit'], undefined);
    b.store.change('fit 9', ['steps', 'fit', 'time'], 9);
    await a.keeper.flush();
    await b.keeper.flush();
    expect(b.lost.map((entry) => entry.say)).toEqual(['fit 9']);
    expect(b.store.at(['steps', 'fit'])).toBeUndefined();
  });

  test('says when it cannot write, holds on to the changes, and writes them when it can', async () => {
    const shelf = new MemoryShelf();
    const { store, keeper } = await opened(shelf, 'a');
    const write = shelf.update.bind(shelf);
    shelf.update = () => Promise.reject(new DOMException('full', 'QuotaExceededError'));
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    await keeper.flush();
    expect(keeper.kept.get()).toEqual({ kind: 'failed', why: 'full' });
    shelf.update = write;
    await keeper.flush();
    expect((await shelf.read('one'))!.draft).toEqual(store.draft.get());
  });

  test('does not wait for ever for a browser that does not answer', async () => {
    vi.useFakeTimers();
    const shelf = new Lasting();
    const { store, keeper } = await opened(shelf, 'a');
    shelf.update = () => new Promise(() => {});
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    const flushed = keeper.flush();
    await vi.advanceTimersByTimeAsync(10_000);
    await flushed;
    vi.useRealTimers();
    expect(keeper.kept.get()).toEqual({ kind: 'failed', why: 'silent' });
  });

  test('does not write twice what is changed while the database is at work', async () => {
    const list: Json = { ...(draft as object), steps: { fit: { time: 5 } }, options: [] };
    const shelf = new MemoryShelf();
    await shelf.update('one', () => ({ ...record, draft: list }));
    const [a, b] = [await opened(shelf, 'a'), await opened(shelf, 'b')];
    const write = shelf.update.bind(shelf);
    let during = (): void => {};
    shelf.update = (id, change) => {
      during();
      during = () => {};
      return write(id, change);
    };
    a.store.change('first', ['options', 0], { name: 'first' });
    during = () => a.store.change('second', ['options', 1], { name: 'second' });
    await a.keeper.flush();
    b.store.change('named', ['name'], 'ours');
    await b.keeper.flush();
    await a.keeper.flush();
    expect((await shelf.read('one'))!.draft).toMatchObject({
      name: 'ours',
      options: [{ name: 'first' }, { name: 'second' }],
    });
  });
});

describe('the journal of a tab', () => {
  const none = new Set<string>();

  test('stays until what it holds is in the database, what is under way included', async () => {
    const shelf = new Lasting();
    const { store, keeper } = await opened(shelf, 'a');
    const write = shelf.update.bind(shelf);
    let says: string[] = [];
    shelf.update = (id, change) => {
      store.change('named', ['name'], 'ours');
      says = leftJournals(none)[0]!.journal!.entries.map((entry) => entry.say);
      return write(id, change);
    };
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    await keeper.flush();
    expect(says).toEqual(['fit 6', 'named']);
    shelf.update = write;
    await keeper.flush();
    expect(leftJournals(none)).toEqual([]);
  });

  test('is put on top once by the next tab, and taken away when that is stored', async () => {
    const shelf = new Lasting();
    const lost = await opened(shelf, 'a');
    lost.store.change('fit 6', ['steps', 'fit', 'time'], 6);
    lost.store.setTyped(['shift', 'start'], '6 oclok');
    lost.keeper.flush = () => Promise.resolve();
    const left = leftJournals(none);
    const { store, keeper } = await opened(shelf, 'b');
    keeper.take(left);
    expect(store.at(['steps', 'fit', 'time'])).toBe(6);
    expect(leftJournals(new Set(['b']))).toHaveLength(1);
    await keeper.flush();
    expect(leftJournals(none)).toEqual([]);
    keeper.take(left);
    await keeper.flush();
    const kept = (await shelf.read('one'))!;
    expect(kept.typed).toEqual({ 'shift/start': '6 oclok' });
    expect(kept.history.past.map((entry) => entry.say)).toEqual(['fit 6']);
  });

  test('that cannot be stored stays where it is', async () => {
    const shelf = new Lasting();
    const lost = await opened(shelf, 'a');
    lost.store.change('fit 6', ['steps', 'fit', 'time'], 6);
    const { store, keeper } = await opened(shelf, 'b');
    shelf.update = () => Promise.reject(new DOMException('full', 'QuotaExceededError'));
    keeper.take(leftJournals(new Set(['b'])));
    await keeper.flush();
    expect(store.at(['steps', 'fit', 'time'])).toBe(6);
    expect(leftJournals(new Set(['b']))).toHaveLength(1);
  });

  test('holds the whole cell where there is no database, and the next visit has it back', async () => {
    const { store, keeper } = await opened(new MemoryShelf(), 'a');
    store.change('named', ['name'], 'in a private window');
    await keeper.flush();
    expect(keeper.kept.get()).toEqual({ kind: 'held' });
    const shelf = new Lasting();
    await restoreWhole(shelf);
    expect((await shelf.read('one'))!.name).toBe('in a private window');
    expect(leftJournals(none)).toEqual([]);
  });

  test('that was damaged gives what is whole in it, and hides no other', () => {
    localStorage.setItem('clampwright-unsaved:one:x', '{"entries":[{"id":5}],"typed":{"a":"b"}}');
    localStorage.setItem('clampwright-unsaved:one:y', '{"entries":[');
    localStorage.setItem('clampwright-unsaved:one:z', '{"entries":[],"typed":{"c":"d"}}');
    expect(leftJournals(none).map(({ journal, whole }) => [journal?.typed, whole])).toEqual([
      [{ a: 'b' }, false],
      [undefined, false],
      [{ c: 'd' }, true],
    ]);
  });

  test('puts an entry on a record once, however often it comes', () => {
    const store = new CellStore('one', record);
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    const journal = { entries: store.history.get().past, typed: {} };
    const once = withJournal(record, journal).record;
    expect(once.draft).toEqual(store.draft.get());
    expect(withJournal(once, journal).record).toEqual(once);
  });
});

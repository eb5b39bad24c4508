import { describe, expect, test } from 'vitest';
import { CellStore } from '../../web/store/cell-store.ts';
import type { Json } from '../../web/store/draft.ts';
import { EMPTY } from '../../web/store/history.ts';
import { Keeper, withEntries } from '../../web/store/keeper.ts';
import { MemoryShelf, type CellRecord } from '../../web/store/shelf.ts';

const draft: Json = {
  format: 1,
  name: 'cell',
  steps: { fit: { time: 5 } },
  people: { orla: { covers: ['fit'] } },
};
const record: CellRecord = {
  id: 'one',
  name: 'cell',
  draft,
  typed: {},
  history: EMPTY,
  revision: 1,
  changedAt: 0,
  taken: [],
};

async function opened(shelf: MemoryShelf, tab: string): Promise<{ store: CellStore; keeper: Keeper }> {
  const now = (await shelf.read('one')) ?? (await shelf.update('one', () => record));
  const store = new CellStore('one', now);
  return { store, keeper: new Keeper({ store, shelf, tab, revision: now.revision, saved: () => {} }) };
}

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

  test('puts entries that a crash left unsaved on top once, and not a second time', () => {
    const store = new CellStore('one', record);
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    const journal = { entries: store.history.get().past, typed: {} };
    const once = withEntries(record, journal);
    expect(once.draft).toEqual(store.draft.get());
    expect(withEntries(once, journal)).toEqual(once);
  });

  test('says when it cannot write, holds on to the changes, and writes them when it can', async () => {
    const shelf = new MemoryShelf();
    const { store, keeper } = await opened(shelf, 'a');
    const write = shelf.update.bind(shelf);
    shelf.update = () => Promise.reject(new DOMException('full', 'QuotaExceededError'));
    store.change('fit 6', ['steps', 'fit', 'time'], 6);
    await keeper.flush();
    expect(keeper.kept.get()).toEqual({ kind: 'failed', full: true });
    shelf.update = write;
    await keeper.flush();
    expect((await shelf.read('one'))!.draft).toEqual(store.draft.get());
  });
});

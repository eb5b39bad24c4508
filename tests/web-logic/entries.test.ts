import { beforeEach, describe, expect, test, vi } from 'vitest';
import type { KeptEntry, SetAside } from '../../web/store/database.ts';
import { CellStore } from '../../web/store/cell-store.ts';
import { Entries } from '../../web/store/entries.ts';
import { mergeById, onOwnAside, Own, ownThings } from '../../web/store/own.ts';
import { MemoryShelf } from '../../web/store/shelf.ts';
import { bringOlder, joinLog, keepDay, logFor, logText } from '../../web/pages/log/kept.ts';
import { keepTaken, takenFor } from '../../web/pages/times/stopwatch-store.ts';
import { smallStore } from './small-store.ts';

class Lasting extends MemoryShelf {
  override readonly lasting = true as false;
}

const entry = (id: string, note = id): KeptEntry => ({ id, entry: 1, day: '2027-03-05', kind: 'note', note });
const ids = (entries: Entries): string[] => entries.all.get().map(({ id }) => id);

beforeEach(() => {
  vi.stubGlobal('localStorage', smallStore());
  return () => vi.unstubAllGlobals();
});

describe('the entries of a cell’s days', () => {
  test('of two tabs are all there, whoever wrote last', async () => {
    const shelf = new Lasting();
    const [a, b] = [new Entries({ cell: 'one', shelf }), new Entries({ cell: 'one', shelf })];
    await Promise.all([a.add([entry('a')]), b.add([entry('b')]), a.add([entry('c')])]);
    await Promise.all([a.look(), b.look()]);
    expect(ids(a).sort()).toEqual(['a', 'b', 'c']);
    expect(ids(b).sort()).toEqual(['a', 'b', 'c']);
    expect(await new Entries({ cell: 'two', shelf }).look()).toBeUndefined();
    expect(await shelf.entries('two')).toEqual([]);
  });

  test('are written down before they are stored, and taken up by the next visit', async () => {
    const shelf = new Lasting();
    const write = shelf.addEntries.bind(shelf);
    shelf.addEntries = () => Promise.reject(new DOMException('full', 'QuotaExceededError'));
    const first = new Entries({ cell: 'one', shelf });
    expect(await first.add([entry('a')])).toEqual({ kind: 'held' });
    expect(ids(first)).toEqual(['a']);
    shelf.addEntries = write;
    const second = new Entries({ cell: 'one', shelf });
    await second.look();
    expect(await shelf.entries('one')).toEqual([entry('a')]);
    expect(Object.keys(localStorage)).toEqual([]);
  });

  test('that say something else under an id that is there are set aside, not written over', async () => {
    const shelf = new Lasting();
    const entries = new Entries({ cell: 'one', shelf });
    await entries.add([entry('a', 'first')]);
    const told: SetAside[] = [];
    shelf.onAside = (things) => told.push(...things);
    await new Entries({ cell: 'one', shelf }).add([entry('a', 'second')]);
    expect(await shelf.entries('one')).toEqual([entry('a', 'first')]);
    expect(told.map(({ value }) => value)).toEqual([entry('a', 'second')]);
  });
});

describe('the log in the page', () => {
  const opened = async (shelf: MemoryShelf): Promise<CellStore> => {
    const store = CellStore.of('one', { format: 1, name: 'cell' });
    store.entries = new Entries({ cell: 'one', shelf });
    await store.entries.look();
    return store;
  };
  const date = '2027-03-05';

  test('has what each tab said of a day, and a correction holds', async () => {
    const shelf = new Lasting();
    const [a, b] = [await opened(shelf), await opened(shelf)];
    expect(await keepDay(a, { date, good: 20 })).toBe(true);
    expect(await keepDay(b, { date, note: 'kits late' })).toBe(true);
    await Promise.all([a.entries.look(), b.entries.look()]);
    await keepDay(b, { date, good: 21 });
    await keepDay(b, { date, good: 21 });
    await a.entries.look();
    expect(logFor(a).days).toEqual([{ date, good: 21, note: 'kits late' }]);
    expect(a.entries.all.get()).toHaveLength(3);
  });

  test('saved and opened elsewhere is the same log; opened twice adds nothing', async () => {
    const a = await opened(new Lasting());
    await keepDay(a, { date, good: 20, note: 'kits late' });
    const b = await opened(new Lasting());
    expect(await joinLog(b, logText(a))).toEqual({ kind: 'joined', added: 2, unread: [] });
    expect(await joinLog(b, logText(a))).toEqual({ kind: 'joined', added: 0, unread: [] });
    expect(logFor(b).days).toEqual(logFor(a).days);
    expect(await joinLog(b, 'nothing\n')).toEqual({ kind: 'no log' });
  });

  test('takes over what an older version kept, once, and sets aside what it cannot read', async () => {
    const older = { format: 1, cell: 'cell', days: [{ date, good: 20 }, { date: 'some day' }] };
    localStorage.setItem('clampwright-log one', JSON.stringify(older));
    const shelf = new Lasting();
    const store = await opened(shelf);
    await bringOlder(store);
    await bringOlder(store);
    expect(logFor(store).days).toEqual([{ date, good: 20 }]);
    expect((await shelf.aside()).map(({ value }) => value)).toEqual([JSON.stringify(older)]);
    expect(localStorage.getItem('clampwright-log one')).toBeNull();
  });

  test('shows the days it can read where one entry is unknown, and hands that on', async () => {
    const store = await opened(new Lasting());
    await keepDay(store, { date, good: 20 });
    await store.entries.add([{ id: 'later', entry: 9, said: 'of a later version' }]);
    expect(logFor(store).days).toEqual([{ date, good: 20 }]);
    expect(logText(store)).toContain('of a later version');
  });
});

describe('what a page keeps for a cell', () => {
  const numbers = new Own<{ n: number }>({
    key: 'numbers',
    name: 'a number',
    read: (value) =>
      typeof (value as { n?: unknown } | null)?.n === 'number' ? (value as { n: number }) : null,
  });

  test('is there again, cell by cell, and as an older version kept it', () => {
    localStorage.setItem('numbers', JSON.stringify({ old: { n: 1 }, one: { n: 2 } }));
    expect([numbers.get('old'), numbers.get('one'), numbers.get('none')]).toEqual([{ n: 1 }, { n: 2 }, null]);
    numbers.set('one', { n: 3 });
    expect([numbers.get('old'), numbers.get('one')]).toEqual([{ n: 1 }, { n: 3 }]);
  });

  test('is moved aside where it cannot be read, and not written over', () => {
    localStorage.setItem('numbers one', '{"n":');
    localStorage.setItem('numbers', JSON.stringify({ two: 'x' }));
    const told: unknown[] = [];
    onOwnAside((thing) => told.push(thing.value));
    expect(numbers.get('one')).toBeNull();
    expect(numbers.set('two', { n: 5 })).toEqual({ n: 5 });
    expect(numbers.get('one')).toBeNull();
    expect(told).toEqual(['{"n":', '"x"']);
    expect(ownThings().map(({ name }) => name)).toEqual(['a number', 'a number']);
  });

  test('of lists is what either tab put in, without what either took out', () => {
    const of = (text: string): { id: string }[] => [...text].map((id) => ({ id }));
    const merged = (base: string, theirs: string, ours: string): string =>
      mergeById(of(base), of(theirs), of(ours))
        .map(({ id }) => id)
        .join('');
    expect(merged('ab', 'abc', 'abd')).toBe('abcd');
    expect(merged('ab', 'b', 'abd')).toBe('bd');
    expect(merged('ab', 'abc', 'a')).toBe('ac');
    expect(merged('', 'a', 'a')).toBe('a');
  });

  test('with the stopwatch loses no time taken in another tab', () => {
    const piece = (id: string) => ({ id, step: 'fit', product: null, person: null, began: 0 });
    const time = (id: string) => ({ ...piece(id), stopped: 0, stoppedAt: null });
    takenFor('one');
    keepTaken('one', { running: [time('a')], taken: [] });
    // The other tab ends piece a while this one begins piece b on its stale copy.
    const other = { running: [], taken: [{ ...piece('a'), minutes: 5, struck: false }] };
    localStorage.setItem('clampwright-stopwatch one', JSON.stringify(other));
    expect(keepTaken('one', { running: [time('a'), time('b')], taken: [] })).toEqual({
      running: [time('b')],
      taken: other.taken,
    });
  });
});

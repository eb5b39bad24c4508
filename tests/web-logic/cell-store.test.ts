import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { CellStore } from '../../web/store/cell-store.ts';
import type { Json } from '../../web/store/draft.ts';

const demo = JSON.parse(
  readFileSync(new URL('../../scenarios/one-step.json', import.meta.url), 'utf8'),
) as Json;
const step = Object.keys((demo as { steps: Record<string, Json> }).steps)[0]!;
let store: CellStore;
beforeEach(() => {
  vi.useFakeTimers({ now: 0 });
  store = CellStore.of('one', demo);
  return () => vi.useRealTimers();
});

describe('the cell at hand', () => {
  test('begins fine, with nothing to take back', () => {
    expect(store.reading.get().kind).toBe('fine');
    expect([store.canUndo, store.canRedo]).toEqual([false, false]);
  });

  test('keeps a wrong draft, says what is wrong at its place, and still answers from the last that was fine', () => {
    const before = store.scenario.get();
    store.change('no time', ['steps', step, 'time'], 'soon');
    expect(store.at(['steps', step, 'time'])).toBe('soon');
    expect(store.wrongAt(['steps', step, 'time'])).toContain('soon');
    expect(store.wrongAt(['people'])).toBe('');
    expect(store.scenario.get()).toBe(before);
    store.change('a time', ['steps', step, 'time'], 7);
    expect(store.faults).toEqual([]);
    expect(store.scenario.get()!.steps[step]!.time).toBe(7);
  });

  test('takes back and does again, step by step', () => {
    store.change('named', ['name'], 'first');
    vi.setSystemTime(10_000);
    store.change('named again', ['name'], 'second');
    expect(store.undo()).toBe('named again');
    expect(store.name).toBe('first');
    expect(store.undo()).toBe('named');
    expect(store.draft.get()).toEqual(demo);
    expect(store.undo()).toBeNull();
    expect(store.redo()).toBe('named');
    expect(store.name).toBe('first');
    store.change('another way', ['name'], 'third');
    expect(store.canRedo).toBe(false);
  });

  test('takes presses on one stepper in quick succession as one step back', () => {
    for (const [at, value] of [
      [0, 6],
      [400, 7],
      [900, 8],
    ] as const) {
      vi.setSystemTime(at);
      store.change(`time ${value}`, ['steps', step, 'time'], value);
    }
    expect(store.history.get().past).toHaveLength(1);
    store.undo();
    expect(store.draft.get()).toEqual(demo);
  });

  test('changes several places as one step back', () => {
    store.changeMany('renamed and slower', [
      [['name'], 'slow'],
      [['steps', step, 'time'], 99],
    ]);
    store.undo();
    expect(store.draft.get()).toEqual(demo);
  });

  test('hands back text that could not be read, until a value is put there', () => {
    store.setTyped(['steps', step, 'time'], 'abut 12');
    expect(store.typedAt(['steps', step, 'time'])).toBe('abut 12');
    store.change('time 12', ['steps', step, 'time'], 12);
    expect(store.typedAt(['steps', step, 'time'])).toBeNull();
  });

  test('tells what a value would do without keeping it', () => {
    const tried = store.tried(['steps', step, 'time'], 3);
    expect(tried.kind === 'fine' && tried.scenario.steps[step]!.time).toBe(3);
    expect(store.draft.get()).toEqual(demo);
  });
});

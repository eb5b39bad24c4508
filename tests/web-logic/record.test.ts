import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CellStore } from '../../web/store/cell-store.ts';
import type { Json } from '../../web/store/draft.ts';
import { isJson, readRecord, recordOf } from '../../web/store/record.ts';
import { textOf } from '../../web/store/restore.ts';
import { changedAtRandom } from '../support/damage.ts';
import { SHOPS } from '../support/shops.ts';
import { holds as always } from '../support/holds.ts';

const draft: Json = {
  format: 1,
  name: 'cell',
  steps: { fit: { time: 5 } },
  people: { orla: { covers: ['fit'] } },
};

function record(): Record<string, unknown> {
  const store = CellStore.of('one', draft);
  store.change('fit 6', ['steps', 'fit', 'time'], 6);
  store.change('named', ['name'], 'ours');
  store.undo();
  store.setTyped(['shift', 'start'], '6 oclok');
  return structuredClone({ ...recordOf('one', draft), ...store.state }) as unknown as Record<string, unknown>;
}

describe('a kept record', () => {
  test('is read as it was written', () => {
    const whole = record();
    expect(readRecord('one', structuredClone(whole))).toEqual({ kind: 'fine', record: whole, damaged: [] });
  });

  test('without its way back, or with another thing in its place, is the same cell', () => {
    const { history, ...rest } = record();
    expect(readRecord('one', rest)).toMatchObject({ kind: 'fine', record: { draft: rest['draft'] } });
    for (const other of [null, 5, 'x', [], { past: 5 }, { past: [{}], future: [] }]) {
      const reading = readRecord('one', { ...rest, history: other });
      expect(reading).toMatchObject({
        kind: 'fine',
        record: { draft: rest['draft'], history: { past: [], future: [] } },
        damaged: [{ part: 'the way back (undo)', value: other }],
      });
    }
    expect(history).toBeDefined();
  });

  test('keeps what can still be taken back behind a damaged entry', () => {
    const one = record();
    const history = one['history'] as { past: unknown[]; future: unknown[] };
    const reading = readRecord('one', {
      ...one,
      history: { ...history, past: [{ id: 'broken' }, ...history.past] },
    });
    expect(reading).toMatchObject({ record: { history }, damaged: [{ part: 'the way back (undo)' }] });
  });

  test('without a cell in it is said to be none, by the name it had', () => {
    expect(readRecord('one', { ...record(), name: 'ours', draft: 7 })).toEqual({
      kind: 'wrong',
      name: 'ours',
    });
    for (const none of [undefined, null, 5, 'x', []])
      expect(readRecord('one', none)).toEqual({ kind: 'wrong', name: 'a cell without a name' });
  });

  test('with something in its cell that is no JSON keeps the rest of the cell', () => {
    const odd = { ...record(), draft: { ...(draft as object), made: new Date(0), count: 5n } };
    expect(readRecord('one', odd).kind).toBe('wrong');
    const date = { ...record(), draft: { ...(draft as object), made: new Date(0) } };
    expect(readRecord('one', date)).toMatchObject({
      record: { draft: { ...(draft as object), made: '1970-01-01T00:00:00.000Z' } },
      damaged: [{ part: 'the cell as it stood' }],
    });
  });

  test('whatever has become of it, opens as a cell that can be changed and undone, or is set aside', () => {
    for (const name of SHOPS) {
      const file = readFileSync(new URL(`../shops/${name}.json`, import.meta.url), 'utf8');
      const store = CellStore.of('one', JSON.parse(file) as Json);
      store.change('named', ['name'], 'ours');
      store.change('seed', ['seed'], 'x');
      store.undo();
      const whole = { ...recordOf('one', store.draft.get()), ...store.state } as unknown as Json;
      always(
        fc.property(fc.integer({ min: 0, max: 2 ** 31 }), (seed) => {
          const damaged = changedAtRandom(whole, seed);
          const reading = readRecord('one', damaged);
          if (reading.kind === 'wrong') return;
          expect(isJson(reading.record.draft)).toBe(true);
          const again = new CellStore('one', reading.record);
          while (again.canUndo) again.undo();
          while (again.canRedo) again.redo();
          again.change('named', ['name'], 'again');
          expect(again.name).toBe('again');
        }),
        { numRuns: 20, seed: 20261127 },
      );
    }
  });
});

describe('what was set aside', () => {
  const text = (value: unknown): string => textOf({ id: 'x', name: 'x', at: 0, value });

  test('is saved as text that holds everything in it', () => {
    expect(JSON.parse(text(draft))).toEqual(draft);
    expect(text('{"half')).toBe('{"half\n');
    expect(JSON.parse(text({ a: undefined, b: 5n, c: NaN, d: new Map([['e', 1]]) }))).toEqual({
      a: '(nothing)',
      b: '5',
      c: 'NaN',
      d: { map: [['e', 1]] },
    });
  });

  test('even where it goes round in a ring', () => {
    const ring: Record<string, unknown> = { name: 'ring' };
    ring['self'] = { back: ring };
    const twice = { same: 1 };
    expect(JSON.parse(text(ring))).toEqual({ name: 'ring', self: { back: '(as above)' } });
    expect(JSON.parse(text([twice, twice]))).toEqual([twice, twice]);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applied, changeOf, inverse, valueAt, type Json, type Place } from '../../web/store/draft.ts';
import { holds } from '../support/holds.ts';

const cell: Json = {
  name: 'a',
  steps: { fit: { time: 13 }, glue: { time: 8 }, cure: { kind: 'wait', time: 30 } },
  shift: { breaks: [{ from: '08:00', minutes: 10 }] },
};
const keys = (value: Json | undefined): string[] => Object.keys(value as object);

describe('a change of the draft', () => {
  test('puts a value where one stands, and names just that place', () => {
    const change = changeOf(cell, ['steps', 'cure', 'time'], 45)!;
    expect(change).toEqual({ place: ['steps', 'cure', 'time'], before: 30, after: 45 });
    expect(valueAt(applied(cell, change)!, ['steps', 'cure', 'time'])).toBe(45);
  });

  test('adds what is not there yet, with the groups on the way', () => {
    const next = applied(cell, changeOf(cell, ['people', 'orla', 'pay'], 28)!)!;
    expect(valueAt(next, ['people'])).toEqual({ orla: { pay: 28 } });
  });

  test('brings a step that was taken out back to its own place in the order of the work', () => {
    const change = changeOf(cell, ['steps', 'glue'], undefined)!;
    const without = applied(cell, change)!;
    expect(keys(valueAt(without, ['steps']))).toEqual(['fit', 'cure']);
    expect(keys(valueAt(applied(without, inverse(change))!, ['steps']))).toEqual(['fit', 'glue', 'cure']);
  });

  test('adds to the end of a list and takes out of its middle', () => {
    const longer = applied(cell, changeOf(cell, ['shift', 'breaks', 1], { from: '10:00', minutes: 30 })!)!;
    expect(valueAt(longer, ['shift', 'breaks', 1, 'from'])).toBe('10:00');
    const shorter = applied(longer, changeOf(longer, ['shift', 'breaks', 0], undefined)!)!;
    expect(valueAt(shorter, ['shift', 'breaks'])).toEqual([{ from: '10:00', minutes: 30 }]);
  });

  test('is none where the value stands there already, but is one where only the order of names differs', () => {
    expect(changeOf(cell, ['name'], 'a')).toBeNull();
    expect(changeOf(cell, ['nowhere', 'at', 'all'], undefined)).toBeNull();
    expect(changeOf(cell, ['steps', 'cure'], { time: 30, kind: 'wait' })).not.toBeNull();
  });

  test('cannot be applied where its place is no more', () => {
    expect(applied({ name: 'b' }, changeOf(cell, ['steps', 'cure', 'time'], 45)!)).toBeNull();
  });

  test('makes room where a plain value stands in the way, and gives it back', () => {
    const change = changeOf(cell, ['name', 'first'], 'x')!;
    const next = applied(cell, change)!;
    expect(valueAt(next, ['name'])).toEqual({ first: 'x' });
    expect(applied(next, inverse(change))).toEqual(cell);
  });

  test('treats the name __proto__ as a name and nothing else', () => {
    const next = applied(cell, changeOf(cell, ['steps', '__proto__'], { time: 1 })!)!;
    expect(keys(valueAt(next, ['steps']))).toContain('__proto__');
    expect(({} as Record<string, unknown>)['time']).toBeUndefined();
  });

  test('and its inverse leave any draft exactly as it was', () => {
    const names = fc.constantFrom('name', 'steps', 'fit', 'glue', 'shift', 'breaks', 'x');
    const place = fc.array(fc.oneof(names, fc.integer({ min: 0, max: 2 })), { minLength: 1, maxLength: 4 });
    holds(
      fc.property(place, fc.option(fc.jsonValue(), { nil: undefined }), (where, value) => {
        const change = changeOf(cell, where as Place, value as Json | undefined);
        if (change === null) return;
        const next = applied(cell, change)!;
        expect(JSON.stringify(applied(next, inverse(change)))).toBe(JSON.stringify(cell));
      }),
    );
  });
});

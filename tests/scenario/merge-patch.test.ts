import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diffPatch, mergePatch } from '../../src/scenario/merge-patch.ts';
import { holds as always } from '../support/holds.ts';

/** RFC 7396, appendix A, all fifteen: original, patch, result. From memory of the RFC's table. */
const APPENDIX_A: [unknown, unknown, unknown][] = [
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
];

/**
 * JSON without nulls in its groups (a merge patch has no word for them), with few names so that they meet.
 */
const json = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.integer({ min: 0, max: 3 }),
    fc.constantFrom('x', 'y'),
    fc.boolean(),
    fc.array(fc.oneof(fc.constant(null), tie('value')), { maxLength: 3 }),
    fc.dictionary(fc.constantFrom('a', 'b', 'c', '__proto__', 'constructor'), tie('value'), { maxKeys: 4 }),
  ),
})).value;
const group = fc.dictionary(fc.constantFrom('a', 'b', 'c', '__proto__', 'constructor'), json, { maxKeys: 5 });

describe('a merge patch', () => {
  it.each(APPENDIX_A)('makes of %j by %j %j', (original, patch, result) => {
    expect(mergePatch(original, patch)).toEqual(result);
  });

  it('changes nothing it is given', () => {
    always(
      fc.property(json, json, (target, patch) => {
        const before = JSON.stringify([target, patch]);
        mergePatch(target, patch);
        expect(JSON.stringify([target, patch])).toBe(before);
      }),
    );
  });

  it('takes "__proto__" for a name like any other', () => {
    const result = mergePatch({}, JSON.parse('{"__proto__": {"admin": true}}')) as object;
    expect(Object.keys(result)).toEqual(['__proto__']);
    expect(Object.getPrototypeOf(result)).toBe(Object.prototype);
  });
});

describe('the patch between two values', () => {
  it('leads from one to the other', () => {
    always(
      fc.property(group, group, (base, changed) => {
        expect(mergePatch(base, diffPatch(base, changed))).toEqual(changed);
      }),
      { numRuns: 2000 },
    );
  });

  it('is empty between equals, and names only what differs', () => {
    always(
      fc.property(group, (base) => {
        expect(diffPatch(base, JSON.parse(JSON.stringify(base)))).toEqual({});
      }),
    );
    expect(diffPatch({ a: { b: 1, c: 2 }, d: [1] }, { a: { b: 1, c: 3 } })).toEqual({ a: { c: 3 }, d: null });
  });

  it('takes an entry away where null is wanted: the default then holds', () => {
    expect(mergePatch({ rack: 4 }, diffPatch({ rack: 4 }, { rack: null }))).toEqual({});
  });
});

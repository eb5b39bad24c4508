import { describe, expect, test } from 'vitest';
import { gainOf, verdictOf, type Range } from '../../src/study/verdict.ts';

const MATTERS = 0.5;
const ranges: Record<string, Range> = {
  matters: { low: 0.5, high: 1 },
  'does not': { low: -1, high: 0.49 },
  open: { low: 0.49, high: 0.5 },
};
const cases: [string, string, ReturnType<typeof verdictOf>][] = [
  ['matters', 'matters', { kind: 'eases' }],
  ['matters', 'does not', { kind: 'removes' }],
  ['matters', 'open', { kind: 'cannot tell yet', open: 'next' }],
  ['does not', 'matters', { kind: 'was not the constraint' }],
  ['does not', 'does not', { kind: 'was not the constraint' }],
  ['does not', 'open', { kind: 'was not the constraint' }],
  ['open', 'matters', { kind: 'cannot tell yet', open: 'this' }],
  ['open', 'does not', { kind: 'cannot tell yet', open: 'this' }],
  ['open', 'open', { kind: 'cannot tell yet', open: 'this' }],
];

describe('what one more set does', () => {
  test.each(cases)('this gain %s, the next %s', (gain, next, verdict) => {
    expect(verdictOf(ranges[gain]!, ranges[next]!, MATTERS)).toEqual(verdict);
  });

  test('a gain whose least is the difference that matters counts; one whose most is that does not fall short', () => {
    expect(gainOf({ low: 0.5, high: 0.5 }, MATTERS)).toBe('matters');
    expect(gainOf({ low: 0, high: 0.5 }, MATTERS)).toBe('open');
    expect(gainOf({ low: 0, high: 0.4999999 }, MATTERS)).toBe('does not');
    expect(gainOf({ low: 0.4999999, high: 3 }, MATTERS)).toBe('open');
  });

  test('a loss is not the constraint, and a range without an end says nothing', () => {
    expect(verdictOf({ low: -2, high: -1 }, ranges.matters!, MATTERS).kind).toBe('was not the constraint');
    expect(gainOf({ low: -Infinity, high: Infinity }, MATTERS)).toBe('open');
    expect(gainOf({ low: NaN, high: NaN }, MATTERS)).toBe('open');
  });

  test('a difference that matters of nothing is refused', () => {
    expect(() => verdictOf(ranges.open!, ranges.open!, 0)).toThrow(RangeError);
    expect(() => verdictOf(ranges.open!, ranges.open!, NaN)).toThrow(RangeError);
  });
});

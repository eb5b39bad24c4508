import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkingScenario, checkScenario, type CheckMemory, type Reading } from '../../src/scenario/check.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';

const demo = JSON.parse(
  readFileSync(new URL('../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Record<string, unknown>;
const after = (draft: Record<string, unknown>, patch: unknown): Record<string, unknown> => {
  // A merge copies only what it changes on the way: what stays the same is the same object, as in the pages'
  // drafts.
  const merged = mergePatch(draft, patch) as Record<string, unknown>;
  return Object.fromEntries(
    Object.entries(merged).map(([key, value]) => [
      key,
      JSON.stringify(value) === JSON.stringify(draft[key]) ? draft[key] : value,
    ]),
  );
};
const remarksOf = (reading: Reading): number => (reading.kind === 'fine' ? reading.remarks.length : -1);

describe('A check that remembers options found fine', () => {
  const changes: [string, unknown][] = [
    ['an option changed', { options: { 'cold-shop': { changes: { steps: { cure: { time: 44 } } } } } }],
    ['an option made wrong', { options: { 'cold-shop': { changes: { steps: { cure: { time: -1 } } } } } }],
    ['an option renamed', { options: { 'cold-shop': { name: 'Winter' } } }],
    ['the cell changed', { steps: { fit: { time: { mean: 14 } } } }],
    ['a step taken away that options name', { gear: { clamp: null, jig: { count: 2 } } }],
    ['the cell made into what an option makes of it', { gear: { clamp: { count: 3 } } }],
    ['an option that changes nothing', { options: { idle: { changes: { shift: { target: 22 } } } } }],
    ['shifts that follow', { nextShifts: [{ changes: { shift: { target: 20 } } }] }],
  ];

  test.each(changes)('says the same as one that does not: %s, and back again', (_, patch) => {
    const memory: CheckMemory = new WeakMap();
    for (const draft of [demo, after(demo, patch), demo])
      expect(checkScenario(draft, memory)).toEqual(checkScenario(draft));
  });

  test('finds the cell made into an option by looking at that option again', () => {
    const memory: CheckMemory = new WeakMap();
    const before = remarksOf(checkScenario(demo, memory));
    expect(remarksOf(checkScenario(after(demo, { gear: { clamp: { count: 3 } } }), memory))).toBe(before + 1);
  });

  test('takes a step for each option, and none for those it knows', () => {
    const memory: CheckMemory = new WeakMap();
    const steps = (draft: unknown): number => {
      let count = 0;
      for (const run = checkingScenario(draft, memory); run.next().done !== true;) count += 1;
      return count;
    };
    const whole = steps(demo);
    expect(whole - steps(demo)).toBe(Object.keys(demo['options'] as object).length);
    const changed = {
      ...demo,
      options: {
        ...(demo['options'] as object),
        'cold-shop': { name: 'x', changes: { steps: { cure: { time: 40 } } } },
      },
    };
    expect(steps(changed)).toBe(whole - Object.keys(demo['options'] as object).length + 1);
  });
});

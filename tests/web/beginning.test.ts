/**
 * What a new cell begins as, when the list of what to put in stands there, and the cell's own times while
 * none was taken.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { isYoung } from '../../web/pages/cell/begin.ts';
import { ownTimes } from '../../web/pages/times/own-times.ts';
import { NEW_CELL, newCell } from '../../web/shell/new-cell.ts';
import type { Json } from '../../web/store/draft.ts';
import { ROOT } from './support.ts';

const file = (name: string): Json =>
  JSON.parse(readFileSync(join(ROOT, 'scenarios', `${name}.json`), 'utf8')) as Json;
const scenario = (draft: Json): Scenario => {
  const reading = checkScenario(draft);
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join(' '));
  return reading.scenario;
};

describe('a new cell', () => {
  const made = scenario(newCell(file('one-step')));

  test('runs, is nobody’s yet, and does not call what is put in invented', () => {
    expect(made.name).toBe(NEW_CELL);
    expect(made.invented).toBeUndefined();
    expect(made.about).toBeUndefined();
  });

  test('has its one time as people say it', () => {
    expect(Object.values(made.steps).map(({ time }) => time)).toEqual([{ quick: 9, usual: 12, slow: 16 }]);
  });

  test('shows the list of what to put in until the day is said, however many steps there are', () => {
    expect(isYoung(made)).toBe(true);
    const many = { ...made, steps: { a: { time: 1 }, b: { time: 1 }, c: { time: 1 } } };
    expect(isYoung(many)).toBe(true);
    expect(isYoung({ ...many, shift: { target: 20 } })).toBe(true);
    expect(isYoung({ ...many, shift: { target: 20 }, intake: { kind: 'at start', units: 20 } })).toBe(false);
    expect(isYoung(scenario(file('chair-works')))).toBe(false);
  });
});

test('the times the cell uses now: each step of hands, products’ own and repeat visits by themselves, no cure', () => {
  const table = ownTimes(scenario(file('chair-works'))).find((block) => block.kind === 'table');
  if (table?.kind !== 'table') throw new Error('no table');
  const means = Object.fromEntries(table.rows.map(([name, mean]) => [name, mean]));
  expect(means).toMatchObject({
    'stage the parts': '4.0',
    fit: '14.5',
    'fit, bent-backed chair': '21.0',
    sand: '24.0',
    'sand, again': '9.0',
    'clean, again': '4.0',
  });
  expect(Object.keys(means)).not.toContain('cure');
});

/**
 * What a new cell begins as and when the list of what to put in stands there; the sheet of people by posts;
 * the cell's own times while none was taken.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { restOfDay } from '../../web/pages/cell/moved-day.ts';
import { isYoung, missingWords } from '../../web/pages/cell/young.ts';
import { benchesAlike, levelOf, tapChoice, tapSkill, withPlace } from '../../web/pages/cell/sheet-edits.ts';
import { CellStore } from '../../web/store/cell-store.ts';
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
  const made = newCell() as unknown as Scenario;

  test('is nobody’s yet, has nobody in it, and does not call what is put in invented', () => {
    expect(made.name).toBe(NEW_CELL);
    expect(made.invented).toBeUndefined();
    expect(missingWords(made)).toBe('Still to say: who works here.');
    expect(checkScenario(made).kind).toBe('wrong');
  });

  test('has what to put in on its page until nothing is missing, and its name and times are its own', () => {
    expect(isYoung(made)).toBe(true);
    const posts = Object.keys(made.steps).filter((id) => made.steps[id]!.kind !== 'wait');
    const manned = { ...made, name: 'Ours', people: { ada: { covers: posts } } };
    expect(isYoung(manned)).toBe(true);
    const timed = Object.fromEntries(
      Object.entries(manned.steps).map(([id, { timesFrom: _guess, ...step }]) => [id, step]),
    );
    expect(isYoung({ ...manned, steps: timed })).toBe(false);
    expect(isYoung({ ...manned, steps: timed, name: NEW_CELL })).toBe(true);
    expect(isYoung(scenario(file('chair-works')))).toBe(false);
  });
});

describe('the sheet of people by posts', () => {
  const store = (): CellStore =>
    CellStore.of('sheet', {
      format: 1,
      name: 'Sheet',
      steps: { fit: { time: 10 }, glue: { time: 5 }, sand: { time: 8 } },
      people: { ada: { covers: ['fit'] }, ben: { covers: ['sand', 'fit'], skills: { sand: 4, fit: 2 } } },
    });
  const of = (one: CellStore): Scenario => one.draft.get() as unknown as Scenario;

  test('adds a choice by a tap, later steps first, and a level where levels are written down', () => {
    const one = store();
    tapChoice(one, of(one), 'ada', 'sand');
    expect(of(one).people['ada']).toEqual({ covers: ['sand', 'fit'] });
    tapChoice(one, of(one), 'ben', 'glue');
    expect(of(one).people['ben']).toEqual({
      covers: ['sand', 'glue', 'fit'],
      skills: { sand: 4, fit: 2, glue: 3 },
    });
    tapChoice(one, of(one), 'ada', 'fit');
    expect(of(one).people['ada']!.covers).toEqual(['sand']);
    one.undo();
    expect(of(one).people['ada']!.covers).toEqual(['sand', 'fit']);
  });

  test('puts a post at the place that is typed, and takes it out with 0', () => {
    const one = store();
    withPlace(one, of(one), 'ben', 'fit', 1);
    expect(of(one).people['ben']!.covers).toEqual(['fit', 'sand']);
    withPlace(one, of(one), 'ben', 'glue', 9);
    expect(of(one).people['ben']!.covers).toEqual(['fit', 'sand', 'glue']);
    withPlace(one, of(one), 'ben', 'fit', 0);
    expect(of(one).people['ben']!.covers).toEqual(['sand', 'glue']);
  });

  test('writes levels down with the first that differs, and never says somebody cannot where they stand', () => {
    const one = store();
    expect(levelOf(of(one), 'ada', 'fit')).toBe(3);
    tapSkill(one, of(one), 'ada', 'fit');
    expect(of(one).people['ada']!.skills).toEqual({ fit: 4 });
    tapSkill(one, of(one), 'ada', 'fit');
    expect(of(one).people['ada']!.skills).toEqual({ fit: 1 });
    tapSkill(one, of(one), 'ada', 'glue');
    expect(of(one).people['ada']!.skills).toEqual({ fit: 1, glue: 1 });
  });

  test('asks for benches where more stand first than there are', () => {
    const one = store();
    expect(benchesAlike(of(one))).toEqual([]);
    withPlace(one, of(one), 'ada', 'sand', 1);
    expect(benchesAlike(of(one))).toEqual([{ post: 'sand', people: 2 }]);
  });
});

test('the rest of the day moves with its start: clock times alone, over midnight, and nothing people wrote', () => {
  const draft = {
    name: '08:00',
    shift: { start: '07:00', end: '14:30', breaks: [{ from: '23:45', minutes: 10, name: '10:00' }] },
    people: { ada: { away: [{ from: '09:00', to: '10:00' }], covers: ['fit'] } },
    steps: { fit: { time: 5 } },
  };
  expect(restOfDay(draft, 60)).toEqual([
    [['shift'], { start: '07:00', end: '15:30', breaks: [{ from: '00:45', minutes: 10, name: '10:00' }] }],
    [['people'], { ada: { away: [{ from: '10:00', to: '11:00' }], covers: ['fit'] } }],
  ]);
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

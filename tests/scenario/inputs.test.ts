/** What is taken to be known of each input of a shift. */
import { expect, test } from 'vitest';
import chairWorks from '../../scenarios/chair-works.json';
import { inputsOf } from '../../src/scenario/inputs.ts';
import { scenarioSchema, type Scenario } from '../../src/scenario/schema.ts';

const demo: Scenario = scenarioSchema.parse(chairWorks);
const idsOf = (scenario: Scenario): string[] => inputsOf(scenario).map(({ id }) => id);
const one = (scenario: Scenario, id: string) => inputsOf(scenario).find((input) => input.id === id)?.known;
const step = (id: string, change: Partial<Scenario['steps'][string]>): Scenario => ({
  ...demo,
  steps: { ...demo.steps, [id]: { ...demo.steps[id]!, ...change } },
});

test('every time that varies and every share is uncertain, a cure that is always the same is not', () => {
  expect(idsOf(demo)).toEqual([
    'time:stage',
    'time:fit',
    'time:fit:bent',
    'rework:fit:0',
    'time:glue',
    'time:unclamp',
    'time:clean',
    'time:clean:again',
    'time:sand',
    'time:sand:again',
    'time:check',
    'rework:check:0',
    'rework:check:1',
    'scrap:check',
  ]);
});

test('from memory: ten per cent, a share as over a hundred pieces; the file may say otherwise for all', () => {
  expect(one(demo, 'time:glue')).toEqual({ kind: 'within', share: 0.1, assumed: true });
  expect(one(demo, 'rework:check:0')).toEqual({ kind: 'counted', share: 0.08, of: 100, assumed: true });
  const other = { ...demo, study: { memory: 20, counted: 50 } };
  expect(one(other, 'time:glue')).toEqual({ kind: 'within', share: 0.2, assumed: true });
  expect(one(other, 'scrap:check')).toMatchObject({ of: 50 });
  expect(inputsOf({ ...demo, study: { timesKnown: true } })).toEqual([]);
});

test('what is written beside a time or a share counts', () => {
  expect(one(step('glue', { known: { time: 'exact' } }), 'time:glue')).toBeUndefined();
  expect(one(step('glue', { known: { time: { within: 5 } } }), 'time:glue')).toMatchObject({ share: 0.05 });
  expect(one(step('glue', { known: { time: { times: 25, spread: 2 } } }), 'time:glue')).toEqual({
    kind: 'times',
    count: 25,
    mean: null,
    spread: 2,
    mind: null,
  });
  expect(one(step('cure', { known: { time: { within: 3 } } }), 'time:cure')).toMatchObject({ share: 0.03 });
  const rework = [{ to: 'fit', percent: 5, known: { of: 400 } }];
  expect(one(step('fit', { rework }), 'rework:fit:0')).toMatchObject({ of: 400, assumed: false });
});

test('observed times are their own sample, with their mean and standard deviation', () => {
  const known = one(step('glue', { time: { curve: 'observed', values: [8, 10, 12, 10] } }), 'time:glue');
  expect(known).toMatchObject({ kind: 'times', count: 4, mean: 10 });
  expect((known as { spread: number }).spread).toBeCloseTo(Math.sqrt(8 / 3), 12);
});

test('times nobody uses are left out, and attendance between never and always is in', () => {
  const products = { only: { times: { fit: { mean: 10, cv: 0.2 } } } };
  expect(idsOf({ ...demo, products })).not.toContain('time:fit');
  expect(idsOf({ ...demo, products: { all: { skips: ['clean'] } } })).not.toContain('time:clean');
  const people = { ...demo.people, kofi: { ...demo.people['kofi']!, attendance: { percent: 97 } } };
  expect(one({ ...demo, people }, 'attendance:kofi')).toMatchObject({ kind: 'counted', share: 0.97 });
});

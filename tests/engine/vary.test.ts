/** Inputs set to a multiple of what the file has: the same runs as a file that has them so. */
import { expect, test } from 'vitest';
import chairWorks from '../../scenarios/chair-works.json';
import { runJob } from '../../src/record/job.ts';
import type { InputPlace } from '../../src/scenario/inputs.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { scenarioSchema, type Scenario } from '../../src/scenario/schema.ts';

const demo: Scenario = scenarioSchema.parse(chairWorks);
const FIRST = 20;

const rowsOf = (scenario: Scenario): Float64Array =>
  runJob({ shifts: shiftsOf(scenario), from: 0, count: FIRST }).rows[0]!;

function variedRows(place: InputPlace, factor: number): Float64Array {
  const shifts = shiftsOf(demo);
  const factors = new Float64Array(FIRST).fill(factor);
  return runJob({ shifts, from: 0, count: FIRST, varied: { places: [place], factors } }).rows[0]!;
}

const step = (id: string, change: Partial<Scenario['steps'][string]>): Scenario => ({
  ...demo,
  steps: { ...demo.steps, [id]: { ...demo.steps[id]!, ...change } },
});

// Twice as long, to the bit: a power of two rounds nothing.
test('the time of a step', () => {
  const shifts = shiftsOf(step('stage', { time: 4 }));
  const factors = new Float64Array(FIRST).fill(2);
  const places: InputPlace[] = [{ kind: 'time', step: 'stage', product: null, repeat: false }];
  const { rows } = runJob({ shifts, from: 0, count: FIRST, varied: { places, factors } });
  expect(rows[0]).toEqual(rowsOf(step('stage', { time: 8 })));
  expect(rows[0]).not.toEqual(rowsOf(step('stage', { time: 4 })));
});

test('a repeat visit has its own time; a product has its own', () => {
  const again = { kind: 'time', step: 'sand', product: null, repeat: true } as const;
  expect(variedRows(again, 2)).toEqual(rowsOf(step('sand', { repeatTime: { mean: 18, cv: 0.3 } })));
  const bent = { kind: 'time', step: 'fit', product: 'bent', repeat: false } as const;
  const products = {
    ...demo.products,
    bent: { ...demo.products!['bent']!, times: { fit: { mean: 42, cv: 0.35 } } },
  };
  expect(variedRows(bent, 2)).toEqual(rowsOf({ ...demo, products }));
});

test('a share by its odds: 5 % to 10 % is odds times 19/9', () => {
  const place = { kind: 'rework', step: 'fit', branch: 0 } as const;
  const changed = step('fit', { rework: [{ to: 'fit', percent: 10, cause: 'gap' }] });
  expect(variedRows(place, 19 / 9)).toEqual(rowsOf(changed));
  const scrap = { kind: 'scrap', step: 'check' } as const;
  expect(variedRows(scrap, 99 / 49)).toEqual(rowsOf(step('check', { scrap: 2 })));
});

test('a run after it is as if nothing had been varied, and a place the cell does not have changes nothing', () => {
  const before = rowsOf(demo);
  expect(variedRows({ kind: 'scrap', step: 'check' }, 50)).not.toEqual(before);
  expect(rowsOf(demo)).toEqual(before);
  expect(variedRows({ kind: 'attendance', person: 'nobody' }, 3)).toEqual(before);
});

/** How the shifts of a day combine, measure by measure, worked out by hand. */
import { describe, expect, test } from 'vitest';
import { runJob } from '../../src/record/job.ts';
import { combineShifts, perShift } from '../../src/record/day.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { SCALARS, scalarAt, type Scalar } from '../../src/record/report.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { addCaseRows, createCaseRecord, scalarsOf } from '../../src/study/case-record.ts';
import { SHOPS, shop } from '../support/shops.ts';

/** The day of shifts that say this, and 0 of all else. */
function dayOf(...shifts: Partial<Record<Scalar, number>>[]): (name: Scalar) => number {
  const rows = shifts.map((said) => Float64Array.from(SCALARS, (name) => said[name] ?? 0));
  const day = new Float64Array(SCALARS.length).fill(-1);
  combineShifts(
    rows,
    rows.map(() => 0),
    day,
    0,
  );
  return (name) => day[SCALARS.indexOf(name)]!;
}

describe('the day of several shifts', () => {
  test('counts, minutes and money add up; a shift has its share of them', () => {
    const day = dayOf({ good: 20, cost: 800, overtime: 30 }, { good: 10, cost: 500 });
    expect([day('good'), day('cost'), day('overtime')]).toEqual([30, 1300, 30]);
    expect(perShift(SCALARS.indexOf('good'), 30, 2)).toBe(15);
    expect(perShift(SCALARS.indexOf('outsideMost'), 7, 2)).toBe(7);
  });

  test('the most is the most of any shift, what is left is what the last leaves', () => {
    const day = dayOf({ outsideMost: 7, inside: 5, outside: 2 }, { outsideMost: 4, inside: 3 });
    expect([day('outsideMost'), day('inside'), day('outside')]).toEqual([7, 3, 0]);
  });

  test('means count each shift by what they are means of; a shift without any does not count', () => {
    const day = dayOf(
      { good: 30, scrap: 2, leadMean: 100, firstPassYield: 0.75, length: 400, outsideMean: 1 },
      { good: 10, scrap: 6, leadMean: 200, firstPassYield: 0.25, length: 100, outsideMean: 6 },
      { good: 0, scrap: 0, leadMean: NaN, firstPassYield: NaN, length: 500, outsideMean: 0 },
    );
    expect(day('leadMean')).toBe(125);
    expect(day('firstPassYield')).toBeCloseTo((32 * 0.75 + 16 * 0.25) / 48, 12);
    expect(day('outsideMean')).toBe(1);
    expect(day('rackFill')).toBeNaN();
  });

  test('the target is met where every shift meets it, and unknown without one; costs are over all good units', () => {
    expect(dayOf({ targetMet: 1 }, { targetMet: 0 })('targetMet')).toBe(0);
    expect(dayOf({ targetMet: 1 }, { targetMet: 1 })('targetMet')).toBe(1);
    expect(dayOf({ targetMet: 1 }, { targetMet: NaN })('targetMet')).toBeNaN();
    expect(dayOf({ good: 20, cost: 800 }, { good: 5, cost: 400 })('costPerGood')).toBe(48);
    expect(dayOf({ cost: 800 }, { cost: 400 })('costPerGood')).toBeNaN();
  });

  test('one shift is its day', () => {
    const said = Object.fromEntries(SCALARS.map((name, i) => [name, i + 0.5]));
    const day = dayOf(said);
    expect(SCALARS.map(day)).toEqual(SCALARS.map((_, i) => i + 0.5));
  });
});

test('pieces outside: the most over two shifts is the larger, not both added', () => {
  const cell = {
    format: 1,
    name: 'outside',
    shift: { start: '06:00', end: '07:00', atEnd: 'put down' },
    // A rack of 1 before a step that outlasts the shift: of six pieces five find it taken, one of them moves
    // up when the first is started; three more come to the four.
    steps: { work: { time: { mean: 600, cv: 0 }, rack: 1 } },
    people: { ana: { covers: ['work'] } },
    intake: { kind: 'at start', units: 6 },
    nextShifts: [{ changes: { intake: { units: 3 } } }],
  };
  const reading = checkScenario(cell);
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  const shifts = shiftsOf(reading.scenario);
  const record = createCaseRecord(shifts);
  addCaseRows(record, [runJob({ shifts, from: 0, count: 1 })]);
  const layout = layoutOfShift(shifts[0]!);
  const { rows } = runJob({ shifts, from: 0, count: 1 });
  expect(rows.map((row) => row[scalarAt(layout, 'outsideMost')])).toEqual([5, 7]);
  expect([...scalarsOf(record, SCALARS.indexOf('outsideMost'))]).toEqual([7]);
});

test.each(SHOPS)('%s: a day lies within its shifts, measure by measure', (name) => {
  const shifts = shiftsOf(shop(name));
  const count = 20;
  const { rows } = runJob({ shifts, from: 0, count });
  const record = createCaseRecord(shifts);
  addCaseRows(record, [{ from: 0, count, rows }]);
  SCALARS.forEach((scalar, i) => {
    const day = scalarsOf(record, i);
    for (let r = 0; r < count; r++) {
      const own = shifts.map((shift, k) => {
        const layout = layoutOfShift(shift);
        return rows[k]![r * layout.size + scalarAt(layout, scalar)]!;
      });
      const known = own.filter((value) => !Number.isNaN(value));
      // What one shift lacks, the day may lack; and the cost of a shift without good units is the day's too.
      if (known.length < own.length && (Number.isNaN(day[r]!) || scalar === 'costPerGood')) continue;
      const shared = perShift(i, day[r]!, shifts.length);
      expect(shared, scalar).toBeGreaterThanOrEqual(Math.min(...known) - 1e-9);
      expect(shared, scalar).toBeLessThanOrEqual(Math.max(...known) + 1e-9);
    }
  });
});

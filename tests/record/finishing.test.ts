/** Overtime apart: the piece in hand at one's own end, and what was planned; worked out by hand. */
import { describe, expect, test } from 'vitest';
import { runJob } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { scalarAt } from '../../src/record/report.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { shiftsOfSketch, type Sketch } from '../support/event-table.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

/** Fay fits in 10, from 5 on; Sue sands in 25, 06:00 to 07:00: 15 to 40, 40 to 65, and two more of 25. */
function overtimeOf(
  more: NonNullable<Sketch['shift']>,
  sue: Partial<Sketch['people'][string]> = {},
): { finishing: number; planned: number; each: number[] } {
  const shifts = shiftsOfSketch({
    steps: { fit: { time: 10 }, sand: { time: 25 } },
    people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'], ...sue } },
    intake: { kind: 'list', arrivals: [{ at: '06:05', units: 4 }] },
    shift: { end: '07:00', ...more },
  });
  const layout = layoutOfShift(shifts[0]!);
  const row = runJob({ shifts, from: 0, count: 1 }).rows[0]!;
  return {
    finishing: row[scalarAt(layout, 'finishing')]!,
    planned: row[scalarAt(layout, 'plannedOvertime')]!,
    each: [...row.subarray(layout.at.personFinishing, layout.at.personFinishing + 2)],
  };
}

describe('overtime', () => {
  test('without any planned, the piece in hand is finished from 60 to 65', () => {
    expect(overtimeOf({})).toEqual({ finishing: 5, planned: 0, each: [0, 5] });
  });

  test('planned until the cell is empty: the same 5, then 65 to 90 and 90 to 115 are planned', () => {
    const overtime = { until: 'empty', cap: 60 } as const;
    expect(overtimeOf({ overtime })).toEqual({ finishing: 5, planned: 50, each: [0, 5] });
  });

  test('tidying up after the last piece is planned too', () => {
    const overtime = { until: 'empty', cap: 90 } as const;
    expect(overtimeOf({ overtime, tidyUp: 7 })).toEqual({ finishing: 5, planned: 57, each: [0, 5] });
  });

  test('a piece put down at the end is none', () => {
    expect(overtimeOf({ atEnd: 'put down' })).toEqual({ finishing: 0, planned: 0, each: [0, 0] });
  });

  test('of somebody who ends earlier it counts from their own end', () => {
    // Sanding from 40 to 65 past an end at 50.
    expect(overtimeOf({}, { to: '06:50' })).toMatchObject({ finishing: 15, planned: 0 });
  });
});

test.each([...SHOPS, 'chair-works', 'door-works'] as const)(
  'at %s the parts are never more than the whole, and who is not asked has nothing planned',
  (name) => {
    const shifts = shiftsOf(name === 'chair-works' || name === 'door-works' ? shipped(name) : shop(name));
    const job = runJob({ shifts, from: 0, count: 40 });
    for (const [at, shift] of shifts.entries()) {
      const layout = layoutOfShift(shift);
      for (let r = 0; r < 40; r++) {
        const value = (place: number): number => job.rows[at]![r * layout.size + place]!;
        const [all, finishing, planned] = (['overtime', 'finishing', 'plannedOvertime'] as const).map((one) =>
          value(scalarAt(layout, one)),
        );
        expect(finishing).toBeGreaterThanOrEqual(0);
        expect(finishing! + planned!).toBeCloseTo(all!, 6);
        if (shift.overtime.until === 'none') expect(planned).toBeLessThan(1e-6);
        const each = shift.people.map((_, person) => value(layout.at.personFinishing + person));
        expect(each.reduce((sum, one) => sum + one, 0)).toBeCloseTo(finishing!, 6);
      }
    }
  },
);

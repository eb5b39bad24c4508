import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyPay, weekPay } from '../../src/money/pay.ts';
import { Week, type PaidShift } from '../../src/money/week.ts';
import { runJob } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { resolvePay } from '../../src/scenario/pay.ts';
import { holds } from '../support/holds.ts';

const SEED = 20_261_127;
const rules = resolvePay({ pay: { dailyAfter: 8, doubleAfter: 12, seventhDay: true } });
const ana = { id: 'ana', pay: 20, hoursThisWeek: 0, daysThisWeek: 0 };
const shiftOf = (day: number, person = ana, hour = 6): PaidShift => ({
  start: `${String(hour).padStart(2, '0')}:00`,
  startsAfter: day * 1440 + (hour - 6) * 60,
  people: [person],
  pay: rules,
});

/** What each shift costs, hours of it given. */
function paid(shifts: PaidShift[], hours: number[], week = new Week(shifts)): number[] {
  week.begin();
  return shifts.map(
    (_, i) => week.pay(i, 0, { within: hours[i]! * 60, elsewhere: 0, after: 0 }, emptyPay()).total,
  );
}

describe('pay from shift to shift', () => {
  test('two shifts of one day are one day: its ninth hour is overtime, its thirteenth double', () => {
    expect(paid([shiftOf(0), shiftOf(0, ana, 14)], [8, 6])).toEqual([160, 4 * 30 + 2 * 40]);
    expect(paid([shiftOf(0), shiftOf(1)], [8, 6])).toEqual([160, 120]);
  });

  test('the second shift of a day pays its own minutes, those after its end too', () => {
    const week = new Week([shiftOf(0), shiftOf(0, ana, 14)]);
    week.begin();
    week.pay(0, 0, { within: 120, elsewhere: 0, after: 30 }, emptyPay());
    const second = week.pay(1, 0, { within: 240, elsewhere: 15, after: 60 }, emptyPay());
    expect([second.minutes, second.straight, second.total]).toEqual([300, 100, 100]);
  });

  test('the minutes after its end bring the first shift of a day nearer to overtime in the second', () => {
    const week = new Week([shiftOf(0), shiftOf(0, ana, 14)]);
    week.begin();
    week.pay(0, 0, { within: 420, elsewhere: 0, after: 60 }, emptyPay());
    expect(week.pay(1, 0, { within: 120, elsewhere: 0, after: 0 }, emptyPay()).total).toBe(60);
  });

  test('a new week begins with no hours and no days: forty hours, and six days in a row, are plain', () => {
    const days = (last: number): PaidShift[] =>
      [0, ...Array.from({ length: last - 6 }, (_, i) => 7 + i)].map((day) => shiftOf(day));
    expect(paid(days(11), [8, 8, 8, 8, 8, 8])).toEqual(Array(6).fill(160));
    expect(paid(days(12), [5, 5, 5, 5, 5, 5, 5])).toEqual(Array(7).fill(100));
  });

  test('a week begins anew after seven days, counted from the days already worked', () => {
    // Five days and 40 hours before a Saturday: Saturday and Sunday are over the forty, Monday is not.
    const old = { ...ana, hoursThisWeek: 40, daysThisWeek: 5 };
    expect(
      paid(
        [0, 1, 2].map((day) => shiftOf(day, old)),
        [4, 4, 4],
      ),
    ).toEqual([120, 120, 80]);
  });

  test('the seventh day in a row is one only where none was off', () => {
    const row = (days: number[]): number =>
      paid(
        days.map((day) => shiftOf(day)),
        days.map(() => 5),
      ).at(-1)!;
    expect(row([0, 1, 2, 3, 4, 5, 6])).toBe(5 * 30);
    expect(row([0, 1, 2, 4, 5, 6])).toBe(5 * 20);
  });

  test('other hours said for a later shift hold from there', () => {
    const anew = { ...ana, hoursThisWeek: 38 };
    expect(paid([shiftOf(0), shiftOf(1, anew), shiftOf(2, anew)], [8, 4, 1])).toEqual([
      160,
      2 * 20 + 2 * 30,
      30,
    ]);
  });

  test('begins every replication as the file says', () => {
    const shifts = [0, 1, 2, 3, 4, 5].map((day) => shiftOf(day));
    const week = new Week(shifts);
    const once = paid(shifts, [8, 8, 8, 8, 8, 8], week);
    expect(paid(shifts, [8, 8, 8, 8, 8, 8], week)).toEqual(once);
    expect(once.at(-1)).toBe(240);
  });

  test('the shifts of a week add up to the pay of the week, two of a day or not', () => {
    const lengths = fc.array(fc.tuple(fc.integer({ min: 0, max: 7 }), fc.integer({ min: 0, max: 7 })), {
      minLength: 1,
      maxLength: 7,
    });
    holds(
      fc.property(lengths, (days) => {
        const shifts = days.flatMap((_, day) => [shiftOf(day), shiftOf(day, ana, 14)]);
        const total = paid(shifts, days.flat()).reduce((sum, one) => sum + one, 0);
        const slip = weekPay(
          { days: days.map(([a, b]) => ({ work: [{ minutes: (a + b) * 60, rate: 20 }] })) },
          rules,
        );
        expect(Math.abs(total - slip.total)).toBeLessThan(0.00501);
      }),
      { seed: SEED },
    );
  });
});

test('pay of a run does not hang on the runs before it', () => {
  // Who comes is chance, so every run has worked other hours by its last day.
  const reading = checkScenario({
    format: 1,
    name: 'a week of chance',
    shift: { start: '06:00', end: '16:00' },
    steps: { work: { time: { mean: 10, cv: 0 } } },
    people: { ana: { covers: ['work'], pay: 20, attendance: { percent: 70 } } },
    intake: { kind: 'at start', units: 0 },
    nextShifts: [1, 2, 3, 4, 5].map((days) => ({ days })),
  });
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  const shifts = shiftsOf(reading.scenario);
  const { size, at } = layoutOfShift(shifts[5]!);
  const together = runJob({ shifts, from: 0, count: 40 }).rows[5]!;
  const last = Array.from({ length: 40 }, (_, r) => together[r * size + at.personCost]!);
  const alone = Array.from(
    { length: 40 },
    (_, r) => runJob({ shifts, from: r, count: 1 }).rows[5]![at.personCost]!,
  );
  expect(last).toEqual(alone);
  // Ten hours on the sixth day: absent, at the plain rate, or over the forty in part or in full.
  expect(new Set(last)).toEqual(new Set([0, 200, 300]));
});

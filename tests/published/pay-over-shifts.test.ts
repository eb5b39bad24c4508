/**
 * Pay of weeks that are run, shift after shift, to the cent. A shift's cost is not rounded; the week of a
 * person is, once.
 */
import { describe, expect, test } from 'vitest';
import { toCent, weekPay } from '../../src/money/pay.ts';
import { runJob } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { clockOfMinutes } from '../../src/scenario/clock.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { resolvePay } from '../../src/scenario/pay.ts';

const FEDERAL = { dailyAfter: null };
const CALIFORNIA = { dailyAfter: 8, doubleAfter: 12, seventhDay: true };

/** The cost of each shift of one person, by day from 0; a day of 0 hours has no shift. */
function costs(
  hours: number[],
  pay: number,
  rules: object,
  person: object = {},
): { day: number; cost: number }[] {
  const days = hours.flatMap((count, day) =>
    count === 0 ? [] : [{ day, end: clockOfMinutes(360 + 60 * count) }],
  );
  const [first, ...following] = days;
  const reading = checkScenario({
    format: 1,
    name: 'a week',
    shift: { start: '06:00', end: first!.end },
    steps: { work: { time: { mean: 10, cv: 0 } } },
    people: { ana: { covers: ['work'], pay, ...person } },
    intake: { kind: 'at start', units: 0 },
    pay: rules,
    nextShifts: following.map(({ day, end }) => ({ days: day, changes: { shift: { end } } })),
  });
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  const shifts = shiftsOf(reading.scenario);
  const { rows } = runJob({ shifts, from: 0, count: 1 });
  return shifts.map((shift, i) => ({
    day: days[i]!.day,
    cost: rows[i]![layoutOfShift(shift).at.personCost]!,
  }));
}

const week = (...[hours, pay, rules, person]: Parameters<typeof costs>): number =>
  toCent(costs(hours, pay, rules, person).reduce((sum, { cost }) => sum + cost, 0));

describe('weeks run as shifts that follow each other', () => {
  // Worked out by hand from 29 CFR 778 and California Labor Code 510, but where a source is named.
  test.each([
    ['six days of eight hours', 20, [8, 8, 8, 8, 8, 8], 1040, 1040],
    ['five days of nine hours', 20, [9, 9, 9, 9, 9], 950, 950],
    ['four days of ten hours and one of eight', 20, [10, 10, 10, 10, 8], 1040, 1040],
    // The Californian figure is a published example, read there.
    ['days of 10 8 13 8 8 hours', 25, [10, 8, 13, 8, 8], 1262.5, 1275],
    // Hours paid as overtime by the day do not count to the forty; no seventh day, as one was off.
    ['days of 8 9 8.5 12.5 0 8 8 hours', 22.5, [8, 9, 8.5, 12.5, 0, 8, 8], 1372.5, 1378.13],
    ['seven days of eight hours', 18, [8, 8, 8, 8, 8, 8, 8], 1152, 1152],
    ['seven days of six hours', 18, [6, 6, 6, 6, 6, 6, 6], 774, 810],
  ] as const)('%s at %d', (_what, rate, hours, federal, california) => {
    expect(week([...hours], rate, FEDERAL)).toBe(federal);
    expect(week([...hours], rate, CALIFORNIA)).toBe(california);
  });

  test('six days of eight hours: the sixth is what costs more', () => {
    expect(costs([8, 8, 8, 8, 8, 8], 20, FEDERAL).map(({ cost }) => cost)).toEqual([
      160, 160, 160, 160, 160, 240,
    ]);
  });

  test.each([
    ['36 hours before, then 9', 36, 9, 230],
    ['44 hours before, then 8', 44, 8, 240],
  ])('%s', (_what, hoursThisWeek, hours, total) => {
    expect(week([hours], 20, FEDERAL, { hoursThisWeek })).toBe(total);
    // The same split in two days: what was worked before stays worked.
    expect(week([hours - 4, 4], 20, FEDERAL, { hoursThisWeek })).toBe(total);
  });

  test('29 CFR 778.104: 50 hours in one week and 30 in the next are 990.00 and 540.00, never averaged', () => {
    const all = costs([10, 10, 10, 10, 10, 0, 0, 6, 6, 6, 6, 6], 18, FEDERAL);
    const of = (from: number, to: number): number =>
      toCent(all.filter(({ day }) => day >= from && day < to).reduce((sum, { cost }) => sum + cost, 0));
    expect([of(0, 7), of(7, 14)]).toEqual([990, 540]);
  });
});

describe('weeks with other rates', () => {
  const federal = resolvePay({ pay: { dailyAfter: null } });
  const days = (...work: [hours: number, rate: number][]) => ({
    days: work.map(([hours, rate]) => ({ work: [{ minutes: hours * 60, rate }] })),
  });

  test('29 CFR 778.115: 16 hours at 7 and 30 at 8 are 374.96, 30 at 10 and 15 at 12 are 506.67', () => {
    // A state's page prints 374.95, its rate cut to 7.65 first; ours is not rounded.
    expect(weekPay(days([16, 7], [30, 8]), federal).total).toBe(374.96);
    expect(weekPay(days([30, 10], [15, 12]), federal).total).toBe(506.67);
  });

  test('29 CFR 778.113(a): 182.70 for 35 hours are 5.22 an hour, 7.83 past forty, 247.95 for 45', () => {
    const pay = weekPay(days([45, 182.7 / 35]), federal);
    expect(pay.regularRate).toBeCloseTo(5.22, 9);
    expect(pay.regularRate * 1.5).toBeCloseTo(7.83, 9);
    expect(pay.total).toBe(247.95);
  });

  test('29 CFR 778.113(b): 1,040 a month, or 520 a half month, are 240 a week and 6.00 an hour', () => {
    for (const salary of [(1040 * 12) / 52, (520 * 24) / 52]) {
      expect(salary).toBeCloseTo(240, 9);
      expect(weekPay({ ...days([40, 0]), earned: salary }, federal).regularRate).toBeCloseTo(6, 9);
    }
  });

  test('29 CFR 778.322: 200 for 35 hours, 41 worked, are 237.14 (237.12 there, its rate rounded)', () => {
    expect(weekPay(days([41, 200 / 35]), federal).total).toBe(237.14);
  });
});

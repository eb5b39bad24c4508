import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyPay, payFor, toCent, weekPay } from '../../src/money/pay.ts';
import { resolvePay } from '../../src/scenario/pay.ts';
import { holds } from '../support/holds.ts';

const person = { pay: 20, hoursThisWeek: 0, daysThisWeek: 0 };
const day = (within: number, after = 0, elsewhere = 0) => ({ within, after, elsewhere });

describe('pay of one day', () => {
  test('by default what comes after the own end is overtime, however short the day', () => {
    const pay = payFor(day(240, 30), person, resolvePay({}));
    expect(pay).toMatchObject({ minutes: 270, overtimeMinutes: 30, straight: 90, premium: 5, total: 95 });
  });

  test('hours already worked this week bring the weekly threshold into the day', () => {
    const rules = resolvePay({});
    expect(payFor(day(480), { ...person, hoursThisWeek: 32 }, rules).total).toBe(160);
    expect(payFor(day(480), { ...person, hoursThisWeek: 36 }, rules)).toMatchObject({
      overtimeMinutes: 240,
      total: 200,
    });
    expect(payFor(day(480, 60), { ...person, hoursThisWeek: 36 }, rules)).toMatchObject({
      overtimeMinutes: 300,
      countedMinutes: 240,
    });
    expect(payFor(day(480), { ...person, hoursThisWeek: 50 }, rules).total).toBe(240);
  });

  test('a threshold by the day replaces the own end', () => {
    const rules = resolvePay({ pay: { dailyAfter: 8, doubleAfter: 12 } });
    expect(payFor(day(420, 60), person, rules).premium).toBe(0);
    expect(payFor(day(480, 300), person, rules)).toMatchObject({
      overtimeMinutes: 240,
      doubleMinutes: 60,
      total: 320,
    });
  });

  test('null switches the thresholds off', () => {
    const rules = resolvePay({ pay: { dailyAfter: null, weeklyAfter: null, doubleAfter: null } });
    expect(payFor(day(480, 900), { ...person, hoursThisWeek: 60 }, rules).premium).toBe(0);
  });

  test('the seventh day in a row is overtime from its first minute, where the file says so', () => {
    const seventh = { ...person, daysThisWeek: 6 };
    expect(payFor(day(540), seventh, resolvePay({ pay: { seventhDay: true } }))).toMatchObject({
      overtimeMinutes: 480,
      doubleMinutes: 60,
      countedMinutes: 0,
      total: 280,
    });
    expect(payFor(day(540), seventh, resolvePay({ pay: { seventhDay: true, doubleFactor: 3 } })).total).toBe(
      300,
    );
    expect(
      payFor(day(540), { ...person, daysThisWeek: 5 }, resolvePay({ pay: { seventhDay: true } })).premium,
    ).toBe(0);
    expect(payFor(day(540), seventh, resolvePay({})).premium).toBe(0);
  });

  test('time another line pays for costs nothing here but counts towards the thresholds', () => {
    const rules = resolvePay({ pay: { dailyAfter: 8 } });
    expect(payFor(day(300, 0, 240), person, rules)).toMatchObject({
      minutes: 300,
      overtimeMinutes: 60,
      straight: 100,
      total: 110,
    });
    expect(payFor(day(30, 0, 600), person, rules)).toMatchObject({ overtimeMinutes: 30, total: 15 });
  });

  test('a given object is filled and returned, nothing of the day before left in it', () => {
    const into = emptyPay();
    const rules = resolvePay({ pay: { dailyAfter: 8, doubleAfter: 10, seventhDay: true } });
    expect(payFor(day(700), { ...person, daysThisWeek: 6 }, rules, into)).toBe(into);
    expect(payFor(day(120), person, rules, into)).toEqual({
      ...emptyPay(),
      minutes: 120,
      countedMinutes: 120,
      straight: 40,
      total: 40,
    });
  });
});

const rulesArbitrary = fc
  .record({
    overtimeFactor: fc.constantFrom(1, 1.25, 1.5),
    doubleFactor: fc.constantFrom(2, 2.5),
    dailyAfter: fc.option(fc.integer({ min: 4, max: 12 })),
    weeklyAfter: fc.option(fc.integer({ min: 20, max: 60 })),
    doubleAfter: fc.option(fc.integer({ min: 8, max: 16 })),
    seventhDay: fc.boolean(),
  })
  .map((pay) => resolvePay({ pay }));
const daysArbitrary = fc.array(fc.integer({ min: 0, max: 960 }), { minLength: 1, maxLength: 7 });

describe('pay over a week', () => {
  test('day by day with what counts carried on, and the week at once, are the same at one rate', () => {
    holds(
      fc.property(rulesArbitrary, daysArbitrary, (rules, minutes) => {
        const state = { pay: 17.5, hoursThisWeek: 0, daysThisWeek: 0 };
        let total = 0;
        for (const one of minutes) {
          const pay = payFor(day(one), state, rules);
          total += pay.total;
          state.hoursThisWeek += pay.countedMinutes / 60;
          state.daysThisWeek = one > 0 ? state.daysThisWeek + 1 : 0;
        }
        const week = weekPay(
          { days: minutes.map((one) => ({ work: [{ minutes: one, rate: 17.5 }] })) },
          rules,
        );
        expect(Math.abs(week.total - total)).toBeLessThan(0.00501);
      }),
    );
  });

  test('without double time the overtime minutes are the larger of those by the day and those over the week', () => {
    holds(
      fc.property(daysArbitrary, (minutes) => {
        const rules = resolvePay({ pay: { dailyAfter: 8 } });
        const byDay = minutes.reduce((sum, one) => sum + Math.max(0, one - 480), 0);
        const overWeek = Math.max(0, minutes.reduce((sum, one) => sum + one, 0) - 2400);
        const week = weekPay({ days: minutes.map((one) => ({ work: [{ minutes: one, rate: 20 }] })) }, rules);
        expect(week.overtimeMinutes).toBe(Math.max(byDay, overWeek));
      }),
    );
  });

  test('a minute more never pays less, and no minute is paid twice', () => {
    holds(
      fc.property(
        rulesArbitrary,
        fc.integer({ min: 0, max: 900 }),
        fc.integer({ min: 0, max: 200 }),
        fc.integer({ min: 0, max: 70 }),
        (rules, within, after, hoursThisWeek) => {
          const someone = { pay: 31, hoursThisWeek, daysThisWeek: 6 };
          const pay = payFor(day(within, after), someone, rules);
          expect(payFor(day(within, after + 1), someone, rules).total).toBeGreaterThanOrEqual(pay.total);
          expect(pay.overtimeMinutes + pay.doubleMinutes + pay.countedMinutes).toBe(pay.minutes);
          expect(pay.total).toBeCloseTo(pay.straight + pay.premium, 9);
        },
      ),
    );
  });

  test('a week without work is paid nothing', () => {
    expect(weekPay({ days: [] }, resolvePay({}))).toMatchObject({ minutes: 0, regularRate: 0, total: 0 });
  });
});

test('amounts are rounded to the cent half up, where binary fractions fall short as well', () => {
  expect([1.005, 1.004999, 2.675, -1.005, 0, -0.001].map(toCent)).toEqual([1.01, 1, 2.68, -1.01, 0, 0]);
});

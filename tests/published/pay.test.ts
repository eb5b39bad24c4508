/** Pay against the published examples of the law, to the cent. */
import { expect, test } from 'vitest';
import { weekPay } from '../../src/money/pay.ts';
import { resolvePay } from '../../src/scenario/pay.ts';

const federal = resolvePay({ pay: { dailyAfter: null } });
const california = resolvePay({ pay: { dailyAfter: 8, doubleAfter: 12, seventhDay: true } });
const hours = (counts: number[], rate: number) => ({
  days: counts.map((count) => ({ work: [{ minutes: count * 60, rate }] })),
});

test('29 CFR 778.110(a): 46 hours at 12 come to 588.00', () => {
  const pay = weekPay(hours([8, 8, 8, 8, 8, 6], 12), federal);
  expect(pay).toMatchObject({ total: 588, straight: 552, premium: 36, overtimeMinutes: 360 });
});

test('29 CFR 778.110(b): with a bonus of 46 the regular rate is 13 and the week 637.00', () => {
  const pay = weekPay({ ...hours([8, 8, 8, 8, 8, 6], 12), earned: 46 }, federal);
  expect(pay.regularRate).toBeCloseTo(13, 9);
  expect(pay.total).toBe(637);
});

test('29 CFR 778.111(a): 491 of piece work in 46 hours and 4 hours of waiting at 8 come to 575.30', () => {
  const day = {
    work: [
      { minutes: 46 * 60, rate: 0 },
      { minutes: 4 * 60, rate: 8 },
    ],
  };
  const pay = weekPay({ days: [day], earned: 491 }, federal);
  expect(pay.regularRate).toBeCloseTo(10.46, 9);
  expect(pay.total).toBe(575.3);
});

test('29 CFR 778.115: 25 hours at 14 and 21 at 18 come to 775.48, the weighted rate unrounded (rounded first: 775.49)', () => {
  const days = [{ work: [{ minutes: 25 * 60, rate: 14 }] }, { work: [{ minutes: 21 * 60, rate: 18 }] }];
  expect(weekPay({ days }, federal)).toMatchObject({ straight: 728, premium: 47.48, total: 775.48 });
});

test('California Labor Code 510: days of 10 8 9 13 8 8 hours at 20 come to 1,290.00, by the federal rule alone 1,280.00', () => {
  const week = hours([10, 8, 9, 13, 8, 8], 20);
  expect(weekPay(week, california)).toMatchObject({
    total: 1290,
    overtimeMinutes: 15 * 60,
    doubleMinutes: 60,
  });
  expect(weekPay(week, federal).total).toBe(1280);
});

test('California Labor Code 510: four days of ten hours come to 880.00, by the federal rule alone 800.00', () => {
  expect(weekPay(hours([10, 10, 10, 10], 20), california).total).toBe(880);
  expect(weekPay(hours([10, 10, 10, 10], 20), federal).total).toBe(800);
});

test('California Labor Code 510: one day of fourteen hours comes to 360.00', () => {
  expect(weekPay(hours([14], 20), california).total).toBe(360);
});

test('California Labor Code 510: the seventh day is overtime for eight hours and double time after, worked out by hand', () => {
  // Six days of 6 h are 36 plain hours; the seventh of 10 h: 8 at 30 and 2 at 40.
  const pay = weekPay(hours([6, 6, 6, 6, 6, 6, 10], 20), california);
  expect(pay).toMatchObject({ total: 36 * 20 + 8 * 30 + 2 * 40, overtimeMinutes: 480, doubleMinutes: 120 });
  expect(weekPay(hours([6, 6, 6, 0, 6, 6, 10], 20), california).overtimeMinutes).toBe(120);
});

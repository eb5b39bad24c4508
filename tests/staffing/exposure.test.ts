import { resolveLimits } from '../../src/scenario/resolve.ts';
import { expect, test } from 'vitest';
import { exposureOf, mayOffer, triggerMinutesTo, vibrationPoints } from '../../src/staffing/exposure.ts';

test('5 m/s2 for three hours are 150 points (Health and Safety Executive, exposure points)', () => {
  expect(vibrationPoints(5, 180)).toBeCloseTo(150, 9);
});

test('forty joints of four minutes at 6 m/s2 are 192 points', () => {
  const exposure = exposureOf({ sand: 40 * 4 }, resolveLimits({ vibration: { sand: 6 } }));
  expect(exposure.points).toBeCloseTo(192, 9);
  expect(exposure.level).toBe('at or over the action value');
});

test('eight hours at 2.5 m/s2 are the action value and at 5 m/s2 the limit value (2002/44/EC, article 3)', () => {
  expect(vibrationPoints(2.5, 480)).toBeCloseTo(100, 9);
  expect(vibrationPoints(5, 480)).toBeCloseTo(400, 9);
});

test('at 7 m/s2 the action value is reached after about one hour of trigger time and the limit after about four', () => {
  expect(triggerMinutesTo(100, 7) / 60).toBeCloseTo(1.02, 2);
  expect(triggerMinutesTo(400, 7) / 60).toBeCloseTo(4.08, 2);
  expect(triggerMinutesTo(100, 0)).toBe(Infinity);
});

test('the trigger share counts, tools add up, and steps without a tool are left out', () => {
  const limits = resolveLimits({ vibration: { sand: 8, clean: 3, check: 0 }, trigger: { sand: 50 } });
  const exposure = exposureOf({ sand: 240, clean: 60, fit: 100, check: 30 }, limits);
  expect(exposure.steps.map((one) => [one.step, one.triggerMinutes])).toEqual([
    ['sand', 120],
    ['clean', 60],
  ]);
  expect(exposure.points).toBeCloseTo(2 * 64 * 2 + 2 * 9 * 1, 9);
});

test('at the action value exactly action is due, at the limit exactly the plan may still be offered', () => {
  const limits = resolveLimits({ vibration: { sand: 5 } });
  expect(exposureOf({ sand: 119 }, limits).level).toBe('under the action value');
  expect(exposureOf({ sand: 120 }, limits).level).toBe('at or over the action value');
  expect(exposureOf({ sand: 480 }, limits)).toMatchObject({
    points: 400,
    level: 'at or over the action value',
  });
  expect(exposureOf({ sand: 481 }, limits).level).toBe('over the limit value');
  expect(mayOffer(400, resolveLimits())).toBe(true);
  expect(mayOffer(400.1, resolveLimits())).toBe(false);
  expect(mayOffer(150, resolveLimits({ vibrationPoints: 100 }))).toBe(false);
});

test('a file without limits has no exposure to show', () => {
  expect(exposureOf({ sand: 480 }, resolveLimits())).toEqual({
    points: 0,
    level: 'under the action value',
    steps: [],
  });
});

import { expect, test } from 'vitest';
import { crewFloor, takt, workContent } from '../../src/staffing/takt.ts';

test('two shifts of 480 minutes less 40 and 30, for 80 units, make a takt of 10.25 minutes (published example)', () => {
  expect(takt((480 - 40 - 30) * 2, 80)).toBeCloseTo(10.25, 12);
  expect(takt(480, 0)).toBe(Infinity);
});

test('work content counts every hand and every visit', () => {
  const steps = [
    { minutes: 10, people: 1, visits: 1 },
    { minutes: 4, people: 2, visits: 1.25 },
  ];
  expect(workContent(steps)).toBeCloseTo(20, 12);
});

test('the crew floor rounds up, but not for a binary hair', () => {
  expect(crewFloor(41, 10.25)).toBe(4);
  expect(crewFloor(41.1, 10.25)).toBe(5);
  expect(crewFloor(0.1 * 3, 0.1)).toBe(3);
  expect(crewFloor(30, Infinity)).toBe(0);
});

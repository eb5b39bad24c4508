/** A step whose person goes home early, or comes late, is left alone: worked out by hand. */
import { expect, test } from 'vitest';
import { emptyHours } from '../../src/staffing/empty-hours.ts';
import { shiftsOfSketch, type Sketch } from '../support/event-table.ts';

const sketch = (people: Sketch['people']): Sketch => ({
  shift: { start: '06:00', end: '14:00' },
  steps: { fit: { time: 5 }, cure: { kind: 'wait', time: 30 }, sand: { time: 5 } },
  people: people!,
  intake: { kind: 'at start', units: 3 },
});
const alone = (people: Sketch['people']) => emptyHours(shiftsOfSketch(sketch(people))[0]!);

test('a step is left alone from when its only person goes home, if that is an hour or more', () => {
  const fay = { covers: ['fit'] };
  expect(alone({ fay, sue: { covers: ['sand'], to: '11:00' } })).toEqual([
    { step: 'sand', name: 'sand', from: 300, to: 480 },
  ]);
  expect(alone({ fay, sue: { covers: ['sand'], to: '13:30' } })).toEqual([]);
  expect(alone({ fay, sue: { covers: ['sand'], from: '08:00' } })).toMatchObject([{ from: 0, to: 120 }]);
});

test('it is not while somebody else stands there, at another time of the day too', () => {
  const sue = { covers: ['sand'], to: '11:00' };
  expect(alone({ fay: { covers: ['fit', 'sand'] }, sue })).toEqual([]);
  const later = { covers: ['fit'], changes: [{ from: '11:00', covers: ['fit', 'sand'] }] };
  expect(alone({ fay: later, sue })).toEqual([]);
});

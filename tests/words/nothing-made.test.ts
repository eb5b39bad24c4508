import { expect, test } from 'vitest';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { nothingMadeWords } from '../../src/words/nothing-made.ts';
import { SHOPS, shop } from '../support/shops.ts';

const cell = (more: object): Scenario =>
  ({
    format: 1,
    name: 'A cell',
    steps: { fit: { time: 12 }, cure: { kind: 'wait', time: 30 }, sand: { time: 9 } },
    people: { ada: { covers: ['fit'] }, ben: { covers: ['sand'] } },
    shift: { start: '06:00', end: '14:30' },
    ...more,
  }) as unknown as Scenario;
const why = (more: object, good = 0): string => nothingMadeWords(shiftsOf(cell(more)), good).join(' ');

test('a number that is no sign of anything says nothing', () => {
  expect(why({}, 1)).toBe('');
  for (const name of SHOPS) expect(nothingMadeWords(shiftsOf(shop(name)), 20)).toEqual([]);
});

test.each<[string, object]>([
  ['No pieces come in.', { intake: { kind: 'at start', units: 0 } }],
  [
    'Nobody who comes stands at “sand”.',
    { people: { ada: { covers: ['fit'] }, ben: { covers: ['sand'], attendance: { percent: 0 } } } },
  ],
  [
    'Too few of those who come stand at “fit”.',
    { steps: { fit: { time: 12, people: 2 }, sand: { time: 9 } } },
  ],
  [
    'The shift is 8 h 30 min long, and “cure” alone takes 10 h.',
    { steps: { fit: { time: 12 }, cure: { kind: 'wait', time: 600 }, sand: { time: 9 } } },
  ],
  [
    'The shift is 8 h 30 min long, and a piece takes 8 h 31 min from the first step to the last if it never waits.',
    { steps: { fit: { time: 12 }, cure: { kind: 'wait', time: 490 }, sand: { time: 9 } } },
  ],
  [
    'Nothing that stands in the cell says why; Replay shows where the pieces of one shift stand, and why.',
    {},
  ],
])('%s', (words, more) => {
  expect(why(more)).toBe(words);
});

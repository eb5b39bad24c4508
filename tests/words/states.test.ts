import { expect, test } from 'vitest';
import { gearStateWords, personStateWords, type Named } from '../../src/words/states.ts';
import {
  FREE,
  gearAt,
  gearBefore,
  gearPutDown,
  gearStates,
  NO_FIT,
  NO_GEAR,
  NO_UNIT,
  NOWHERE,
  OUT_OF_ORDER,
  personStates,
  workingAt,
} from '../../src/engine/recorder.ts';

const cell: Named = {
  steps: [
    { name: 'Glue and clamp', kind: 'hands' },
    { name: 'Cure', kind: 'wait' },
    { name: 'Unclamp', kind: 'hands' },
  ],
  gear: [
    { name: 'Clamp sets', kind: 'gear' },
    { name: 'Glue bench', kind: 'bench' },
  ],
};

test('a person without work says why in the words of the floor', () => {
  expect(
    [NO_UNIT, NOWHERE, NO_FIT, NO_GEAR, NO_GEAR + 1].map((state) => personStateWords(state, cell)),
  ).toEqual([
    { kind: 'idle', words: 'nothing to work on' },
    { kind: 'idle', words: 'nowhere to put it' },
    { kind: 'idle', words: 'would not fit before the break or the end' },
    { kind: 'idle', words: 'no clamp set free' },
    { kind: 'idle', words: 'no glue bench free' },
  ]);
  expect(personStateWords(workingAt(2, 2), cell)).toEqual({ kind: 'work', words: 'unclamp' });
});

test('a clamp set is at work, waits for hands, or is free', () => {
  expect(
    [FREE, OUT_OF_ORDER, gearAt(1), gearBefore(2), gearPutDown(0)].map(
      (state) => gearStateWords(state, 0, cell).words,
    ),
  ).toEqual([
    'free',
    'out of order',
    'cure',
    'waiting for hands: unclamp is next',
    'put down, glue and clamp half done',
  ]);
});

test('a bench whose piece cannot move on has nowhere to put it, and so has gear before a full out-rack', () => {
  expect(gearStateWords(gearBefore(2), 1, cell).words).toBe('nowhere to put it: unclamp is next');
  expect(gearStateWords(gearBefore(3), 0, cell).words).toBe('nowhere to put it: the out-rack is next');
});

test('every code a cell has is named, no two of a person alike, and no others are', () => {
  const persons = Array.from(
    { length: personStates(2, 3) },
    (_, state) => personStateWords(state, cell).words,
  );
  expect(new Set(persons).size).toBe(persons.length);
  expect(() => personStateWords(personStates(2, 3), cell)).toThrow('no such state of a person: 16');
  for (const step of [0, 1, 2])
    for (const code of [gearAt(step), gearBefore(step), gearPutDown(step)])
      expect(gearStateWords(code, 0, cell).words).not.toBe('');
  expect(() => gearStateWords(gearStates(3), 0, cell)).toThrow('no such state of gear: 14');
  expect(() => gearStateWords(-1, 0, cell)).toThrow(RangeError);
});

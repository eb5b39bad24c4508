/** A cell of one's own from the few things that are asked. */
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import {
  A_GUESS,
  clampedAt,
  missingIn,
  ownCell,
  tapped,
  type OwnCell,
} from '../../src/scenario/own/own-cell.ts';
import { readNames, readSteps } from '../../src/scenario/own/read-lists.ts';
import { STARTS } from '../../src/scenario/own/starts.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

const five = ['Ada', 'Ben', 'Cem', 'Dora', 'Eli'];
const asked = (steps = STARTS[0]!.steps): OwnCell => {
  const posts = steps.flatMap(({ wait }, i) => (wait ? [] : [i]));
  return {
    name: 'Bench 2',
    steps,
    clampSets: 2,
    people: five.map((name, i) => ({ name, posts: posts.filter((_, at) => at % five.length === i) })),
    start: '07:00',
    end: '15:30',
    target: 18,
  };
};
const checked = (cell: OwnCell): Scenario => {
  const reading = checkScenario(ownCell(cell));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join(' '));
  return reading.scenario;
};

describe.each(STARTS)('a cell that begins as $name', ({ steps }) => {
  const made = checked(asked(steps));

  test('can be run as it is, and says which of its times are guesses', () => {
    expect(missingIn(made)).toEqual([]);
    for (const step of Object.values(made.steps)) expect(step.timesFrom).toEqual({ time: A_GUESS });
    expect(made.invented).toBeUndefined();
  });

  test('ties a clamp set up from the glue-up, which is whole, until somebody unclamps', () => {
    expect(made.steps['glue-up']).toMatchObject({
      whole: true,
      plannedAt: 95,
      takes: [{ gear: 'clamp', until: 'unclamp' }],
    });
    expect(made.gear).toEqual({ clamp: { name: 'clamp set', count: 2 } });
    expect(made.steps['cure']).toMatchObject({ kind: 'wait' });
  });
});

test('without a wait between hands there is nothing for clamps to be tied up in', () => {
  const hands = (name: string): OwnCell['steps'][number] => ({
    name,
    minutes: 5,
    wait: false,
    guessed: false,
  });
  const cure = { ...hands('cure'), wait: true };
  expect(clampedAt([hands('a'), hands('b')])).toBeNull();
  expect(clampedAt([cure, hands('b')])).toBeNull();
  expect(clampedAt([hands('a'), cure])).toBeNull();
  expect(clampedAt([hands('a'), hands('b'), cure, cure, hands('c')])).toEqual({ glue: 1, until: 4 });
  expect(
    checked({ ...asked([hands('a'), hands('b')]), people: [{ name: 'Ada', posts: [1, 0] }] }).gear,
  ).toBeUndefined();
});

test('names that look alike inside the file stay apart, in any script, and the ones seen stay as typed', () => {
  const made = checked({
    ...asked(),
    people: ['Jo', 'jo!', 'נועה', '李', 'constructor'].map((name) => ({ name, posts: [0, 1, 3, 4, 5] })),
  });
  expect(Object.values(made.people).map(({ name }) => name)).toEqual([
    'Jo',
    'jo!',
    'נועה',
    '李',
    'constructor',
  ]);
  expect(new Set(Object.keys(made.people)).size).toBe(5);
});

test('no number is worth saying before everybody has a place and every post somebody', () => {
  const cell = asked();
  expect(missingIn(ownCell({ ...cell, people: [] }))).toEqual(['who works here']);
  const people = cell.people.map((one, i) => (i === 2 ? { ...one, posts: [] } : one));
  expect(missingIn(ownCell({ ...cell, people }))).toEqual(['who stands at “unclamp”', 'where Cem stands']);
});

describe('the sheet of people by posts', () => {
  test('puts a later step first, whatever was tapped first', () => {
    expect([0, 4, 3].reduce<number[]>(tapped, [])).toEqual([4, 3, 0]);
  });
  test('moves a choice down by one with each tap, and out after the last place', () => {
    expect(tapped([4, 3, 0], 4)).toEqual([3, 4, 0]);
    expect(tapped([3, 4, 0], 4)).toEqual([3, 0, 4]);
    expect(tapped([3, 0, 4], 4)).toEqual([3, 0]);
    expect(tapped([4], 4)).toEqual([]);
  });
  test('keeps an order that was made by hand when a post is added', () => {
    expect(tapped([0, 4], 3)).toEqual([0, 4, 3]);
  });
});

describe('what is pasted from a spreadsheet', () => {
  test('people: a column, a row, or with commas; none twice', () => {
    for (const text of [
      'Ada\nBen\r\nCem',
      'Ada\tBen\tCem',
      'Ada, Ben; Cem,',
      'Ada, Ben and Cem',
      'Ada,Ben,Cem,Ada',
    ])
      expect(readNames(text)).toEqual(['Ada', 'Ben', 'Cem']);
    expect(readNames('Ana Maria de Souza, O’Brien')).toEqual(['Ana Maria de Souza', 'O’Brien']);
    expect(readNames(' ,\n')).toEqual([]);
  });
  test('steps: name and minutes however they are set apart; what cures needs nobody', () => {
    const step = (name: string, minutes: number, wait = false): unknown => ({
      name,
      minutes,
      wait,
      guessed: false,
    });
    for (const text of [
      'Step\tMinutes\nDry fit\t14\nGlue up\t8,5\nCure\t45',
      'Dry fit, 14\nGlue up: 8.5 min\nCure 45',
      '1. Dry fit 14\n2. Glue up 8.5\n3. Cure; 45 minutes',
    ])
      expect(readSteps(text)).toEqual({
        steps: [step('Dry fit', 14), step('Glue up', 8.5), step('Cure', 45, true)],
        unread: [],
      });
  });
  test('what cannot be read is handed back as it stands', () => {
    expect(readSteps('fit 14\nsand\ncheck 0')).toEqual({
      steps: [{ name: 'fit', minutes: 14, wait: false, guessed: false }],
      unread: ['sand', 'check 0'],
    });
  });
});

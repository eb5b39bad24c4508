import { describe, expect, test } from 'vitest';
import { moreOfOne, optionSubject, paybackWords } from '../../src/words/option-words.ts';
import { MADE, waysBlocks, waysOf } from '../../src/report/ways.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

function cell(more: object = {}): Scenario {
  const reading = checkScenario({
    format: 1,
    name: 'A bench',
    products: { piece: {} },
    people: { a: { covers: ['glue', 'free'] } },
    steps: {
      glue: { name: 'glue up', time: 5, takes: [{ gear: 'clamp', until: 'free' }] },
      cure: { kind: 'wait', time: 30 },
      free: { name: 'unclamp', time: 5 },
    },
    gear: { clamp: { name: 'clamp set', count: 2 }, jig: { name: 'jig', count: 1 } },
    shift: { start: '06:00', end: '14:00' },
    ...more,
  });
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
}

describe('ways of reckoning', () => {
  test('begin with the cure alone: two sets, 480 minutes, 30 of cure make 32', () => {
    const ways = waysOf(shiftsOf(cell()));
    expect(ways.map(({ name }) => name)).toEqual([
      'clamp sets by the cure alone',
      'a spreadsheet of averages',
      'the most this crew and gear could make, nobody ever waiting',
    ]);
    expect(ways[0]!.units).toEqual([32]);
    // 480 over 40 minutes a set is 24 of two sets; hands of 10 minutes a piece make 48.
    expect(ways[1]!.units[0]).toBeCloseTo(24, 9);
    expect(ways[1]!.limit).toBe('clamp sets');
  });

  test('leave the cure out where nothing is tied up by one', () => {
    const plain = cell({
      steps: { glue: { name: 'glue up', time: 5 }, free: { name: 'unclamp', time: 5 } },
      gear: {},
    });
    expect(waysOf(shiftsOf(plain)).map(({ name }) => name)[0]).toBe('a spreadsheet of averages');
  });

  test('stand side by side as a table that ends with what the shifts made, and name the limit', () => {
    const [shift] = shiftsOf(cell());
    const [table, note] = waysBlocks([{ label: 'As it is', shift: shift!, made: 19.94 }]);
    if (table?.kind !== 'table' || note?.kind !== 'paragraph') throw new Error('not a table and a note');
    expect(table.rows.map((row) => row[1])).toEqual([
      '32.0',
      '24.0',
      expect.stringMatching(/^\d+\.\d$/),
      '19.9',
    ]);
    expect(table.rows.at(-1)![0]!.toLowerCase()).toBe(MADE);
    expect(note.text).toMatch(/^The spreadsheet names clamp sets as the limit\./);
  });
});

describe('an option in a sentence', () => {
  const third = { name: 'A third clamp set', changes: { gear: { clamp: { count: 3 } } } };

  test('is a thing where it is called just that', () => {
    expect(optionSubject(cell(), 'third', third)).toEqual({
      kind: 'thing',
      words: 'a third clamp set',
      several: false,
    });
  });

  test('is a situation where its name says something else, and by its short name where it has none', () => {
    expect(optionSubject(cell(), 'third', { ...third, name: 'The cheap clamps' })).toEqual({
      kind: 'situation',
      words: 'with “The cheap clamps”',
    });
    expect(optionSubject(cell(), 'late', { changes: { intake: { kind: 'at start', units: 9 } } })).toEqual({
      kind: 'situation',
      words: 'with “late”',
    });
  });

  test('counts each of several more, and is no thing where anything else changes or it is fewer', () => {
    expect(moreOfOne(cell(), { changes: { gear: { clamp: { count: 4 } } } })).toEqual({
      words: 'a third and a fourth clamp set',
      several: true,
    });
    expect(moreOfOne(cell(), { changes: { gear: { clamp: { count: 7 } } } })).toEqual({
      words: '5 more clamp sets',
      several: true,
    });
    expect(
      moreOfOne(cell(), { changes: { gear: { clamp: { count: 3 } }, steps: { glue: { time: 4 } } } }),
    ).toBeNull();
    expect(moreOfOne(cell(), { changes: { gear: { clamp: { count: 1 } } } })).toBeNull();
  });
});

describe('payback of an option', () => {
  const range = (low: number, high: number) => ({
    estimate: (low + high) / 2,
    low,
    high,
    half: (high - low) / 2,
    luck: (high - low) / 2,
    inputs: 0,
    count: 100,
    confidence: 0.95,
  });
  const pair = { good: range(3, 5), cost: range(-10, 30) };
  const money = { margin: 45, currency: '$' };

  test('sets what the units bring in against what labour costs more, the far ends together', () => {
    // 4 x 45 - 10 = 170 a shift; 3 x 45 - 30 = 105; 5 x 45 + 10 = 235; 1800 over these are 10.6, 17.1, 7.7
    // shifts.
    expect(paybackWords({ money }, 1800, pair)).toBe(
      'It pays back after 11 shifts (7 to 18), about 3 weeks: it brings in $170 a shift ($105 to $235).',
    );
  });

  test('says nothing without a price, or where nobody said what a unit brings in', () => {
    expect(paybackWords({ money }, null, pair)).toBe('');
    expect(paybackWords({ money }, 0, pair)).toBe('');
    expect(paybackWords({ money: {} }, 1800, pair)).toBe('');
  });
});

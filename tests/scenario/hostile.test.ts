/** Files that are too much, misspelled or meant to mislead: all end in sentences that can be trusted. */
import { describe, expect, it } from 'vitest';
import { checkScenario, type Fault } from '../../src/scenario/check.ts';
import { shop, SHOPS } from '../support/shops.ts';

const cell = (change: object): unknown => ({
  format: 1,
  name: 'Bench',
  steps: { fit: { time: 5, rack: 4 } },
  people: { ada: { covers: ['fit'] } },
  gear: { clamp: { count: 2 } },
  ...change,
});
const faultsOf = (value: unknown): Fault[] => {
  const reading = checkScenario(value);
  return reading.kind === 'wrong' ? reading.faults : [];
};
const texts = (value: unknown): string =>
  faultsOf(value)
    .map((fault) => fault.text)
    .join(' ');

describe('the units of a shift', () => {
  const DAY = { shift: { start: '06:00', end: '05:59' } };
  const arrival = { at: '06:00', units: 10_000 };
  it.each([
    ['a list', { intake: { kind: 'list', arrivals: Array.from({ length: 11 }, () => arrival) } }, '110,000'],
    ['an even beat', { ...DAY, intake: { kind: 'beat', every: 0.01 } }, '143,900'],
    ['random gaps', { ...DAY, intake: { kind: 'random', gap: 0.0125 } }, '115,120'],
    [
      'carried over',
      { carryOver: Array.from({ length: 11 }, () => ({ at: 'fit', units: 10_000 })) },
      '110,060',
    ],
  ])('are limited: %s', (_, change, count) => {
    expect(texts(cell(change))).toMatch(`found ${count} units in one shift; allowed: at most 100,000`);
  });
  it('are told of shifts that follow and of options too', () => {
    const many = { ...DAY, intake: { kind: 'beat', every: 0.01 } };
    expect(texts(cell({ nextShifts: [{ changes: many }] }))).toMatch(
      /The shifts after, no\. 1.*units in one shift/,
    );
    expect(texts(cell({ options: { rush: { name: 'Rush', changes: many } } }))).toMatch(
      /Option “Rush”.*units in one shift/,
    );
  });
  it('may be as many as the limit', () => {
    const arrivals = Array.from({ length: 10 }, () => arrival);
    expect(faultsOf(cell({ intake: { kind: 'list', arrivals } }))).toEqual([]);
  });
});

describe('a misspelled name in changes', () => {
  const CHANGES: [object, RegExp][] = [
    [{ steps: { fit: { rakc: null } } }, /"rakc" taken away, which is not there; .* did you mean "rack"/],
    [{ steps: { fit: { rakc: 3 } } }, /rakc.*did you mean "rack"/],
    [{ shift: { taget: null } }, /"taget" taken away, which is not there; .* did you mean "target"/],
    [{ gear: { clmap: null } }, /"clmap" taken away, which is not there; .* did you mean "clamp"/],
    [{ people: { ada: { attendnce: { percent: null } } } }, /attendnce/],
    [{ step: { fit: { time: 3 } } }, /did you mean "steps"/],
  ];
  it.each(CHANGES)('%j is refused, in an option and in a shift that follows', (changes, words) => {
    expect(texts(cell({ options: { other: { name: 'Other', changes } } }))).toMatch(words);
    expect(texts(cell({ nextShifts: [{ changes }] }))).toMatch(words);
  });
  it('what the file may have and has not may be taken away', () => {
    expect(
      faultsOf(cell({ options: { other: { changes: { shift: { target: null }, pay: null } } } })),
    ).toEqual([]);
  });
  it.each(SHOPS)('none is found in the options and shifts of %s', (name) => {
    expect(faultsOf(shop(name))).toEqual([]);
  });
});

describe('the text of a fault', () => {
  it('has no sign that ends a line, moves the cursor or turns the reading direction', () => {
    const name = 'fit\u202Egnihton\u2066\u001B[2J\u0007\n\rx';
    const faults = faultsOf(
      cell({ steps: { [name]: { time: 5, [name]: 1 } }, people: { [name]: { covers: [name, 'x'] } } }),
    );
    expect(faults.length).toBeGreaterThan(0);
    for (const { path, found, allowed, remedy, text } of faults)
      for (const one of [path, found, allowed, remedy, text])
        expect(one).not.toMatch(/[\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/u);
  });
  it('stays a sentence, however long the names are', () => {
    const long = 'a'.repeat(100_000);
    for (const fault of faultsOf(cell({ people: { ada: { covers: [long] } }, [long]: 1 })))
      expect(fault.text.length).toBeLessThan(3500);
    const many = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`key${i}`, 1]));
    const faults = faultsOf(cell(many));
    expect(faults.length).toBeLessThanOrEqual(101);
    for (const fault of faults) expect(fault.text.length).toBeLessThan(3500);
  });
});

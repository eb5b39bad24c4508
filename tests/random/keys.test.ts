import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  counter,
  MOST_STEPS,
  MOST_VISITS,
  PURPOSE,
  replicationKey,
  seedKey,
  shiftKey,
} from '../../src/random/keys.ts';
import { threefry, words } from '../../src/random/threefry.ts';
import { correlation, threefryRounds, unevenness } from './rounds.ts';
import { holds } from '../support/holds.ts';

const KEY = seedKey('a shop that never was');
const NEIGHBOURS = 40_000;

describe('counter', () => {
  it('is another number for every other purpose, step or visit in range', () => {
    const place = fc.record({
      purpose: fc.constantFrom(...Object.values(PURPOSE)),
      step: fc.nat(MOST_STEPS - 1),
      visit: fc.nat(MOST_VISITS - 1),
    });
    holds(
      fc.property(place, place, (a, b) => {
        const same = a.purpose === b.purpose && a.step === b.step && a.visit === b.visit;
        expect(counter(a.purpose, a.step, a.visit) === counter(b.purpose, b.step, b.visit)).toBe(same);
      }),
      { numRuns: 2000 },
    );
  });

  it('keeps every purpose within its six bits and apart from the others', () => {
    const purposes = Object.values(PURPOSE);
    expect(new Set(purposes).size).toBe(purposes.length);
    for (const purpose of purposes)
      expect(counter(purpose, MOST_STEPS - 1, MOST_VISITS - 1) >>> 26).toBe(purpose);
  });
});

describe('seedKey', () => {
  it('is the same for the same text and another for another, by case, length and script', () => {
    const texts = [
      '',
      '\u0000',
      'a',
      'A',
      'aa',
      'a ',
      'ā',
      '\u0001',
      'Ā',
      '\u0001\u0000',
      '木工',
      '工木',
      '🪑',
      'clampwright',
    ];
    expect(texts.map(seedKey)).toEqual(texts.map(seedKey));
    expect(new Set(texts.map(seedKey)).size).toBe(texts.length);
  });

  it('is a signed 32-bit integer for any text', () => {
    holds(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(seedKey(text) | 0).toBe(seedKey(text));
      }),
    );
  });

  it("leaves the platform's own random numbers alone", () => {
    const before = Math.random;
    seedKey('anything');
    expect(Math.random).toBe(before);
    expect(Math.random()).not.toBe(Math.random());
  });
});

describe('shiftKey', () => {
  it("is the seed's own key on the first shift and another on each later one", () => {
    const keys = Array.from({ length: 60 }, (_, shift) => shiftKey(KEY, shift));
    expect(keys[0]).toBe(KEY);
    expect(new Set(keys).size).toBe(60);
  });
});

/** First and second words of a run's draws over units, steps and visits. */
function drawsOf(generator: (item: number, place: number) => [number, number]): [number[], number[]] {
  const first: number[] = [];
  const second: number[] = [];
  for (let unit = 0; unit < 500; unit++) {
    for (let step = 0; step < 20; step++) {
      for (let visit = 0; visit < 4; visit++) {
        const [a, b] = generator(unit, counter(PURPOSE.TASK, step, visit));
        first.push(a);
        second.push(b);
      }
    }
  }
  return [first, second];
}

const fast =
  (key0: number, key1: number) =>
  (item: number, place: number): [number, number] => {
    const first = threefry(key0, key1, item, place);
    return [first, words[1]!];
  };

describe('words over the counters of a run', () => {
  it('are even: both words of units, steps and visits fill 256 cells within four standard deviations of chi-square', () => {
    for (const row of drawsOf(fast(KEY, replicationKey(0))))
      expect(Math.abs(unevenness(row))).toBeLessThan(4);
  });

  it('are uncorrelated between neighbouring units, steps, visits, purposes, replications, shifts and seeds, and between the two words', () => {
    const here = (item: number, index: number): [number, number] => [
      item,
      counter(PURPOSE.TASK, index % 20, index % 7),
    ];
    const row = (
      key0: number,
      key1: number,
      at: (i: number) => [number, number],
      word: 0 | 1 = 0,
    ): number[] => Array.from({ length: NEIGHBOURS }, (_, i) => fast(key0, key1)(...at(i))[word]);
    const base = row(KEY, 0, (i) => here(i, i));
    const others = {
      unit: row(KEY, 0, (i) => here(i + 1, i)),
      step: row(KEY, 0, (i) => [i, counter(PURPOSE.TASK, (i % 20) + 1, i % 7)]),
      visit: row(KEY, 0, (i) => [i, counter(PURPOSE.TASK, i % 20, (i % 7) + 1)]),
      purpose: row(KEY, 0, (i) => [i, counter(PURPOSE.PRODUCT, i % 20, i % 7)]),
      replication: row(KEY, 1, (i) => here(i, i)),
      shift: row(shiftKey(KEY, 1), 0, (i) => here(i, i)),
      seed: row(KEY + 1, 0, (i) => here(i, i)),
      word: row(KEY, 0, (i) => here(i, i), 1),
    };
    for (const [name, other] of Object.entries(others)) {
      expect(Math.abs(correlation(base, other)), name).toBeLessThan(4);
    }
  });

  it('would be refused by the same tests if there were only four rounds', () => {
    const four = drawsOf((item, place) => threefryRounds(4, [KEY, 0], [item, place]));
    expect(Math.max(...four.map((row) => Math.abs(unevenness(row))))).toBeGreaterThan(4);
  });
});

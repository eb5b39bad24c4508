import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { threefry, uniform, words } from '../../src/random/threefry.ts';
import { threefryRounds } from './rounds.ts';
import { holds } from '../support/holds.ts';

const both = (key: [number, number], counter: [number, number]): [number, number] => {
  const first = threefry(...key, ...counter);
  return [first >>> 0, words[1]! >>> 0];
};

// Known answers of the authors' own library Random123, file kat_vectors, threefry2x32 with 13 and 20 rounds.
const KNOWN = [
  { counter: [0, 0], key: [0, 0], thirteen: [0x9d1c5ec6, 0x8bd50731], twenty: [0x6b200159, 0x99ba4efe] },
  {
    counter: [0xffffffff, 0xffffffff],
    key: [0xffffffff, 0xffffffff],
    thirteen: [0xfd36d048, 0x2d17272c],
    twenty: [0x1cb996fc, 0xbb002be7],
  },
  {
    counter: [0x243f6a88, 0x85a308d3],
    key: [0x13198a2e, 0x03707344],
    thirteen: [0xba3e4725, 0xf27d669e],
    twenty: [0xc4923a9c, 0x483df7a0],
  },
] as { counter: [number, number]; key: [number, number]; thirteen: number[]; twenty: number[] }[];

describe('threefry', () => {
  it('gives the published answers for thirteen rounds', () => {
    for (const { key, counter, thirteen } of KNOWN) expect(both(key, counter)).toEqual(thirteen);
  });

  it('is checked against a plain form that gives the published answers for thirteen and twenty rounds', () => {
    for (const { key, counter, thirteen, twenty } of KNOWN) {
      expect(threefryRounds(13, key, counter)).toEqual(thirteen);
      expect(threefryRounds(20, key, counter)).toEqual(twenty);
    }
  });

  it('agrees with the plain form for any key and counter, signed or not', () => {
    const word = fc.integer({ min: -(2 ** 31), max: 2 ** 32 - 1 });
    holds(
      fc.property(fc.tuple(word, word), fc.tuple(word, word), (key, counter) => {
        expect(both(key, counter)).toEqual(threefryRounds(13, key, counter));
      }),
      { numRuns: 500 },
    );
  });

  it('returns the first word and leaves the second as signed 32-bit integers', () => {
    holds(
      fc.property(fc.integer(), fc.integer(), (key, counter) => {
        const first = threefry(key, 0, counter, 0);
        expect(first | 0).toBe(first);
        expect(words[1]! | 0).toBe(words[1]);
      }),
    );
  });
});

describe('uniform', () => {
  it("is the middle of the word's 2^32nd part, open at both ends", () => {
    expect(uniform(0)).toBe(2 ** -33);
    expect(uniform(-1)).toBe(1 - 2 ** -33);
    expect(uniform(0x7fffffff)).toBe(0.5 - 2 ** -33);
    expect(uniform(-0x80000000)).toBe(0.5 + 2 ** -33);
  });
});

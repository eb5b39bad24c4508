import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileTime, CompiledTime, LIST, sample, sampleBeyond } from '../../src/duration/compile.ts';
import { curveOf } from '../../src/duration/time.ts';
import { counter, PURPOSE, seedKey } from '../../src/random/keys.ts';
import { threefry, uniform } from '../../src/random/threefry.ts';
import { CASES } from './cases.ts';
import { momentsOfSampler } from './stratified.ts';
import { holds } from '../support/holds.ts';

const word = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });
const nearAnEnd = fc
  .tuple(fc.integer({ min: 0, max: 40 }), fc.constantFrom(0, -1))
  .map(([distance, flip]) => distance ^ flip);
const anyWord = fc.oneof({ arbitrary: word, weight: 4 }, nearAnEnd);
const KEY = seedKey('times');
const SEED = 20_261_127;

describe('sample', () => {
  it('has the mean of the curve within 1e-6 and its standard deviation within 1e-5, added up over all words', () => {
    for (const time of CASES) {
      const made = compileTime(time);
      const { mean, variance } = momentsOfSampler(made);
      // The steps of a list fall between the words that are added up.
      const slack = made.kind === LIST ? 50 : 1;
      expect(Math.abs(mean - made.mean), JSON.stringify(time)).toBeLessThanOrEqual(slack * 1e-6 * made.mean);
      expect(
        Math.abs(Math.sqrt(Math.max(0, variance)) - made.standardDeviation),
        JSON.stringify(time),
      ).toBeLessThanOrEqual(slack * 1e-5 * made.standardDeviation + 1e-9);
    }
  });

  it("is the exact quantile of the word's place within 1e-5, half a millisecond in a minute", () => {
    const made = CASES.map((time) => compileTime(time));
    holds(
      fc.property(anyWord, fc.nat(CASES.length - 1), (drawn, i) => {
        const time = made[i]!;
        const exact = time.quantile(uniform(drawn));
        expect(Math.abs(sample(time, drawn) - exact), JSON.stringify(CASES[i])).toBeLessThanOrEqual(
          1e-5 * Math.max(time.mean, exact),
        );
      }),
      { numRuns: 20_000, seed: SEED },
    );
  });

  it("never falls as the word's place rises, across bins and octaves and into both ends", () => {
    for (const time of CASES) {
      const made = compileTime(time);
      let last = 0;
      for (const unsigned of risingWords()) {
        const minutes = sample(made, unsigned | 0);
        expect(minutes, `${JSON.stringify(time)} at ${unsigned}`).toBeGreaterThanOrEqual(
          last - 1e-12 * made.mean,
        );
        last = minutes;
      }
    }
  });

  it('does not depend on what was drawn before', () => {
    const words = Array.from({ length: 3000 }, (_, i) => threefry(KEY, 7, i, 0));
    for (const time of CASES) {
      const forwards = new CompiledTime(curveOf(time).distribution(time));
      const backwards = new CompiledTime(curveOf(time).distribution(time));
      const first = words.map((drawn) => sample(forwards, drawn));
      const second = words
        .toReversed()
        .map((drawn) => sample(backwards, drawn))
        .reverse();
      expect(second).toEqual(first);
      expect(words.map((drawn) => sample(forwards, drawn))).toEqual(first);
    }
  });

  it('over keyed draws has the mean of theory, and a tenth of its times in the slowest tenth, within 3.3 standard errors', () => {
    const draws = 200_000;
    CASES.forEach((time, step) => {
      const made = compileTime(time);
      const slow = made.percentile(90);
      let sum = 0;
      let slower = 0;
      for (let unit = 0; unit < draws; unit++) {
        const minutes = sample(made, threefry(KEY, 1, unit, counter(PURPOSE.TASK, step, 0)));
        sum += minutes;
        if (minutes > slow) slower++;
      }
      const error = made.standardDeviation / Math.sqrt(draws);
      expect(Math.abs(sum / draws - made.mean), JSON.stringify(time)).toBeLessThanOrEqual(
        3.3 * error + 1e-9 * made.mean,
      );
      if (made.percentile(88) < made.percentile(89) && made.percentile(89) < slow * (1 - 1e-9)) {
        expect(Math.abs(slower / draws - 0.1), JSON.stringify(time)).toBeLessThanOrEqual(
          3.3 * Math.sqrt(0.09 / draws),
        );
      }
    });
  });
});

describe('sampleBeyond', () => {
  it('is at least what was worked, and what a fresh draw would be where nothing was', () => {
    holds(
      fc.property(
        anyWord,
        fc.constantFrom(...CASES),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (drawn, time, worked) => {
          const made = compileTime(time);
          expect(sampleBeyond(made, drawn, worked)).toBeGreaterThanOrEqual(worked);
          expect(sampleBeyond(made, drawn, 0)).toBe(sample(made, drawn));
        },
      ),
      { numRuns: 2000, seed: SEED },
    );
  });

  it('has no memory for the exponential: the time left after any work has the mean of a fresh one, within 3.3 standard errors', () => {
    const made = compileTime({ curve: 'exponential', mean: 8 });
    const draws = 20_000;
    let left = 0;
    for (let unit = 0; unit < draws; unit++) left += sampleBeyond(made, threefry(KEY, 2, unit, 0), 11) - 11;
    expect(Math.abs(left / draws - 8)).toBeLessThanOrEqual((3.3 * 8) / Math.sqrt(draws));
  });

  it('of 2 to 10 minutes alike, with 6 worked, is 6 to 10 alike', () => {
    const made = compileTime({ curve: 'uniform', least: 2, most: 10 });
    for (const drawn of [0, 1 << 30, -(2 ** 31), -(1 << 30), -1])
      expect(sampleBeyond(made, drawn, 6)).toBeCloseTo(6 + 4 * uniform(drawn), 9);
  });

  it('of observations is one of those that are longer', () => {
    const made = compileTime({ curve: 'observed', values: [3, 4, 5, 9] });
    const drawn = new Set(
      Array.from({ length: 200 }, (_, unit) => sampleBeyond(made, threefry(KEY, 3, unit, 0), 4)),
    );
    expect([...drawn].sort()).toEqual([5, 9]);
  });

  it('ends at once where no time is as long as what was worked', () => {
    expect(sampleBeyond(compileTime({ curve: 'uniform', least: 2, most: 10 }), 5, 12)).toBe(12);
    expect(sampleBeyond(compileTime(7), 5, 8)).toBe(8);
    expect(sampleBeyond(compileTime(7), 5, 3)).toBe(7);
  });
});

describe('compileTime', () => {
  it('makes equal times once and different ones apart, and keeps doing so after a thousand others', () => {
    expect(compileTime({ mean: 8, cv: 0.5 })).toBe(compileTime({ mean: 8, cv: 0.5 }));
    expect(compileTime({ mean: 8, cv: 0.5 })).not.toBe(compileTime({ mean: 8, cv: 0.51 }));
    const before = sample(compileTime({ mean: 8, cv: 0.5 }), 12_345);
    for (let i = 1; i <= 1000; i++) expect(compileTime({ mean: i, cv: 0.5 }).mean).toBe(i);
    expect(sample(compileTime({ mean: 8, cv: 0.5 }), 12_345)).toBe(before);
  });
});

/** Words ascending as unsigned numbers, bunched round the ends of octaves and bins. */
function* risingWords(): Generator<number> {
  const places = new Set<number>();
  for (let octave = 0; octave < 31; octave++) {
    for (let part = 0; part < 16; part++) {
      const at = 2 ** octave + Math.floor((part * 2 ** octave) / 16);
      for (const near of [at - 1, at, at + 1]) {
        places.add(near);
        places.add(2 ** 32 - 1 - near);
      }
    }
  }
  yield* [...places].sort((a, b) => a - b);
}

import seedrandom from 'seedrandom';
import { describe, expect, test } from 'vitest';
import { coverage, type CoverageStudy } from '../../src/study/coverage.ts';
import { studentQuantile } from '../../src/study/intervals/student-quantile.ts';
import {
  createStopping,
  lookAt,
  planTotal,
  STOPPING,
  tellDifferences,
  tellRow,
} from '../../src/study/stopping.ts';

const alternate =
  (spread: number) =>
  (i: number): number[] => [i % 2 === 0 ? spread : -spread];

function feed(
  stopping: ReturnType<typeof createStopping>,
  row: (i: number) => number[],
  upTo = Infinity,
): void {
  for (let i = stopping.done; i < upTo && tellRow(stopping, row(i)); i++);
}

describe('the two-stage rule', () => {
  test('fixes the number of replications from the first stage and never again', () => {
    const stopping = createStopping(1, { first: 40, precision: 0.25 });
    feed(stopping, alternate(2), 40);
    const variance = (4 * 40) / 39;
    const expected = Math.ceil(variance * (studentQuantile(0.95, 39) / 0.25) ** 2);
    expect(lookAt(stopping)).toMatchObject({ kind: 'interim', enough: false, done: 40, needed: expected });
    feed(stopping, alternate(50));
    expect(lookAt(stopping)).toMatchObject({
      kind: 'final',
      enough: true,
      done: expected,
      needed: expected,
      capped: false,
    });
    expect(tellRow(stopping, [0])).toBe(false);
    expect(stopping.done).toBe(expected);
  });

  test('reaches the precision for every column, the widest deciding', () => {
    const stopping = createStopping(3, { first: 50, precision: 0.3 });
    feed(stopping, (i) => [i % 2, (i % 3) * 2, i % 5]);
    const { ranges } = lookAt(stopping);
    for (const range of ranges) expect(range.half).toBeLessThanOrEqual(0.3);
    expect(Math.max(...ranges.map((range) => range.half))).toBeGreaterThan(0.29);
  });

  test('stops at the cap, says so, and states the half-width it reached', () => {
    const stopping = createStopping(1, { first: 100, precision: 0.01, most: 200 });
    feed(stopping, alternate(3));
    const look = lookAt(stopping);
    expect(look).toMatchObject({ enough: true, done: 200, capped: true });
    expect(look.ranges[0]!.half).toBeGreaterThan(0.3);
    const short = createStopping(1, { most: 60 });
    feed(short, alternate(0));
    expect(lookAt(short)).toMatchObject({ done: 60, enough: true });
  });

  test('does not take a first stage without a difference as proof of none', () => {
    const stopping = createStopping(1);
    feed(stopping, () => [0]);
    const { half } = lookAt(stopping).ranges[0]!;
    expect(half).toBeGreaterThan(0.01);
    expect(half).toBeLessThan(0.25);
    const money = createStopping(1, { grain: 0 });
    feed(money, () => [0]);
    expect(lookAt(money).ranges[0]!.half).toBe(0);
  });

  test('takes differences pair by pair, and can be looked at before anything is in', () => {
    const stopping = createStopping(1, { first: 2 });
    expect(lookAt(stopping).ranges[0]!.half).toBe(Infinity);
    tellDifferences(stopping, [7, 3], 1, [5], 0);
    expect(lookAt(stopping).ranges[0]!.estimate).toBe(2);
  });

  test('the interim range during the first stage is the ordinary one', () => {
    const stopping = createStopping(1);
    feed(stopping, alternate(1), 10);
    expect(lookAt(stopping).ranges[0]!.half).toBeCloseTo(
      studentQuantile(0.95, 9) * Math.sqrt(10 / 9 / 10),
      12,
    );
  });

  test('what cannot be measured asks for nothing more', () => {
    expect(planTotal([NaN, 0], STOPPING)).toMatchObject({ total: 200, capped: false });
    const single = createStopping(1, { most: 1 });
    tellRow(single, [3]);
    expect(lookAt(single)).toMatchObject({
      enough: true,
      done: 1,
      ranges: [{ estimate: 3, half: Infinity }],
    });
    expect(() => createStopping(1, { precision: 0 })).toThrow(RangeError);
    expect(() => createStopping(1, { first: 0 })).toThrow(RangeError);
  });
});

/**
 * Three options in whole units: the second adds 0, 2 or 3, the third one more in a fifth of the shifts; the
 * base is skewed.
 */
function wholeUnits(name: string): CoverageStudy {
  let random = seedrandom(name);
  return {
    repeats: 8000,
    settings: { precision: 0.15 },
    differences: [
      { before: 0, after: 1 },
      { before: 1, after: 2 },
    ],
    target: 20,
    // Base 23 less a geometric number with ratio 0.6: mean 23 - 1.5, P(base >= 20) = 1 - 0.6 ^ 4; the rest by
    // hand.
    truth: {
      means: [21.5, 23.4, 23.6],
      chances: [
        1 - 0.6 ** 4,
        0.2 * (1 - 0.6 ** 4) + 0.5 * (1 - 0.6 ** 6) + 0.3 * (1 - 0.6 ** 7),
        0.8 * (0.2 * (1 - 0.6 ** 4) + 0.5 * (1 - 0.6 ** 6) + 0.3 * (1 - 0.6 ** 7)) +
          0.2 * (0.2 * (1 - 0.6 ** 5) + 0.5 * (1 - 0.6 ** 7) + 0.3 * (1 - 0.6 ** 8)),
      ],
    },
    sample: (repeat, from, count) => {
      if (from === 0) random = seedrandom(`${name} ${repeat}`);
      const options: number[][] = [[], [], []];
      for (let i = 0; i < count; i++) {
        const base = 23 - Math.floor(Math.log(1 - random()) / Math.log(0.6));
        const luck = random();
        const second = base + (luck < 0.2 ? 0 : luck < 0.7 ? 2 : 3);
        options[0]!.push(base);
        options[1]!.push(second);
        options[2]!.push(second + (random() < 0.2 ? 1 : 0));
      }
      return options;
    },
  };
}

describe('coverage with the stopping rule at work', () => {
  test('holds exactly as often as stated for normal differences, whatever their number turns out to be', () => {
    let random = seedrandom('normal');
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const { covers, replications } = coverage({
      repeats: 2000,
      settings: { first: 10, precision: 0.7, grain: 0 },
      differences: [{ before: 0, after: 1 }],
      target: 0,
      // Normal with mean 1 and deviation 2 is over 0 with chance Phi(1/2).
      truth: { means: [0, 1], chances: [0.5, 0.6914624612740131] },
      sample: (repeat, from, count) => {
        if (from === 0) random = seedrandom(`normal ${repeat}`);
        const before = Array.from({ length: count }, normal);
        return [before, before.map((value) => value + 1 + Math.sqrt(3) * normal())];
      },
    });
    const difference = covers.find((cover) => cover.kind === 'difference')!;
    expect(difference.share.low).toBeLessThan(0.95);
    expect(difference.share.high).toBeGreaterThan(0.95);
    // Variance 3 and t = 2.262: about 3 (2.262 / 0.7)^2 = 31 replications.
    expect(replications).toBeGreaterThan(27);
    expect(replications).toBeLessThan(36);
  });

  test('in whole units, on a base as skewed as an exponential, ranges hold within one per cent of what they say', () => {
    const result = coverage(wholeUnits('coverage'));
    expect(result.covers).toHaveLength(3 + 3 + 2 + 1);
    for (const cover of result.covers) expect(cover.share.estimate).toBeGreaterThan(0.94);
    // Ranges that always hold would be too wide to be of use: those of means and chances must miss now and
    // then.
    for (const cover of result.covers.slice(0, 6)) expect(cover.share.estimate).toBeLessThan(0.96);
    expect(result.capped).toBe(0);
    expect(result.replications).toBeGreaterThan(200);
  });

  test('looking until it looks good, with ordinary ranges, would not hold: the check can fail', () => {
    let held = 0;
    for (let repeat = 0; repeat < 1000; repeat++) {
      const random = seedrandom(`peeking ${repeat}`);
      let [count, mean, squares] = [0, 0, 0];
      do {
        const value = -Math.log(1 - random());
        count += 1;
        const away = value - mean;
        mean += away / count;
        squares += away * (value - mean);
      } while (
        count < 5 ||
        studentQuantile(0.95, count - 1) * Math.sqrt(squares / (count - 1) / count) > 0.4
      );
      held += Math.abs(mean - 1) <= 0.4 ? 1 : 0;
    }
    expect(held).toBeLessThan(930);
  });
});

import seedrandom from 'seedrandom';
import { describe, expect, test } from 'vitest';
import { budgetAllocation } from './budget-allocation.ts';
import { createChanceTest, leaning, narrowed, tellChance } from '../../../src/study/selection/chance-test.ts';
import { correctSelections } from './correct-selections.ts';
import { kimNelson, type KimNelsonSettings } from '../../../src/study/selection/kim-nelson.ts';
import { conduct, conductNow, type Ask } from '../../../src/study/selection/procedure.ts';
import { rinott } from './rinott.ts';

/** Two normal numbers from two even ones (Box and Muller 1958); one is used. */
const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/**
 * Normal observations of candidates with these means; `common` of the variance is luck all candidates share.
 */
function cell(means: number[], spread: number, common: number) {
  return (repeat: number, { candidate, from, count }: Ask): number[] =>
    Array.from({ length: count }, (_, i) => {
      const shared = normal(seedrandom(`${repeat} ${from + i}`));
      const own = normal(seedrandom(`${repeat} ${candidate} ${from + i}`));
      return means[candidate]! + spread * (Math.sqrt(common) * shared + Math.sqrt(1 - common) * own);
    });
}

const rehearse = (
  settings: KimNelsonSettings,
  means: number[],
  common: number,
  repeats: number,
  procedure = kimNelson,
) =>
  correctSelections({
    repeats,
    procedure: () => procedure(settings),
    sample: cell(means, 1, common),
    right: (choice) => choice.chosen === 0,
    cost: (choice) => choice.taken.reduce((sum, count) => sum + count, 0),
  });

describe('the sequential selection', () => {
  const settings: KimNelsonSettings = {
    candidates: 4,
    better: 'less',
    matters: 0.5,
    guarantee: 0.9,
    first: 10,
    block: 5,
  };
  const hardest = [0, 0.5, 0.5, 0.5];

  test('finds the best at least as often as promised where the others are all just worse', () => {
    const result = rehearse(settings, hardest, 0, 300);
    expect(result.share.high).toBeGreaterThan(0.9);
    expect(result.share.estimate).toBeGreaterThan(0.9);
  });

  test('needs far fewer shifts where luck is shared, and fewer than two stages need', () => {
    const apart = rehearse(settings, hardest, 0, 60);
    const together = rehearse(settings, hardest, 0.9, 60);
    const staged = rehearse(settings, hardest, 0, 60, rinott);
    expect(together.share.estimate).toBeGreaterThan(0.9);
    expect(together.replications).toBeLessThan(0.5 * apart.replications);
    expect(staged.share.estimate).toBeGreaterThan(0.9);
    expect(rehearse(settings, [0, 1, 1.5, 2], 0, 60).replications).toBeLessThan(0.5 * staged.replications);
  });

  test('is the same whether asks are answered side by side or in turn, and asks for nothing twice', async () => {
    const sample = cell(hardest, 1, 0.5);
    const asked = new Set<string>();
    const now = conductNow(kimNelson(settings), (ask) => {
      for (let i = 0; i < ask.count; i++) {
        const key = `${ask.candidate} ${ask.from + i}`;
        expect(asked.has(key)).toBe(false);
        asked.add(key);
      }
      return sample(7, ask);
    });
    const later = await conduct(kimNelson(settings), async (ask) => {
      await new Promise((resolve) => setTimeout(resolve, ask.candidate === 0 ? 3 : 0));
      return sample(7, ask);
    });
    expect(later).toEqual(now);
    expect(asked.size).toBe(now.taken.reduce((sum, count) => sum + count, 0));
  });

  test('ends on ties, on no spread, on one candidate, and at the cap', () => {
    const always =
      (values: number[]) =>
      ({ candidate, count }: Ask): number[] =>
        new Array<number>(count).fill(values[candidate]!);
    expect(conductNow(kimNelson({ ...settings, candidates: 3 }), always([5, 4, 4]))).toMatchObject({
      chosen: 1,
      capped: false,
    });
    expect(conductNow(kimNelson({ ...settings, candidates: 1 }), always([5]))).toMatchObject({
      chosen: 0,
      taken: [10],
    });
    const capped = conductNow(kimNelson({ ...settings, most: 12, matters: 0.001 }), (ask) =>
      cell(hardest, 1, 0)(1, ask),
    );
    expect(capped.capped).toBe(true);
    expect(Math.max(...capped.taken)).toBe(12);
    expect(() => conductNow(kimNelson({ ...settings, matters: 0 }), always([1]))).toThrow(RangeError);
  });

  test('looks for more or for less, as told', () => {
    const sample = cell([0, 3, 1], 1, 0);
    expect(
      conductNow(kimNelson({ ...settings, candidates: 3, better: 'more' }), (ask) => sample(3, ask)).chosen,
    ).toBe(1);
    expect(conductNow(kimNelson({ ...settings, candidates: 3 }), (ask) => sample(3, ask)).chosen).toBe(0);
  });
});

describe('the test of a chance', () => {
  const run = (chance: number, name: string, error = 0.05) => {
    const random = seedrandom(name);
    const one = createChanceTest(0.8, 0.05, error);
    while (one.answer === 'open') tellChance(one, random() < chance);
    return one;
  };

  test('is wrong no more often than allowed at either edge of its zone, and the allowance is used', () => {
    let [low, high] = [0, 0];
    for (let repeat = 0; repeat < 2000; repeat++) {
      low += run(0.75, `low ${repeat}`).answer === 'reaches' ? 1 : 0;
      high += run(0.85, `high ${repeat}`).answer === 'misses' ? 1 : 0;
    }
    // 2000 x 0.05 = 100, standard deviation under 10.
    for (const wrong of [low, high]) {
      expect(wrong).toBeLessThan(125);
      expect(wrong).toBeGreaterThan(40);
    }
  });

  test('answers the sooner the clearer the case', () => {
    const mean = (chance: number): number =>
      Array.from({ length: 200 }, (_, i) => run(chance, `clear ${i}`).tested).reduce((a, b) => a + b) / 200;
    expect(mean(0.98)).toBeLessThan(mean(0.86));
    expect(mean(0.3)).toBeLessThan(20);
  });

  test('narrows its zone near 0 and 1, leans where it has to, and changes nothing once answered', () => {
    expect(narrowed(0.98, 0.05)).toBeCloseTo(0.01, 12);
    expect(narrowed(0.5, 0.05)).toBe(0.05);
    const one = createChanceTest(0.5, 0.4, 0.4);
    expect(leaning(one)).toBe('reaches');
    tellChance(one, false);
    expect(one).toMatchObject({ answer: 'misses', tested: 1 });
    tellChance(one, true);
    expect(one).toMatchObject({ answer: 'misses', tested: 1, successes: 0 });
    for (const bad of [
      () => createChanceTest(1, 0.05, 0.05),
      () => createChanceTest(0.8, 0, 0.05),
      () => createChanceTest(0.8, 0.05, 0.5),
    ]) {
      expect(bad).toThrow(RangeError);
    }
  });
});

test('a budget goes where it tells candidates apart, ties and single candidates included', () => {
  const even = budgetAllocation([1, 1, 5], [1, 1, 1], 100);
  expect(even.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 9);
  expect(budgetAllocation([10, 10, 1], [1, 1, 1], 100)[2]).toBeLessThan(1);
  expect(budgetAllocation([3], [2], 40)).toEqual([40]);
  expect(() => budgetAllocation([1, 2], [1], 10)).toThrow(RangeError);
});

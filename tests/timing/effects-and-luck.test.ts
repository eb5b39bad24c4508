import { describe, expect, it } from 'vitest';
import { compileTime } from '../../src/duration/compile.ts';
import { scenarioSchema } from '../../src/scenario/schema.ts';
import { driftOf, driftsOf } from '../../src/timing/drift.ts';
import { effectsOf, leastSquares } from '../../src/timing/effects.ts';
import { groupsOf } from '../../src/timing/groups.ts';
import { coverageOfLog, type LogEntry } from '../../src/timing/log-coverage.ts';
import { luckOf } from '../../src/timing/luck.ts';
import { momentsOf, quantileOf } from '../../src/timing/maximum-likelihood.ts';
import { resampleScenario } from '../../src/timing/resample.ts';
import { chanceOverResamples, splitUncertainty } from '../../src/timing/split-uncertainty.ts';
import { fitStep } from '../../src/timing/step-fit.ts';
import { CELL, observation, timesFrom } from './support.ts';

const even = { curve: 'lognormal' as const, mu: 0, sigma: 0.2 };
const normal =
  (luck: (i: number) => number) =>
  (i: number): number =>
    Math.log(quantileOf({ curve: 'lognormal', mu: 0, sigma: 1 }, luck(i)));

describe('effects of products and people', () => {
  const noise = timesFrom(even, 240, 1);
  const shopOf = (factors: number[]) =>
    factors.map((factor, i) => {
      const product = i % 3 === 0 ? 'bent' : 'straight';
      // Kofi gets most of the bent ones; he is no slower for that.
      const person = i % 3 === 0 ? (i % 4 === 0 ? 'orla' : 'kofi') : i % 4 === 1 ? 'kofi' : 'orla';
      return observation('fit', 14 * factor * (product === 'bent' ? 1.5 : 1), { product, person });
    });
  const shop = shopOf(noise);
  it('finds the longer product, and blames the person who mostly got it no more often than luck may', () => {
    let [blamed, held] = [0, 0];
    for (let study = 0; study < 200; study += 1) {
      const { effects } = effectsOf(shopOf(timesFrom(even, 240, 300 + study)));
      const bent = effects.find((one) => one.id === 'bent')!;
      const kofi = effects.find((one) => one.id === 'kofi')!;
      expect(bent.verdict).toBe('longer');
      if (kofi.verdict !== 'cannot tell') blamed += 1;
      if (bent.low < 1.5 && 1.5 < bent.high && kofi.low < 1 && 1 < kofi.high) held += 1;
    }
    // Two ranges that hold together in at least 95 %: each misses in 2.5 %. Binomial(200, 0.025): mean 5,
    // standard deviation 2.2; both hold: at least 190, standard deviation 3.1; 3.3 of them either side.
    expect(blamed).toBeLessThan(13);
    expect(held).toBeGreaterThan(179);
  });
  it('says that it cannot tell where product and person always go together', () => {
    const tied = noise.map((factor, i) =>
      observation(
        'fit',
        14 * factor,
        i % 2 ? { product: 'bent', person: 'kofi' } : { product: 'straight', person: 'orla' },
      ),
    );
    for (const effect of effectsOf(tied).effects)
      expect([effect.verdict, Number.isNaN(effect.ratio)]).toEqual(['cannot tell', true]);
  });
  it('says that it cannot tell from two times', () => {
    const effects = effectsOf([
      ...shop.slice(0, 30),
      observation('fit', 40, { product: 'straight', person: 'wren' }),
    ]).effects;
    expect(effects.find((one) => one.id === 'wren')!.sentence).toBe('wren: cannot tell from one time.');
  });
  it('leaves out times without a name where others have one, and says how many', () => {
    expect(effectsOf([...shop, observation('fit', 14)])).toMatchObject({ count: 240, leftOut: 1 });
    expect(effectsOf([observation('fit', 14)]).effects).toEqual([]);
  });
  it('holds a true ratio of 1 in 95 % of lists of 40', () => {
    let held = 0;
    for (let study = 0; study < 400; study += 1) {
      const list = timesFrom(even, 40, 1000 + study).map((minutes, i) =>
        observation('fit', minutes, { person: i % 2 ? 'kofi' : 'orla' }),
      );
      const [effect] = effectsOf(list).effects;
      if (effect!.low < 1 && effect!.high > 1) held += 1;
    }
    // Binomial(400, 0.95): mean 380, standard deviation 4.36; 3.3 of them either side.
    expect(held).toBeGreaterThan(365);
    expect(held).toBeLessThan(395);
  });
  it('solves a line through four points as by hand', () => {
    // x 1 2 3 4, y 2 4 5 4: slope 0.7, intercept 2, residual sum 2.3; slope variance 1.15 / 5.
    const fit = leastSquares(
      [
        [1, 1],
        [1, 2],
        [1, 3],
        [1, 4],
      ],
      [2, 4, 5, 4],
    );
    expect(fit.estimates[0]).toBeCloseTo(2, 12);
    expect(fit.estimates[1]).toBeCloseTo(0.7, 12);
    expect(fit.variances[1]).toBeCloseTo(1.15 / 5, 12);
    expect(fit.degrees).toBe(2);
  });
  it('solves rows that stand for several as it does the several', () => {
    const each = leastSquares(
      [
        [1, 0],
        [1, 0],
        [1, 1],
        [1, 1],
        [1, 1],
      ],
      [1, 3, 4, 5, 9],
    );
    const together = leastSquares(
      [
        [1, 0],
        [1, 1],
      ],
      [2, 6],
      [2, 3],
      2 + 14,
    );
    expect(together.estimates).toEqual(each.estimates.map((value) => expect.closeTo(value, 12)));
    expect(together.variances).toEqual(each.variances.map((value) => expect.closeTo(value, 12)));
    expect([together.degrees, together.deviation]).toEqual([3, expect.closeTo(each.deviation, 12)]);
  });
});

describe('resampled scenarios', () => {
  const sand = { curve: 'lognormal' as const, mu: 3, sigma: 0.3 };
  const fitOf = (minutes: number[]) =>
    fitStep(
      groupsOf(
        CELL,
        minutes.map((value) => observation('sand', value)),
      )[0]!,
      { draws: 0 },
    );
  const fits = [fitOf(timesFrom(sand, 25, 1))];

  it('are the same for the same number and different for another, and stay good files', () => {
    const [first, again, other] = [1, 1, 2].map((b) => resampleScenario(CELL, fits, luckOf('demo', b, 0)));
    expect(first).toEqual(again);
    expect(first!.steps.sand!.time).not.toEqual(other!.steps.sand!.time);
    expect(first!.steps.fit).toEqual(CELL.steps.fit);
    expect(scenarioSchema.safeParse(first).success).toBe(true);
  });

  it('keep the kind of curve, for every kind', () => {
    for (const use of ['lognormal', 'gamma', 'weibull', 'quick-usual-slow', 'observed'] as const) {
      const fit = fitStep(
        groupsOf(
          CELL,
          timesFrom(sand, 25, 1).map((value) => observation('sand', value)),
        )[0]!,
        { draws: 0, use },
      );
      const time = resampleScenario(CELL, [fit], luckOf('demo', 1, 0)).steps.sand!.time;
      expect(Object.keys(time)).toEqual(Object.keys(fit.chosen!.time));
    }
  });

  it('hold the true mean in about as many of their middle 80 % ranges as they claim, from 25 times', () => {
    const truth = momentsOf(sand).mean;
    const [studies, resamples] = [300, 99];
    let held = 0;
    for (let study = 0; study < studies; study += 1) {
      const fit = fitOf(timesFrom(sand, 25, 5000 + study));
      const means = Array.from(
        { length: resamples },
        (_, b) =>
          compileTime(resampleScenario(CELL, [fit], luckOf(`study ${study}`, b, 0)).steps.sand!.time).mean,
      ).sort((a, b) => a - b);
      if (means[9]! <= truth && truth <= means[89]!) held += 1;
    }
    // Binomial(300, 0.8): mean 240, standard deviation 6.9; 3.3 of them either side (seen: see the message).
    expect(held, `held ${held} of ${studies}`).toBeGreaterThan(217);
    expect(held, `held ${held} of ${studies}`).toBeLessThan(263);
  });
});

describe('luck and not knowing the times, apart', () => {
  const results = (
    input: number,
    luck: number,
    resamples: number,
    shifts: number,
    seed: number,
  ): number[][] => {
    const draw = normal(luckOf('split', seed, 0));
    return Array.from({ length: resamples }, (_, b) => {
      const mean = 20 + input * draw(b);
      return Array.from({ length: shifts }, (_, r) => mean + luck * draw(10_000 + b * shifts + r));
    });
  };
  it('finds both parts again', () => {
    const split = splitUncertainty(results(1, 2, 400, 50, 1))!;
    // 400 groups: relative standard error of a standard deviation about 1 / sqrt(2 x 399) = 3.5 %, of the
    // luck 0.5 %.
    expect(Math.abs(split.input - 1)).toBeLessThan(0.13);
    expect(Math.abs(split.luck - 2)).toBeLessThan(0.04);
    expect(split.share).toBeCloseTo(0.2, 1);
  });
  it('widens the range of single shifts by the input part only', () => {
    const { shifts } = splitUncertainty(results(1.5, 2, 400, 50, 2))!;
    // Normal: 80 % is 1.28155 standard deviations either side; 2 alone, 2.5 together.
    expect((shifts.luckOnly.high - shifts.luckOnly.low) / 2).toBeCloseTo(1.28155 * 2, 1);
    expect(Math.abs((shifts.widened.high - shifts.widened.low) / 2 - 1.28155 * 2.5)).toBeLessThan(0.2);
  });
  it('finds no input part where there is luck alone, about every other time exactly none', () => {
    const none = Array.from({ length: 40 }, (_, seed) =>
      splitUncertainty(results(0, 2, 30, 20, 100 + seed))!,
    );
    expect(none.filter((split) => split.input === 0).length).toBeGreaterThan(10);
    expect(none.every((split) => split.input < 0.5)).toBe(true);
  });
  it('agrees with the published layout by hand: 1 3 | 5 7 | 9 11', () => {
    // Means 2 6 10; between 2 x (16 + 0 + 16) / 2 = 32; within 6 x 1 / 3 = 2; input (32 - 2) / 2 = 15.
    const split = splitUncertainty([
      [1, 3],
      [5, 7],
      [9, 11],
    ])!;
    expect([split.mean, split.luck ** 2, split.input ** 2]).toEqual([
      6,
      expect.closeTo(2, 12),
      expect.closeTo(15, 12),
    ]);
  });
  it('says nothing from one resample or from single shifts', () => {
    expect([splitUncertainty([[1, 2, 3]]), splitUncertainty([[1], [2]]), splitUncertainty([])]).toEqual([
      null,
      null,
      null,
    ]);
  });
  it('gives the chance of a target over the resamples', () => {
    expect(
      chanceOverResamples(
        [
          [20, 22, 24, 26],
          [18, 20, 22, 22],
        ],
        22,
      ).chance,
    ).toBeCloseTo(0.625, 12);
  });
});

describe('forecast and fact', () => {
  const entry = (good: number, day: number): LogEntry => ({
    date: `2024-03-${String(day).padStart(2, '0')}`,
    forecast: { p10: 18, p50: 20, p90: 22, chance: 0.5 },
    target: 21,
    good,
  });
  it('counts what fell inside, below and above, with Wilson’s range', () => {
    // Newcombe 1998 [R]: 0 of 20 gives 0 to 0.1611252.
    const missed = coverageOfLog(Array.from({ length: 20 }, (_, i) => entry(10, i + 1)));
    expect(missed).toMatchObject({
      count: 20,
      inside: 0,
      below: 20,
      above: 0,
      verdict: 'too narrow',
      bias: -10,
    });
    expect(missed.share.high).toBeCloseTo(0.1611252, 6);
  });
  it('says that the ranges hold, are too wide, or that there is too little to say', () => {
    const goods = [19, 20, 25, 21, 20, 17, 19, 22, 18, 20];
    expect(coverageOfLog(goods.map(entry)).verdict).toBe('holds');
    expect(coverageOfLog(Array.from({ length: 30 }, (_, i) => entry(20, i + 1))).verdict).toBe('too wide');
    expect(coverageOfLog(goods.slice(0, 4).map(entry)).verdict).toBe('too few to say');
    expect(coverageOfLog(goods.map(entry)).target).toEqual({ count: 10, met: 3, expected: 5 });
  });
  it('follows the share over time in order of date', () => {
    const { overTime } = coverageOfLog([entry(20, 3), entry(30, 1), entry(20, 2)], 2);
    expect(overTime.map((one) => [one.date.slice(-2), one.inside, one.share, one.of])).toEqual([
      ['01', false, 0, 1],
      ['02', true, 0.5, 2],
      ['03', true, 1, 2],
    ]);
  });
});

describe('drift of a step', () => {
  const place = { step: 'sand', product: null, repeat: false };
  const curve = { curve: 'gamma' as const, shape: 16, scale: 1.5 };
  it('sees a quarter more, and a quarter less', () => {
    const model = { curve: 'gamma' as const, mean: 24, cv: 0.25 };
    expect(
      driftOf(
        place,
        timesFrom(curve, 25, 1).map((value) => value * 1.25),
        model,
      ).verdict,
    ).toBe('slower');
    expect(
      driftOf(
        place,
        timesFrom(curve, 25, 1).map((value) => value * 0.75),
        model,
      ).verdict,
    ).toBe('quicker');
    expect(driftOf(place, timesFrom(curve, 400, 2), model).verdict).toBe('as before');
    expect(driftOf(place, [24, 25], model).verdict).toBe('cannot tell');
  });
  it('has a range that holds the scenario’s own time in 95 % of lists of 25', () => {
    let held = 0;
    for (let study = 0; study < 400; study += 1) {
      const { low, high } = driftOf(place, timesFrom(curve, 25, 2000 + study), {
        curve: 'gamma',
        mean: 24,
        cv: 0.25,
      });
      if (low < 1 && 1 < high) held += 1;
    }
    // Binomial(400, 0.95): mean 380, standard deviation 4.36; 3.3 of them either side.
    expect(held).toBeGreaterThan(365);
    expect(held).toBeLessThan(395);
  });
  it('looks at every step with observations, each against its own time', () => {
    const recent = [
      ...timesFrom(curve, 10, 3).map((value) => observation('sand', value)),
      ...[20, 21, 22].map((value) => observation('fit', value, { product: 'bent' })),
    ];
    const drifts = driftsOf(CELL, recent);
    expect(drifts.map((one) => [one.step, one.product, one.model])).toEqual([
      ['fit', 'bent', 21],
      ['sand', null, 24],
    ]);
  });
});

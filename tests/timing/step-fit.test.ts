import { describe, expect, it } from 'vitest';
import { scenarioSchema } from '../../src/scenario/schema.ts';
import { isTime } from '../../src/duration/time.ts';
import { applyFits, withTime } from '../../src/timing/apply-fits.ts';
import { curveLine, histogramOf } from '../../src/timing/chart.ts';
import { groupsOf, type Group } from '../../src/timing/groups.ts';
import { fencesOf, outliersOf } from '../../src/timing/outliers.ts';
import { ENOUGH_FOR_OBSERVED, fitStep } from '../../src/timing/step-fit.ts';
import { CELL, observation, timesFrom } from './support.ts';

const group = (minutes: number[]): Group => ({
  step: 'sand',
  product: null,
  repeat: false,
  minutes,
  observations: minutes.map((value) => observation('sand', value)),
});
const gamma = { curve: 'gamma' as const, shape: 6, scale: 4 };

describe('what an observation says about the base time', () => {
  const groups = groupsOf(CELL, [
    observation('fit', 16, { product: 'straight', person: 'orla' }),
    observation('fit', 20, { product: 'straight', person: 'kofi' }),
    observation('fit', 25, { product: 'bent', person: 'kofi' }),
    observation('sand', 30, { product: 'bent', person: 'orla' }),
    observation('sand', 9, { product: 'straight', repeat: true }),
    observation('cure', 33, { product: 'bent', person: 'kofi' }),
    observation('glue', 8),
  ]);
  it('is the observed time over the factors of the person and the product, in the place that the scenario keeps it', () => {
    expect(groups.map((one) => [one.step, one.product, one.repeat, one.minutes])).toEqual([
      ['fit', null, false, [16, 16]],
      ['fit', 'bent', false, [20]],
      ['cure', null, false, [33]],
      ['sand', null, false, [20]],
      ['sand', null, true, [9]],
    ]);
  });
  it('takes the rating instead where asked, and the allowance out where the times contain it', () => {
    const rated = [
      observation('fit', 20, { person: 'kofi', rating: 0.9 }),
      observation('fit', 20, { person: 'kofi' }),
    ];
    expect(groupsOf(CELL, rated, { pace: 'rating' })[0]!.minutes).toEqual([18, 16]);
    expect(groupsOf(CELL, rated, { pace: 'none' })[0]!.minutes).toEqual([20, 20]);
    expect(
      groupsOf(CELL, [observation('fit', 22), observation('cure', 30)], { withAllowance: true }).map((one) =>
        one.minutes[0]!.toFixed(9),
      ),
    ).toEqual(['20.000000000', '30.000000000']);
  });
});

describe('the chosen time', () => {
  it('stays the scenario’s where there are too few observations, and says so', () => {
    const fit = fitStep(group([20, 21]));
    expect(fit.chosen).toBeNull();
    expect(fit.why).toContain('too few');
    expect(applyFits(CELL, [fit])).toEqual(CELL);
  });
  it('is lognormal from few, the best curve from more, the times themselves from many', () => {
    const few = fitStep(group(timesFrom(gamma, 6, 1)));
    const more = fitStep(group(timesFrom(gamma, 30, 2)));
    const many = fitStep(group(timesFrom(gamma, ENOUGH_FOR_OBSERVED, 3)));
    expect(few.chosen!.kind).toBe('lognormal');
    expect(more.chosen!.behind).toBe(0);
    expect(Math.min(...more.candidates.flatMap((one) => (one.aic === null ? [] : [one.aic])))).toBe(
      more.chosen!.aic,
    );
    expect(many.chosen!.time).toEqual({
      curve: 'observed',
      values: many.minutes.map((value) => Number(value.toPrecision(6))),
    });
    expect(
      [few, more, many].every(
        (fit) => fit.why.length > 20 && fit.note.startsWith(`${fit.count} times taken`),
      ),
    ).toBe(true);
  });
  it('is fixed where all times are alike', () =>
    expect(fitStep(group([7, 7, 7, 7])).chosen).toMatchObject({ kind: 'fixed', time: 7 }));
  it('offers nothing that the file would refuse, however little or much the times vary', () => {
    const lists = [
      Array.from({ length: 20 }, (_, i) => 8 + i * 1e-6),
      Array.from({ length: 20 }, (_, i) => 8 + (i < 19 ? i * 1e-9 : 1)),
      Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.01 : 30 + i)),
      Array.from({ length: 20 }, (_, i) => (i < 12 ? 5 + i * 0.001 : 90 + i)),
    ];
    for (const list of lists) {
      const { candidates } = fitStep(group(list), { draws: 0 });
      expect(candidates.length).toBeGreaterThan(0);
      for (const { time } of candidates) expect(isTime(time), JSON.stringify(time)).toBe(true);
    }
  });
  it('is the user’s where the user chose', () => {
    const fit = fitStep(group(timesFrom(gamma, 30, 2)), { use: 'quick-usual-slow', draws: 0 });
    expect(fit.chosen!.kind).toBe('quick-usual-slow');
    expect(fit.chosen!.percentiles.p50).toBeCloseTo((fit.chosen!.time as { usual: number }).usual, 9);
  });
  it('finds the right kind of curve in most lists of 300', () => {
    const kinds = {
      gamma,
      weibull: { curve: 'weibull' as const, shape: 2, scale: 20 },
      lognormal: { curve: 'lognormal' as const, mu: 3, sigma: 0.6 },
    };
    for (const [kind, curve] of Object.entries(kinds)) {
      let right = 0;
      for (let study = 0; study < 20; study += 1) {
        const aic = fitStep(group(timesFrom(curve, 300, 50 + study)), { draws: 0 }).candidates.filter(
          (one) => one.aic !== null,
        );
        if (aic.find((one) => one.behind === 0)!.kind === kind) right += 1;
      }
      expect(right, kind).toBeGreaterThan(13);
    }
  });
  it('says when two kinds of piece are in one list', () => {
    const mixed = [
      ...timesFrom({ curve: 'lognormal', mu: 1.6, sigma: 0.05 }, 18, 1),
      ...timesFrom({ curve: 'lognormal', mu: 3, sigma: 0.05 }, 18, 2),
    ];
    expect(fitStep(group(mixed)).why).toContain('two kinds of piece');
  });
  it('goes into its own place in the file, with where it came from, and the file stays good', () => {
    const fits = groupsOf(CELL, [
      ...timesFrom(gamma, 12, 4).map((minutes) =>
        observation('fit', minutes, { product: 'bent', date: '2024-03-05', person: 'orla' }),
      ),
      ...timesFrom(gamma, 12, 5).map((minutes) => observation('sand', minutes, { repeat: true })),
    ]).map((one) => fitStep(one, { draws: 0 }));
    const changed = applyFits(CELL, fits);
    expect(scenarioSchema.safeParse(changed).success).toBe(true);
    expect(changed.products!.bent!.times!.fit).toEqual(fits[0]!.chosen!.time);
    expect(changed.products!.bent!.timesFrom!.fit).toMatch(/^12 times taken, 2024-03-05, one person: /);
    expect(changed.steps.sand).toMatchObject({
      time: 24,
      repeatTime: fits[1]!.chosen!.time,
      timesFrom: { repeatTime: fits[1]!.note },
    });
    expect(withTime(CELL, { step: 'no such', product: null, repeat: false }, 3)).toBe(CELL);
  });
});

describe('outliers', () => {
  it('are outside Tukey’s fences on the logarithms, and stay in the list', () => {
    const values = [8, 9, 10, 11, 12, 10, 9, 11, 60, 2];
    expect(outliersOf(values)).toEqual([
      { at: 8, minutes: 60, side: 'long', far: true },
      { at: 9, minutes: 2, side: 'short', far: true },
    ]);
    expect(fitStep(group(values), { draws: 0 }).count).toBe(10);
  });
  it('puts the fences one and a half spreads of the middle half away', () => {
    // Quartiles of 1, 2, 4, 8, 16 are 2 and 8: fences at 2 / 4^1.5 and 8 x 4^1.5.
    const fences = fencesOf([1, 2, 4, 8, 16])!;
    expect([fences.low, fences.high]).toEqual([expect.closeTo(0.25, 12), expect.closeTo(64, 9)]);
    expect(fencesOf([1, 2, 3, 4])).toBeNull();
  });
  it('calls none in 1,000 times of its own curve far, and few strange', () => {
    const values = timesFrom({ curve: 'lognormal', mu: 3, sigma: 0.3 }, 1000, 6);
    // A normal curve has 0.7 % outside its own fences: 7 of 1,000; the standard deviation, the fences being
    // estimated, is 3.4 (over 400 other lists), and 3.3 of them make 18.
    expect(outliersOf(values).length).toBeLessThan(19);
    expect(outliersOf(values).some((one) => one.far)).toBe(false);
  });
});

describe('the picture', () => {
  const values = timesFrom(gamma, 200, 7);
  const histogram = histogramOf(values)!;
  it('has every time in a bin', () => {
    expect(histogram.counts.reduce((sum, count) => sum + count, 0)).toBe(200);
    expect(histogram.counts[0]).toBeGreaterThan(0);
    expect(histogram.counts[histogram.counts.length - 1]).toBeGreaterThan(0);
    expect(histogramOf([])).toBeNull();
    expect(histogramOf([7, 7, 7])!.counts).toEqual([3]);
  });
  it('has curves whose bins hold as many as the times do', () => {
    for (const candidate of fitStep(group(values), { draws: 0 }).candidates) {
      const line = curveLine(candidate.kind, candidate.time, histogram, 200, 400);
      const step = line.points[1]!.minutes - line.points[0]!.minutes;
      const area = line.points.reduce((sum, point) => sum + point.expected, 0) * (step / histogram.width);
      expect(area, candidate.kind).toBeGreaterThan(190);
      expect(area, candidate.kind).toBeLessThan(201);
    }
  });
});

/** What a study keeps does not grow with its shifts, and does not hang on their order where it may not. */
import { serialize } from 'node:v8';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SCALARS } from '../../src/record/report.ts';
import type { JobResult, Runner } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { GoodsTogether } from '../../src/study/goods-together.ts';
import { differenceInterval } from '../../src/study/intervals/difference-interval.ts';
import {
  frequenciesOf,
  madeByShareOf,
  mapped,
  meanAndDeviation,
  reaching,
} from '../../src/study/intervals/frequencies.ts';
import { madeByShare, sortedValues } from '../../src/study/intervals/percentile-interval.ts';
import { runStudy, type StudyState } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { holds } from '../support/holds.ts';
import { shipped } from '../support/shops.ts';

const counts = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 80 });

describe('Frequencies', () => {
  test('Mean and spread of 1 2 3 4 10 20: 20/3, squares 790/3 (by hand; pairwise by Chan, Golub & LeVeque 1979)', () => {
    const { mean, deviation } = meanAndDeviation(frequenciesOf([10, 1, 2, 20, 3, 4]));
    expect(mean).toBeCloseTo(20 / 3, 14);
    expect(deviation ** 2 * 5).toBeCloseTo(790 / 3, 11);
  });

  test('say the same in whatever order they were told, and the same as the list', () =>
    holds(
      fc.property(counts, fc.double({ min: 0.01, max: 1, noNaN: true }), (list, share) => {
        const made = frequenciesOf(list);
        expect(frequenciesOf([...list].reverse())).toEqual(made);
        expect(madeByShareOf(made, share)).toBe(madeByShare(sortedValues(list), share));
        expect(reaching(made, 30)).toBe(list.filter((one) => one >= 30).length);
        expect(mapped(made, (one) => one / 3).total).toBe(list.length);
      }),
    ));

  test('leave out what does not exist', () => {
    expect(frequenciesOf([NaN, 2, NaN]).total).toBe(1);
    expect(madeByShareOf(frequenciesOf([NaN]), 0.9)).toBeNaN();
  });
});

test('What one case has over another is the same from sums as from every replication', () =>
  holds(
    fc.property(
      fc.array(fc.tuple(fc.nat(60), fc.nat(60), fc.nat(60)), { minLength: 2, maxLength: 50 }),
      fc.constantFrom([1, 1, 1], [3, 3, 3], [2, 1, 3]),
      fc.nat(40),
      (rows, shifts, cut) => {
        const columns = [0, 1, 2].map((at) => Float64Array.from(rows, (row) => row[at]!));
        const first = Math.min(cut, rows.length);
        const grown = [true, false].map((single) => {
          const goods = new GoodsTogether(shifts, single);
          goods.add(columns, first);
          goods.add(
            columns.map((one) => one.subarray(first)),
            rows.length - first,
          );
          return goods.between(0, 2);
        });
        expect(grown[0]).toEqual(grown[1]);
        const ofEach = [0, 2].map((at) => columns[at]!.map((good) => good / shifts[at]!));
        const { estimate, half } = differenceInterval(ofEach[0]!, ofEach[1]!);
        const { count, mean, deviation } = grown[0]!;
        expect(count).toBe(rows.length);
        expect(mean).toBeCloseTo(estimate, 10);
        if (half > 0) expect(deviation).toBeGreaterThanOrEqual(0);
        if (half < 1e-6) expect(deviation).toBeCloseTo(0, 5);
      },
    ),
  ));

const shifts = shiftsOf(shipped('cell-k'));
const { size } = layoutOfShift(shifts[0]!);

/** Rows that are made up at once: what is kept of them is what is looked at, not what they say. */
const madeUp: Runner = {
  width: 1,
  run: ({ from, count }): Promise<JobResult> => {
    const rows = new Float64Array(count * size);
    for (let row = 0; row < count; row++) {
      const good = 14 + (((from + row) * 7919) % 9);
      rows[row * size + SCALARS.indexOf('good')] = good;
      rows[row * size + SCALARS.indexOf('overtime')] = ((from + row) * 104_729) % 1009;
    }
    return Promise.resolve({ from, count, rows: [rows] });
  },
  close: () => Promise.resolve(),
};

const studyOf = (count: number): Promise<StudyState> =>
  runStudy(
    {
      cases: [
        { id: 'a', name: 'a', shifts: shifts.map((one) => ({ ...one, inputs: [] })) },
        { id: 'b', name: 'b', shifts: shifts.map((one) => ({ ...one, inputs: [] })) },
      ],
      pairs: [{ before: 0, after: 1 }],
      settings: {},
      count,
    },
    madeUp,
  );

test('Ten times the shifts of a fixed count are kept in the same room', async () => {
  const [few, many] = [await studyOf(600), await studyOf(6000)];
  // Rows in waiting are put together first, as any look at them does.
  for (const { records } of [few, many])
    for (const { kept } of records) expect(kept[0]!.length).toBe(400 * size);
  const room = (state: StudyState): number => serialize({ ...state, request: null }).length;
  expect(many.stopping.done).toBe(6000);
  expect(room(many) - room(few)).toBeLessThan(64);
  expect(summarize(many).cases[0]!.spread.counts.reduce((sum, one) => sum + one.shifts, 0)).toBe(6000);
});

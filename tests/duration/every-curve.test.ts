/** What holds of every curve of the list, a new one included: it makes its own examples. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileTime } from '../../src/duration/compile.ts';
import type { Curve, Likeness } from '../../src/duration/curve.ts';
import { CURVES } from '../../src/duration/curves.ts';
import { timeSchema, type Time, type TimeKind } from '../../src/duration/time.ts';
import { holds as always } from '../support/holds.ts';

const SEED = 20_261_127;
const every = CURVES.map((curve) => [curve.kind, curve as unknown as Curve<TimeKind, Time>] as const);

const tenths = (most: number): fc.Arbitrary<number> => fc.nat(most * 10).map((tenth) => tenth / 10);
const likeness: fc.Arbitrary<Likeness> = fc
  .record({
    least: tenths(60),
    under: tenths(30),
    over: tenths(60),
    cv: fc.double({ min: 0, max: 5, noNaN: true }),
  })
  .map(({ least, under, over, cv }) => {
    const [quick, usual, slow] = [least, least + under, least + under + over];
    return { typical: usual, mean: (quick + usual + slow) / 3, cv, quick, usual, slow };
  });
const factors = fc.double({ min: 0.75, max: 1.25, noNaN: true });

const isFine = (curve: Curve<TimeKind, Time>, time: Time): boolean =>
  curve.is(time) && timeSchema.safeParse(time).success && curve.faults(time).length === 0;

const deviationOf = (time: Time): number => compileTime(time).standardDeviation;
const widthOf = (time: Time): number => compileTime(time).quantile(0.9) - compileTime(time).quantile(0.1);

describe.each(every)('%s', (_kind, curve) => {
  const examples = likeness.map((like) => curve.about(like));
  const told = (time: Time): string => JSON.stringify(time);
  const check = (holds: (time: Time, factor: number) => void): void =>
    always(fc.property(examples, factors, holds), { numRuns: 150, seed: SEED });

  test('takes its own times, and no other curve does', () => {
    check((time) => {
      expect(isFine(curve, time), told(time)).toBe(true);
      expect(CURVES.filter((one) => one.is(time)).map(({ kind }) => kind)).toEqual([curve.kind]);
      expect(CURVES.filter((one) => one.schema.safeParse(time).success).length).toBe(1);
      expect(JSON.parse(told(time))).toEqual(time);
    });
  });

  test('has finite times that never fall, none under 0 and none over its longest', () => {
    check((time) => {
      const made = compileTime(time);
      const values = [1e-9, 0.01, 0.1, 0.5, 0.9, 0.99, 1 - 1e-9].map((u) => made.quantile(u));
      for (const [i, value] of values.entries()) {
        expect(value, told(time)).toBeGreaterThanOrEqual(i === 0 ? 0 : values[i - 1]!);
        expect(value, told(time)).toBeLessThanOrEqual(made.longest);
        expect(Number.isFinite(value), told(time)).toBe(true);
      }
      expect(Number.isFinite(made.mean) && made.variance >= 0, told(time)).toBe(true);
      expect(Number.isFinite(curve.typical(time))).toBe(true);
    });
  });

  test('is scaled with its minutes: mean and standard deviation times the factor', () => {
    check((time, factor) => {
      const scaled = curve.mapMinutes(time, (minutes) => minutes * factor);
      const [before, after] = [compileTime(time), compileTime(scaled)];
      expect(Math.abs(after.mean - factor * before.mean), told(time)).toBeLessThanOrEqual(1e-7 * before.mean);
      expect(
        Math.abs(after.standardDeviation - factor * before.standardDeviation),
        told(time),
      ).toBeLessThanOrEqual(1e-6 * (before.standardDeviation + before.mean));
      expect(curve.faults(scaled)).toEqual([]);
    });
  });

  test('varies more or less within what the file takes', () => {
    check((time, factor) => {
      const varied = curve.spread(time, factor);
      expect(isFine(curve, varied), `${told(time)} times ${factor}: ${told(varied)}`).toBe(true);
      // A few hard bends: quick of 0 changes where its curve is bounded, a gamma of cv 2 has its tenth at 0.
      const [wider, deviates] = [widthOf(varied) - widthOf(time), deviationOf(varied) - deviationOf(time)];
      const slack = 1e-9 * (1 + deviationOf(time));
      expect(
        factor > 1 ? Math.max(wider, deviates) >= -slack : Math.min(wider, deviates) <= slack,
        told(time),
      ).toBe(true);
      const same = compileTime(curve.spread(time, 1));
      expect(Math.abs(same.mean - compileTime(time).mean), told(time)).toBeLessThanOrEqual(1e-9 * same.mean);
    });
  });

  test('comes later as a whole, or says it cannot', () => {
    check((time, factor) => {
      const by = Math.round((factor - 1) * 40);
      const later = curve.later(time, by);
      if (later === null) return;
      expect(isFine(curve, later), told(later)).toBe(true);
      expect(curve.typical(later), told(time)).toBeCloseTo(curve.typical(time) + by, 6);
    });
  });

  test('is shown and read back by its fields, and told at any numbers', () => {
    check((time) => {
      for (const field of curve.fields) {
        const again =
          field.kind === 'number' ? field.set(time, field.get(time)) : field.set(time, [...field.get(time)]);
        const rounded = JSON.stringify(again, (_, value: unknown) =>
          typeof value === 'number' ? Number(value.toFixed(5)) : value,
        );
        const before = JSON.stringify(time, (_, value: unknown) =>
          typeof value === 'number' ? Number(value.toFixed(5)) : value,
        );
        expect(rounded).toBe(before);
        if (field.kind === 'number') expect(curve.is(field.set(time, field.least))).toBe(true);
      }
      const wild = curve.mapMinutes(time, () => -1);
      expect(curve.is(wild)).toBe(true);
      expect(curve.words.short(wild)).not.toBe('');
    });
  });
});

describe('the edge of what a file takes', () => {
  const FINE: Time[] = [
    { quick: 5e-324, usual: 1, slow: 2 },
    { quick: 1e-200, usual: 50_000, slow: 52_500 },
    { quick: 0, usual: 5e-324, slow: 1e-323 },
    { quick: 9.368366956932187, usual: 9.368366956932187, slow: 9.368366956932189 },
    { quick: 9.368366956932185, usual: 9.368366956932187, slow: 9.368366956932189 },
    { mean: 8, cv: 0.001 },
    { mean: 100_000, cv: 5 },
    { mean: 5e-324, cv: 5 },
    { curve: 'gamma', mean: 8, cv: 0.001 },
    { curve: 'gamma', mean: 5e-324, cv: 0.001 },
    { curve: 'gamma', mean: 100_000, cv: 5 },
    { curve: 'weibull', shape: 0.1, scale: 100_000 },
    { curve: 'weibull', shape: 100, scale: 5e-324 },
    { curve: 'triangular', least: 0, likeliest: 0, most: 5e-324 },
    { curve: 'uniform', least: 0, most: 5e-324 },
    { curve: 'exponential', mean: 5e-324 },
    { curve: 'observed', values: [0, 100_000] },
  ];
  test.each(FINE.map((time) => [JSON.stringify(time), time] as const))(
    '%s is finite everywhere',
    (_, time) => {
      const made = compileTime(time);
      for (const u of [2 ** -33, 0.1, 0.5, 0.9, 1 - 2 ** -33]) {
        expect(made.quantile(u)).toBeGreaterThanOrEqual(0);
        expect(made.quantile(u)).toBeLessThan(Infinity);
      }
      expect(made.mean).toBeGreaterThanOrEqual(0);
      expect(made.mean).toBeLessThan(Infinity);
      expect(made.variance).toBeGreaterThanOrEqual(0);
    },
  );
});

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { resolve } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { createRoute, expectedVisits } from '../../../src/study/ceilings/routes.ts';
import { naiveNumber, spreadsheetNumber } from '../../../src/study/ceilings/spreadsheet.ts';

const chairs = JSON.parse(
  readFileSync(new URL('../../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Scenario;

const plain: Scenario = {
  format: 1,
  name: 'Clamps',
  steps: {
    glue: { time: 8, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 2 },
    sand: { time: 12 },
  },
  gear: { clamp: { count: 2 } },
  people: { ana: { covers: ['glue', 'unclamp', 'sand'] } },
  shift: {
    start: '06:00',
    end: '14:00',
    breaks: [
      { from: '06:00', minutes: 10 },
      { from: '09:00', minutes: 30 },
    ],
    tidyUp: 10,
  },
};

describe("the spreadsheet's number", () => {
  // The invented chair works with two clamp sets: (14:20 - 06:10) x 2 / 30 = 32.67 by the cure alone, about
  // 22 with the handling.
  test('of the chair works with two clamp sets is 22 with the handling, 32 by the cure alone', () => {
    const shift = resolve(chairs);
    expect(shift.gear.find((gear) => gear.id === 'clamp')!.count).toBe(2);
    const { units, lines } = spreadsheetNumber(shift);
    expect(lines[0]).toMatchObject({ kind: 'gear', id: 'clamp' });
    expect(Math.round(units)).toBe(22);
    expect(Math.floor(naiveNumber(shift)!.units)).toBe(32);
  });

  test('takes minutes at hand by minutes a unit, least first, and counts a shared person at every step', () => {
    const { units, lines } = spreadsheetNumber(resolve(plain));
    expect(lines.map((line) => [line.id, line.atHand, line.perUnit])).toEqual([
      ['clamp', 920, 40],
      ['sand', 430, 12],
      ['sand-bench', 430, 12],
      ['glue', 430, 8],
      ['glue-bench', 430, 8],
      ['unclamp', 430, 2],
      ['unclamp-bench', 430, 2],
    ]);
    expect(units).toBe(23);
    expect(naiveNumber(resolve(plain))).toMatchObject({ id: 'clamp', perUnit: 30, units: 920 / 30 });
  });

  test('takes rework, scrap, skills and attendance in', () => {
    const steps = {
      sand: { time: 10, repeatTime: 4 },
      check: { time: 1, rework: [{ to: 'sand', percent: 25 }], scrap: 15 },
    };
    const people = {
      ana: { skills: { sand: { factor: 2 } } },
      bo: { covers: ['sand', 'check'], attendance: { percent: 90 } },
    };
    const sand = spreadsheetNumber(
      resolve({ format: 1, name: 'Sanding', steps, people, shift: { start: '06:00', end: '14:00' } }),
    ).lines.find((line) => line.id === 'sand')!;
    expect(sand.atHand).toBeCloseTo(480 * (0.5 + 0.9), 9);
    // One unit in: 1 / 3 of a repeat on average; good with chance 0.6 / 0.75.
    expect(sand.perUnit).toBeCloseTo((10 + 4 / 3) / 0.8, 9);
  });

  test('is nothing where nothing is taken across a wait, and not a number where nothing takes time', () => {
    const sanding: Scenario = {
      format: 1,
      name: 'Sanding',
      steps: { sand: { time: 10 } },
      people: { ana: { covers: ['sand'] } },
    };
    expect(naiveNumber(resolve(sanding))).toBeNull();
    expect(spreadsheetNumber(resolve({ ...sanding, steps: { sand: { time: 0 } } })).units).toBeNaN();
  });
});

describe('the way of a unit', () => {
  const route = (scenario: Scenario) => {
    const shift = resolve(scenario);
    return createRoute(shift, { products: [{ product: shift.products[0]!, weight: 1 }] });
  };

  test('holds gear from its taking to its freeing, and takes it anew when sent back to the taking step or before', () => {
    const way = route({
      ...plain,
      steps: {
        ...plain.steps,
        unclamp: {
          time: 2,
          rework: [
            { to: 'cure', percent: 10 },
            { to: 'glue', percent: 20 },
          ],
        },
      },
    });
    const { visits, good } = expectedVisits(way, way.start);
    const clamped = [...visits].filter(([key]) => way.visits.get(key)!.held.includes('clamp'));
    const of = (step: string, among = clamped): number =>
      among.filter(([key]) => way.visits.get(key)!.step.id === step).reduce((sum, [, n]) => sum + n, 0);
    expect(good).toBeCloseTo(1, 9);
    expect(of('unclamp', [...visits])).toBeCloseTo(1 / 0.7, 9);
    expect(of('glue')).toBeCloseTo(1 + 0.2 / 0.7, 9);
    // Sent back to the cure, after its freeing, it has no clamps.
    expect(of('unclamp', [...visits]) - of('unclamp')).toBeGreaterThan(0.09);
    expect(of('sand')).toBe(0);
  });

  test('leads through a step aside and back, and past what a product skips', () => {
    const way = route({
      format: 1,
      name: 'Aside',
      products: { piece: { skips: ['sand'] } },
      steps: {
        fit: { time: 3 },
        sand: { time: 9 },
        check: { time: 2, rework: [{ to: 'fill', percent: 50 }] },
        pack: { time: 1 },
        fill: { time: 5, aside: true, then: 'check' },
      },
      people: { ana: { covers: ['fit', 'check'] } },
    });
    const { visits } = expectedVisits(way, way.start);
    const of = (step: string): number =>
      [...visits].filter(([key]) => way.visits.get(key)!.step.id === step).reduce((sum, [, n]) => sum + n, 0);
    expect(
      [of('fit'), of('sand'), of('check'), of('fill'), of('pack')].map((n) => Math.round(n * 1e6) / 1e6),
    ).toEqual([1, 0, 2, 1, 1]);
  });
});

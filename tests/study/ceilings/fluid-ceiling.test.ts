import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { resolve } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { ceilingProgramme, fluidCeiling } from '../../../src/study/ceilings/fluid-ceiling.ts';
import { inventedShops } from './invented-shops.ts';
import { outsideSolver, type OutsideSolver } from './outside-solver.ts';
import { holds } from '../../support/holds.ts';

let outside: OutsideSolver;
beforeAll(async () => {
  outside = await outsideSolver();
});

const one = (more: Partial<Scenario> = {}): Scenario => ({
  format: 1,
  name: 'One step',
  steps: { sand: { time: 10 } },
  people: { ana: { covers: ['sand'] } },
  intake: { kind: 'at start', units: 500 },
  shift: { start: '06:00', end: '14:00' },
  ...more,
});
const ceilingOf = (scenario: Scenario, settings = {}): number =>
  fluidCeiling(resolve(scenario), settings).good;

describe('a ceiling worked out by hand', () => {
  test('one person, one step: the minutes by the minutes a piece, and the piece in hand at the end', () => {
    expect(ceilingOf(one())).toBeCloseTo(49, 7);
    expect(ceilingOf(one(), { inHand: false })).toBeCloseTo(48, 7);
  });

  test('breaks, times away, tidy-up, allowance, a slow hand and a late start cost their minutes', () => {
    const rate = (more: Partial<Scenario>): number => ceilingOf(one(more), { inHand: false });
    expect(
      rate({ shift: { start: '06:00', end: '14:00', breaks: [{ from: '09:00', minutes: 30 }] } }),
    ).toBeCloseTo(45, 7);
    expect(rate({ shift: { start: '06:00', end: '14:00', tidyUp: 20 } })).toBeCloseTo(46, 7);
    expect(rate({ shift: { start: '06:00', end: '14:00', allowance: 1.2 } })).toBeCloseTo(40, 7);
    expect(rate({ people: { ana: { skills: { sand: 1 } } } })).toBeCloseTo(30, 7);
    expect(
      rate({ people: { ana: { covers: ['sand'], away: [{ from: '07:00', to: '08:00' }] } } }),
    ).toBeCloseTo(42, 7);
    expect(rate({ people: { ana: { covers: ['sand'], attendance: { late: 40 } } } })).toBeCloseTo(44, 7);
    expect(rate({ people: { ana: { covers: ['sand'], attendance: { percent: 90 } } } })).toBeCloseTo(43.2, 7);
    expect(
      rate({ people: { ana: { covers: [], changes: [{ from: '13:00', covers: ['sand'] }] } } }),
    ).toBeCloseTo(6, 7);
    expect(rate({ people: { ana: { covers: [], skills: { sand: 3 } } } })).toBe(0);
    expect(
      ceilingOf(one({ people: { ana: { covers: [], skills: { sand: 3 } } } }), {
        inHand: false,
        anySkill: true,
      }),
    ).toBeCloseTo(48, 7);
  });

  test('overtime counts to its cap, for those who may', () => {
    const shift = { start: '06:00', end: '14:00', overtime: { until: 'empty' as const, cap: 50 } };
    expect(ceilingOf(one({ shift }), { inHand: false })).toBeCloseTo(53, 7);
    expect(
      ceilingOf(one({ shift, people: { ana: { covers: ['sand'], overtime: false } } }), { inHand: false }),
    ).toBeCloseTo(48, 7);
  });

  test('a bench serves one at a time, and only while somebody is there', () => {
    const shift = { start: '06:00', end: '14:00', breaks: [{ from: '09:00', minutes: 60 }] };
    const people = { ana: { covers: ['sand'] }, bo: { covers: ['sand'] } };
    expect(ceilingOf(one({ shift, people }))).toBeCloseTo(43, 7);
    expect(ceilingOf(one({ shift, people, steps: { sand: { time: 10, benches: 2 } } }))).toBeCloseTo(86, 7);
    // A break of their own for the second: the bench goes on through it.
    const apart = {
      ana: { covers: ['sand'] },
      bo: { covers: ['sand'], breaks: [{ from: '10:00', minutes: 60 }] },
    };
    expect(ceilingOf(one({ shift, people: apart }))).toBeCloseTo(49, 7);
  });

  test('rework and scrap cost what they cost on average, repeat times in', () => {
    const steps = {
      sand: { time: 10 },
      check: { time: 1, rework: [{ to: 'sand', percent: 20 }], scrap: 10 },
    };
    const scenario = one({ steps, people: { ana: { covers: ['sand'] }, bo: { covers: ['check'] } } });
    expect(ceilingOf(scenario, { inHand: false })).toBeCloseTo(48 * 0.7, 7);
    // One unit: 10 + 5 x 0.2 / 0.8 minutes of sanding, good with chance 0.7 / 0.8.
    const quick = one({ ...scenario, steps: { ...steps, sand: { time: 10, repeatTime: 5 } } });
    expect(ceilingOf(quick, { inHand: false })).toBeCloseTo((480 / 11.25) * 0.875, 7);
  });

  test('clamp sets are tied up by glue-up, cure and unclamping, breaks or not', () => {
    const scenario = one({
      steps: {
        glue: { time: 8, takes: [{ gear: 'clamp', until: 'unclamp' }] },
        cure: { kind: 'wait', time: 30 },
        unclamp: { time: 2 },
      },
      gear: { clamp: { count: 2 } },
      people: { ana: { covers: ['glue', 'unclamp'] } },
      shift: { start: '06:00', end: '14:00', breaks: [{ from: '09:00', minutes: 60 }] },
    });
    expect(ceilingOf(scenario, { inHand: false })).toBeCloseTo(24, 7);
    expect(
      ceilingOf(
        { ...scenario, gear: { clamp: { count: 1, out: [{ from: '08:00', minutes: 280 }] } } },
        { inHand: false },
      ),
    ).toBeCloseTo(6, 7);
    const cured = { ...scenario, carryOver: [{ at: 'unclamp', units: 2 }] };
    expect(ceilingOf(cured, { inHand: false })).toBeCloseTo(2 + (960 - 4) / 40, 7);
  });

  test('never more units than there are, opening stock in', () => {
    expect(
      ceilingOf(
        one({
          intake: { kind: 'at start', units: 7 },
          carryOver: [
            { at: 'sand', units: 2 },
            { at: 'sand', state: 'blocked', units: 3 },
          ],
        }),
      ),
    ).toBeCloseTo(12, 7);
    const list = {
      kind: 'list' as const,
      late: 60,
      arrivals: [
        { at: '06:00', units: 4 },
        { at: '12:30', units: 5 },
        { at: '13:30', units: 9 },
      ],
    };
    expect(ceilingOf(one({ intake: list }))).toBeCloseTo(9, 7);
    expect(ceilingOf(one({ intake: { kind: 'beat', every: 60 } }))).toBeCloseTo(9, 7);
    expect(ceilingOf(one({ intake: { kind: 'constant', inside: 3 } }))).toBeCloseTo(49, 7);
    // Random gaps: 480 / 60 on average and one to be safe, twice as much for the spread.
    expect(
      ceilingOf(one({ intake: { kind: 'random', gap: { curve: 'exponential', mean: 60 } } })),
    ).toBeCloseTo(10, 4);
  });

  test('two at a piece are two people', () => {
    const steps = { sand: { time: 10, people: 2 as const, benches: 2 } };
    expect(ceilingOf(one({ steps }))).toBeCloseTo(0, 7);
    const people = { ana: { covers: ['sand'] }, bo: { covers: ['sand'] }, cy: { covers: ['sand'] } };
    expect(ceilingOf(one({ steps, people }), { inHand: false })).toBeCloseTo(72, 7);
  });

  test('a whole piece of fixed length is not left over at the end; one put down is no piece', () => {
    expect(ceilingOf(one({ steps: { sand: { time: 9, whole: true } } }))).toBeCloseTo(480 / 9, 7);
    expect(ceilingOf(one({ shift: { start: '06:00', end: '14:00', atEnd: 'put down' } }))).toBeCloseTo(48, 7);
  });

  test('one product of a mix cannot be had for another', () => {
    const products = { plain: { share: 1 }, bent: { share: 1, factors: { sand: 2 } } };
    expect(ceilingOf(one({ products }), { inHand: false })).toBeCloseTo(32, 7);
    const arrivals = [
      { at: '06:00', units: 4, product: 'plain' },
      { at: '06:00', units: 50, product: 'bent' },
    ];
    expect(ceilingOf(one({ products, intake: { kind: 'list', arrivals } }), { inHand: false })).toBeCloseTo(
      4 + 440 / 20,
      7,
    );
  });

  test('says what is used of what is at hand', () => {
    const { uses } = fluidCeiling(resolve(one()), { inHand: false });
    expect(uses.find((use) => use.id === 'ana')).toMatchObject({ kind: 'person', atHand: 480 });
    expect(uses.find((use) => use.id === 'ana')!.used).toBeCloseTo(480, 7);
    expect(uses.find((use) => use.id === 'sand-bench')!.used).toBeCloseTo(480, 7);
    expect(uses.find((use) => use.kind === 'units')!.used).toBeCloseTo(48, 7);
  });
});

describe('on invented shops', () => {
  test('the optimum is the one an outside solver finds', () => {
    holds(
      fc.property(inventedShops, (scenario) => {
        const shift = resolve(scenario);
        const { programme, already } = ceilingProgramme(shift);
        const { good } = fluidCeiling(shift);
        expect(Math.abs(good - outside(programme) - already)).toBeLessThan(1e-6 * (1 + good));
      }),
      { numRuns: 300 },
    );
  });

  test('one more of anything never lowers it, and the pieces in hand never do', () => {
    holds(
      fc.property(inventedShops, (scenario) => {
        const now = ceilingOf(scenario);
        const people = { ...scenario.people, more: { covers: ['fit', 'glue', 'unclamp', 'sand', 'check'] } };
        expect(ceilingOf({ ...scenario, people })).toBeGreaterThanOrEqual(now - 1e-7);
        expect(
          ceilingOf({ ...scenario, gear: { clamp: { count: scenario.gear!.clamp!.count + 1 } } }),
        ).toBeGreaterThanOrEqual(now - 1e-7);
        expect(ceilingOf(scenario, { inHand: false })).toBeLessThanOrEqual(now + 1e-7);
        expect(ceilingOf(scenario, { anySkill: true })).toBeGreaterThanOrEqual(now - 1e-7);
      }),
      { numRuns: 60 },
    );
  });
});

import fc from 'fast-check';
import type { Scenario } from '../../../src/scenario/schema.ts';

/**
 * Small shops of every make: shared people, a cure in clamps, rework, scrap, two at a piece, two products,
 * breaks, overtime.
 */
export const inventedShops: fc.Arbitrary<Scenario> = fc
  .record({
    minutes: fc.array(fc.integer({ min: 1, max: 25 }), { minLength: 5, maxLength: 5 }),
    covers: fc.array(fc.subarray(['fit', 'glue', 'unclamp', 'sand', 'check']), {
      minLength: 1,
      maxLength: 5,
    }),
    factors: fc.array(fc.constantFrom(0.8, 1, 1.25, 1.6), { minLength: 5, maxLength: 5 }),
    clamps: fc.integer({ min: 1, max: 8 }),
    cure: fc.integer({ min: 0, max: 60 }),
    benches: fc.integer({ min: 1, max: 4 }),
    rework: fc.integer({ min: 0, max: 30 }),
    scrap: fc.integer({ min: 0, max: 10 }),
    pair: fc.boolean(),
    share: fc.integer({ min: 0, max: 3 }),
    skips: fc.boolean(),
    units: fc.integer({ min: 1, max: 80 }),
    breaks: fc.boolean(),
    overtime: fc.constantFrom('none' as const, 'empty' as const),
    tidyUp: fc.constantFrom(0, 10),
    atEnd: fc.constantFrom('finish' as const, 'put down' as const),
    percent: fc.constantFrom(100, 96),
    carried: fc.integer({ min: 0, max: 3 }),
  })
  .map((shop): Scenario => ({
    format: 1,
    name: 'Invented shop',
    products: {
      plain: { share: 3 },
      bent: { share: shop.share, factors: { fit: 1.4 }, ...(shop.skips ? { skips: ['sand'] } : {}) },
    },
    steps: {
      fit: { time: shop.minutes[0]!, rework: [{ to: 'fit', percent: shop.rework }] },
      glue: {
        time: shop.minutes[1]!,
        whole: true,
        takes: [{ gear: 'clamp', until: 'unclamp' }],
        people: shop.pair ? 2 : 1,
      },
      cure: { kind: 'wait', time: shop.cure },
      unclamp: { time: shop.minutes[2]!, rework: [{ to: 'glue', percent: 3 }] },
      sand: { time: shop.minutes[3]!, repeatTime: 4, benches: shop.benches },
      check: { time: shop.minutes[4]!, rework: [{ to: 'sand', percent: shop.rework }], scrap: shop.scrap },
    },
    gear: { clamp: { count: shop.clamps } },
    people: Object.fromEntries(
      shop.covers.map((covers, at) => [
        `p${at}`,
        {
          covers,
          skills: Object.fromEntries(covers.map((step) => [step, { factor: shop.factors[at]! }])),
          attendance: { percent: shop.percent },
          ...(at === 1 && covers.length > 0 ? { away: [{ from: '09:00', to: '10:00' }] } : {}),
        },
      ]),
    ),
    shift: {
      ...(shop.breaks ? { breaks: [{ from: '10:00', minutes: 30 }] } : {}),
      tidyUp: shop.tidyUp,
      atEnd: shop.atEnd,
      overtime: { until: shop.overtime, cap: 45 },
      allowance: 1.06,
    },
    intake: { kind: 'at start', units: shop.units },
    carryOver:
      shop.carried === 0
        ? []
        : [
            { at: 'unclamp', units: shop.carried },
            { at: 'cure', state: 'curing', minutes: 5, product: 'plain' },
            { at: 'sand', state: 'in hand', minutes: 2 },
            { at: 'check', state: 'blocked' },
            { at: 'check', state: 'blocked', to: 'sand' },
          ],
  }));

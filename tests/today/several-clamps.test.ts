/**
 * Cells with several kinds of clamps and several products, each with a way of its own: what the record of a
 * running shift shows at any minute is accepted as a count, and the shift goes on from it to the same end.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkHandover, checkNow } from '../../src/today/check-now.ts';
import { stateAt } from '../../src/today/state.ts';
import { clockAfter } from '../../src/scenario/clock.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { SHOPS, shop } from '../support/shops.ts';
import { doneAfter, runOf, withoutChance } from './support.ts';
import { holds } from '../support/holds.ts';

const minutes = fc.constantFrom(2, 3, 4, 5, 7, 9, 11);
const cure = fc.constantFrom(0, 5, 12, 30);
const sets = fc.integer({ min: 1, max: 3 });

/** Where a product leaves the path out; both clampings at once it may leave out too. */
const SKIPS = [
  [],
  ['bar', 'bar-cure', 'bar-off'],
  ['band', 'band-cure', 'band-off'],
  ['bar', 'bar-cure', 'bar-off', 'band', 'band-cure', 'band-off'],
  ['sand'],
];

const cells: fc.Arbitrary<{ scenario: Scenario; minute: number }> = fc
  .record({
    times: fc.array(minutes, { minLength: 7, maxLength: 7 }),
    cures: fc.tuple(cure, cure),
    bars: sets,
    bands: sets,
    racks: fc.array(fc.option(fc.integer({ min: 1, max: 4 })), { minLength: 6, maxLength: 6 }),
    // Both clampings freed at one step, or each at its own.
    together: fc.boolean(),
    products: fc.array(fc.record({ skips: fc.constantFrom(...SKIPS), factor: fc.constantFrom(1, 2) }), {
      minLength: 1,
      maxLength: 3,
    }),
    arrivals: fc.array(fc.record({ at: fc.integer({ min: 0, max: 59 }), of: fc.nat({ max: 2 }) }), {
      minLength: 3,
      maxLength: 14,
    }),
    crew: fc.array(
      fc.subarray(['fit', 'bar', 'bar-off', 'band', 'band-off', 'sand', 'check'], { minLength: 2 }),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    minute: fc.integer({ min: 1, max: 175 }),
    // Some sets out of order, since so many minutes before the count and for so many.
    outage: fc.option(
      fc.record({
        ago: fc.nat({ max: 30 }),
        minutes: fc.constantFrom(5, 20, 45),
        items: fc.constantFrom(1, 2),
      }),
    ),
  })
  .map(({ times, cures, bars, bands, racks, together, products, arrivals, crew, minute, outage }) => {
    const rack = (i: number): object => (racks[i] === null ? {} : { rack: racks[i] });
    const names = ['chair', 'stool', 'frame'];
    const skipsOf = (skips: string[]): string[] =>
      together ? skips.filter((step) => step !== 'bar-off' && step !== 'band-off') : skips;
    const two = (value: number): string => String(value).padStart(2, '0');
    const clock = (at: number): string => `${two(6 + Math.floor(at / 60))}:${two(at % 60)}`;
    const out =
      outage === null
        ? {}
        : {
            out: [
              { from: clock(Math.max(1, minute - outage.ago)), minutes: outage.minutes, items: outage.items },
            ],
          };
    return {
      minute,
      scenario: {
        format: 1,
        name: 'Two kinds of clamps',
        steps: {
          fit: { time: times[0]! },
          bar: {
            time: times[1]!,
            ...rack(0),
            takes: [{ gear: 'bar-set', until: together ? 'band-off' : 'bar-off' }],
          },
          'bar-cure': { kind: 'wait', time: cures[0] },
          'bar-off': { time: times[2]! },
          band: { time: times[3]!, ...rack(1), takes: [{ gear: 'band-set', until: 'band-off' }] },
          'band-cure': { kind: 'wait', time: cures[1] },
          'band-off': { time: times[4]! },
          sand: { time: times[5]!, ...rack(2) },
          check: { time: times[6]!, ...rack(3) },
        },
        products: Object.fromEntries(
          products.map(({ skips, factor }, i) => [
            names[i]!,
            {
              ...(skipsOf(skips).length === 0 ? {} : { skips: skipsOf(skips) }),
              factors: { fit: factor, check: factor },
            },
          ]),
        ),
        gear: { 'bar-set': { count: bars, ...out }, 'band-set': { count: bands } },
        people: Object.fromEntries(
          [...crew, ['fit', 'bar', 'bar-off', 'band', 'band-off', 'sand', 'check']].map((covers, i) => [
            ['ada', 'ben', 'cleo', 'dora'][i]!,
            { covers },
          ]),
        ),
        shift: { start: '06:00', end: '09:00' },
        intake: {
          kind: 'list',
          arrivals: arrivals
            .map(({ at, of }) => ({ at: clock(at), product: names[of % products.length]! }))
            .sort((a, b) => (a.at < b.at ? -1 : 1)),
        },
      } as Scenario,
    };
  });

describe('a record of a running shift with several kinds of clamps and products', () => {
  it('is accepted at any minute, and goes on to the same end', () => {
    let compared = 0;
    let holding = 0;
    let broken = 0;
    holds(
      fc.property(cells, ({ scenario, minute }) => {
        const reading = checkScenario(scenario);
        fc.pre(reading.kind === 'fine');
        const record = runOf(scenario);
        const begins = record
          .filter((row) => row.event === 'gear out')
          .map((row) => clockAfter('06:00', row.time / 60_000));
        // A set that a piece holds goes out behind it: which one that will be, a count cannot say.
        const planned = scenario.gear!['bar-set']!.out ?? [];
        fc.pre(
          planned.every(
            ({ from, items }) =>
              begins.filter((at) => at === from).length ===
              Math.min(items ?? 1, scenario.gear!['bar-set']!.count),
          ),
        );
        const now = stateAt(scenario, record, minute);
        const checked = checkNow(scenario, now);
        expect(checked.kind === 'wrong' ? checked.faults : []).toEqual([]);
        const handed = checkHandover(scenario, now);
        expect(handed.kind === 'wrong' ? handed.faults : []).toEqual([]);
        if (checked.kind === 'wrong') return;
        compared++;
        broken += Number(now.broken.length > 0);
        holding += Number(now.inside.some((piece) => piece.state === 'curing'));
        expect(doneAfter(runOf(checked.rest), 0)).toEqual(doneAfter(record, minute));
      }),
      { numRuns: 120, seed: 14 },
    );
    expect(compared).toBeGreaterThan(80);
    expect(holding).toBeGreaterThan(15);
    expect(broken).toBeGreaterThan(5);
  });

  it.each(SHOPS)('so it is in %s, at every quarter of an hour', (name) => {
    const { nextShifts: _next, options: _options, ...cell } = shop(name);
    const scenario = withoutChance(cell);
    const record = runOf(scenario);
    for (let minute = 7; minute < 400; minute += 15) {
      const checked = checkNow(scenario, stateAt(scenario, record, minute));
      expect(checked.kind === 'wrong' ? checked.faults : [], `minute ${minute}`).toEqual([]);
    }
  });
});

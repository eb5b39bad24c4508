/** The ceiling against runs: nothing the cell does beats it. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compile } from '../../../src/engine/compile.ts';
import { runJob } from '../../../src/record/job.ts';
import { layoutOf } from '../../../src/record/layout.ts';
import { scalarAt } from '../../../src/record/report.ts';
import { resolve, type ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { Time } from '../../../src/duration/time.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { fluidCeiling } from '../../../src/study/ceilings/fluid-ceiling.ts';
import { addRow, createMoments, deviationOf } from '../../../src/study/intervals/moments.ts';
import { inventedShops } from './invented-shops.ts';
import { holds } from '../../support/holds.ts';

function goodUnits(shift: ResolvedShift, count: number): { mean: number; error: number; most: number } {
  const layout = layoutOf(compile(shift));
  const rows = runJob({ shifts: [shift], from: 0, count }).rows[0]!;
  const moments = createMoments(1);
  let most = 0;
  for (let row = 0; row < count; row++) {
    const good = rows[row * layout.size + scalarAt(layout, 'good')]!;
    addRow(moments, [good]);
    most = Math.max(most, good);
  }
  return { mean: moments.mean[0]!, error: deviationOf(moments, 0) / Math.sqrt(count), most };
}

/** Nothing left to chance: one product, everybody comes, every piece goes on. */
const certain = (scenario: Scenario): Scenario => ({
  ...scenario,
  products: { plain: { ...scenario.products!.bent, share: 1 } },
  steps: Object.fromEntries(
    Object.entries(scenario.steps).map(([id, { rework: _, scrap: __, ...step }]) => [id, step]),
  ),
  people: Object.fromEntries(
    Object.entries(scenario.people).map(([id, { attendance: _, ...person }]) => [id, person]),
  ),
});

/** The same shop with times that vary, by the coefficient of variation. */
const varied = (scenario: Scenario, cv: number): Scenario => ({
  ...scenario,
  steps: Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => {
      const time: Time =
        typeof step.time === 'number' && step.kind !== 'wait' ? { mean: step.time, cv } : step.time;
      return [id, { ...step, time }];
    }),
  ),
});

describe('no run beats the ceiling', () => {
  test('of a shop where nothing is left to chance', () => {
    const gaps: number[] = [];
    holds(
      fc.property(inventedShops, (scenario) => {
        const shift = resolve(certain(scenario));
        const { good } = fluidCeiling(shift);
        const { most } = goodUnits(shift, 1);
        gaps.push(good - most);
        // Times are rounded to whole milliseconds.
        expect(most).toBeLessThanOrEqual(good + 1e-3);
      }),
      { numRuns: 400 },
    );
    // A ceiling miles above every run would pass too: some must come close.
    expect(gaps.filter((gap) => gap < 1).length).toBeGreaterThan(20);
  });

  test('on average, in a shop with chance, by more than 3.3 standard errors', () => {
    const runs = 100;
    // Losses so rare that none was seen in so many runs (chance 1 in 100) may still come to this many units a
    // run.
    const rare = Math.log(100) / runs;
    holds(
      fc.property(inventedShops, fc.constantFrom(0.15, 0.35, 0.8), (scenario, cv) => {
        const shift = resolve(varied(scenario, cv));
        const { mean, error } = goodUnits(shift, runs);
        expect(mean).toBeLessThanOrEqual(fluidCeiling(shift).good + 3.3 * error + rare);
      }),
      { numRuns: 150 },
    );
  });

  test.each(['chair-works', 'cell-k', 'door-works', 'one-step'])('in %s', (name) => {
    const scenario = JSON.parse(
      readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8'),
    ) as Scenario;
    const shift = resolve(scenario);
    const { mean, error } = goodUnits(shift, 400);
    const { good } = fluidCeiling(shift);
    expect(mean).toBeLessThanOrEqual(good + 3.3 * error);
    expect(mean).toBeGreaterThan(0.5 * good);
  });
});

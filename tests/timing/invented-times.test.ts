import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { scenarioSchema } from '../../src/scenario/schema.ts';
import { compileTime } from '../../src/duration/compile.ts';
import { driftsOf } from '../../src/timing/drift.ts';
import { groupsOf } from '../../src/timing/groups.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { applyFits } from '../../src/timing/apply-fits.ts';
import { fitStep } from '../../src/timing/step-fit.ts';
import { readTable } from '../../src/timing/table.ts';
import { inventedTimes } from '../support/invented-times.ts';

const file = (name: string): string =>
  readFileSync(new URL(`../../scenarios/${name}`, import.meta.url), 'utf8');
const scenario = scenarioSchema.parse(JSON.parse(file('chair-works.json')));

describe('the demo’s list of times', () => {
  const text = file('chair-works-times-invented.csv');
  const table = readTable(text);
  const read = readObservations(table, guessMapping(table, scenario), scenario);

  it('is what its maker makes (vitest -u writes it anew), and every row says that it is invented', async () => {
    await expect(inventedTimes(scenario)).toMatchFileSnapshot(
      '../../scenarios/chair-works-times-invented.csv',
    );
    expect(
      text
        .trim()
        .split('\n')
        .slice(1)
        .every((row) => row.endsWith(',invented')),
    ).toBe(true);
  });

  it('is read whole, 25 times for every time of the scenario', () => {
    expect([read.unread, read.unknown, read.ambiguous]).toEqual([[], [], []]);
    expect(
      groupsOf(scenario, read.observations).map((group) => [
        group.step,
        group.product,
        group.repeat,
        group.minutes.length,
      ]),
    ).toEqual([
      ['stage', null, false, 25],
      ['fit', null, false, 25],
      ['fit', 'bent', false, 25],
      ['glue', null, false, 25],
      ['unclamp', null, false, 25],
      ['clean', null, false, 25],
      ['clean', null, true, 25],
      ['sand', null, false, 25],
      ['sand', null, true, 25],
      ['check', null, false, 25],
    ]);
  });

  it('gives back the demo’s own times: all ten ranges of drift hold 1', () => {
    // The ten ranges hold together in 95 % of lists; this is the one list there is.
    for (const drift of driftsOf(scenario, read.observations))
      expect([drift.step, drift.low < 1, drift.high > 1]).toEqual([drift.step, true, true]);
  });

  it('makes a good file when fitted, its means within four standard errors of the demo’s', () => {
    const fits = groupsOf(scenario, read.observations).map((group) => fitStep(group));
    expect(scenarioSchema.safeParse(applyFits(scenario, fits)).success).toBe(true);
    for (const fit of fits) {
      const step = scenario.steps[fit.step]!;
      const truth = compileTime(
        fit.product !== null
          ? scenario.products![fit.product]!.times![fit.step]!
          : fit.repeat
            ? step.repeatTime!
            : step.time,
      );
      expect(Math.abs(fit.chosen!.mean - truth.mean), fit.step).toBeLessThan(
        (4 * truth.standardDeviation) / 5,
      );
    }
  });
});

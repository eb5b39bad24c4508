/** What a record says of gear out of order at the count; worked out by hand. */
import { expect, it } from 'vitest';
import type { EventRow } from '../../src/record/event-row.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Gear, Scenario } from '../../src/scenario/schema.ts';
import { stateAt } from '../../src/today/state.ts';

function brokenAt(minute: number, clamp: Gear, rows: [at: number, event: string, item: number][]): unknown {
  const reading = checkScenario({
    format: 1,
    name: 'Glue-up',
    steps: { glue: { time: 5, takes: [{ gear: 'clamp', until: 'off' }] }, off: { time: 2 } },
    gear: { clamp },
    people: { ana: { covers: ['glue', 'off'] } },
    shift: { start: '06:00', end: '14:00' },
  });
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  const scenario: Scenario = reading.scenario;
  const events = rows.map(
    ([at, event, item]) =>
      ({
        day: 1,
        time: at * 60_000,
        event,
        unit: '',
        product: '',
        step: '',
        person: '',
        second: '',
        gear: 'clamp',
        item,
        detail: '',
      }) as unknown as EventRow,
  );
  return stateAt(scenario, events, minute).broken;
}

const planned: Gear = { count: 3, out: [{ from: '07:00', minutes: 90, items: 2 }] };

it('of a planned time the rest is left, counted from when the set went out behind its piece', () => {
  expect(
    brokenAt(100, planned, [
      [60, 'gear out', 1],
      [60, 'gear out', 2],
    ]),
  ).toEqual([{ gear: 'clamp', items: 2, minutes: 50 }]);
  expect(
    brokenAt(100, planned, [
      [60, 'gear out', 1],
      [72, 'gear out', 2],
    ]),
  ).toEqual([
    { gear: 'clamp', items: 1, minutes: 50 },
    { gear: 'clamp', items: 1, minutes: 62 },
  ]);
  expect(
    brokenAt(100, planned, [
      [60, 'gear out', 1],
      [90, 'gear mended', 1],
    ]),
  ).toEqual([]);
});

it('of a repair the mean of what it may still take is left', () => {
  const fails = (repair: NonNullable<Gear['fails']>['repair']): Gear => ({
    count: 3,
    fails: { every: 500, repair },
  });
  expect(brokenAt(100, fails(30), [[80, 'gear out', 3]])).toEqual([{ gear: 'clamp', items: 1, minutes: 10 }]);
  // An exponential time has no memory: its mean is left whenever one looks.
  const [left] = brokenAt(100, fails({ curve: 'exponential', mean: 20 }), [[80, 'gear out', 3]]) as {
    minutes: number;
  }[];
  expect(left!.minutes).toBeCloseTo(20, 0);
});

it('a set that no file plans to be out, or that is back, is not', () => {
  expect(brokenAt(100, { count: 2 }, [[80, 'gear out', 1]])).toEqual([]);
});

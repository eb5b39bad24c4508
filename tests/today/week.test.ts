/** A week as one run: the same as its days chained by hand, orders as queueing says, hours as by hand. */
import { describe, expect, it } from 'vitest';
import { recordEvents } from '../../src/record/event-record.ts';
import { recordOrders } from '../../src/record/order-record.ts';
import { joinOrderRuns, type RunOrders } from '../../src/record/order-runs.ts';
import { minutesToStart, scenarioOn } from '../../src/scenario/calendar.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { checkOpening } from '../../src/today/check-now.ts';
import { stateAt } from '../../src/today/state.ts';
import { hoursOfWeek } from '../../src/today/week-hours.ts';
import { planWeek, shiftsOfWeek } from '../../src/today/week.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { withoutChance } from './support.ts';

const DAYS = ['2027-03-08', '2027-03-09', '2027-03-10', '2027-03-11', '2027-03-12'];

/** What a file opens with that was counted the night before. */
const openingOf = ({
  carryOver,
  holds,
  outRack,
}: Scenario): Pick<Scenario, 'carryOver' | 'holds' | 'outRack'> => ({
  carryOver: carryOver!,
  holds: holds!,
  ...(outRack === undefined ? {} : { outRack }),
});

describe('five days chained by hand through their handovers', () => {
  it.each(['chair-works', ...SHOPS] as const)(
    'are one week’s run bit for bit where times are fixed: %s',
    (name) => {
      const {
        nextShifts: _next,
        options: _options,
        ...given
      } = name === 'chair-works' ? shipped(name) : shop(name);
      const cell = withoutChance(given);
      const file: Scenario = {
        ...cell,
        shift: { ...cell.shift, atEnd: 'put down', overtime: { until: 'none' } },
        calendar: { absences: [{ person: Object.keys(cell.people).at(-1)!, from: DAYS[2]! }] },
      };
      const days = DAYS.map((day) => ({ day, scenario: scenarioOn(file, day) }));
      const week = recordEvents(shiftsOfWeek(days), 0);
      let opening: Pick<Scenario, 'carryOver' | 'holds' | 'outRack'> = { carryOver: file.carryOver ?? [] };
      days.forEach(({ day, scenario }, i) => {
        const alone = { ...scenario, ...opening };
        const record = recordEvents([resolve(alone)], 0)[0]!;
        const offset = i * 86_400_000;
        const goods = (events: typeof record, from: number): number[] =>
          events.filter((one) => one.event === 'good').map((one) => one.time - from);
        expect(goods(record, 0), day).toEqual(goods(week[i]!, offset));
        const next = days[i + 1];
        if (next === undefined) return;
        const { start, length } = resolve(scenario);
        const now = stateAt(alone, record, length);
        // Through a file: what is written and read again.
        const handed: unknown = JSON.parse(
          JSON.stringify({ ...now, out: [], good: goods(record, 0).length }),
        );
        const between = minutesToStart(now.at, day, next.day, start, start);
        const checked = checkOpening(scenario, handed, between);
        expect(checked.kind === 'wrong' ? checked.faults : []).toEqual([]);
        if (checked.kind === 'fine') opening = openingOf(checked.rest);
      });
    },
  );
});

describe('an order', () => {
  const queue = (people: number, units: number, mean: number): Scenario => ({
    format: 1,
    name: 'Queue',
    seed: 'orders',
    steps: { work: { time: { curve: 'exponential', mean }, benches: people } },
    people: Object.fromEntries(Array.from({ length: people }, (_, i) => [`p${i}`, { covers: ['work'] }])),
    shift: { start: '06:00', end: '05:59', atEnd: 'put down' },
    intake: { kind: 'list', arrivals: [{ at: '06:00', units, name: 'order' }] },
  });

  // The k-th end of exponential times at one person is an Erlang sum; with two, the first k - 1 ends come at
  // twice the rate and the last is the longer of what is left. Recomputed exactly.
  it.each([
    [1, 4, 120, 0.8487961],
    [1, 8, 240, 0.9104955],
    [2, 6, 90, 0.7787048],
  ])(
    'of %#: %i people, %i pieces, by %i min, with the chance of exact queueing',
    (people, units, due, exact) => {
      const count = 6000;
      const { out, pieces } = recordOrders([resolve(queue(people, units, 20))], [{ name: 'order', units }], {
        from: 0,
        count,
      });
      expect(pieces).toEqual([units]);
      const share = out[0]!.filter((time) => time <= due).length / count;
      expect(Math.abs(share - exact)).toBeLessThan(3.3 * Math.sqrt((exact * (1 - exact)) / count));
    },
  );
});

/** In stretches, as a page runs them. */
const runOrders: RunOrders = (shifts, orders, { from, count }) =>
  Promise.resolve(
    joinOrderRuns(
      [0, 1].map((half) =>
        recordOrders(shifts, orders, {
          from: from + half * Math.floor(count / 2),
          count: half === 0 ? Math.floor(count / 2) : Math.ceil(count / 2),
        }),
      ),
    ),
  );

describe('a run of orders', () => {
  it('is the same in stretches put together', async () => {
    const cell = shipped('chair-works');
    const made: Scenario = {
      ...cell,
      intake: {
        kind: 'list',
        arrivals: [
          { at: '06:00', units: 12 },
          { at: '06:00', units: 3, name: 'school' },
        ],
      },
    };
    const [shifts, orders] = [[resolve(made)], [{ name: 'school', units: 3 }]];
    const stretch = { from: 0, count: 41 };
    expect(await runOrders(shifts, orders, stretch)).toEqual(recordOrders(shifts, orders, stretch));
  });
});

describe('a week', () => {
  const bench: Scenario = {
    format: 1,
    name: 'Bench',
    steps: { fit: { time: 30 } },
    people: { orla: { covers: ['fit'], pay: 20 }, kofi: { covers: [], pay: 20, to: '14:00' } },
    shift: { start: '06:00', end: '15:00' },
    intake: { kind: 'list', arrivals: [{ at: '06:00', units: 17 }] },
    pay: { dailyAfter: 8 },
  };

  // Five 9-hour days at 20 with a daily threshold of 8: 950.00, 5 h of them at a premium (reckoned by hand).
  it('tells hours and premium as reckoned by hand', async () => {
    const shifts = shiftsOfWeek(DAYS.map((day) => ({ day, scenario: bench })));
    const week = await planWeek(
      bench,
      [],
      DAYS,
      { runner: inLineRunner(), runOrders },
      { count: 30, crew: false, search: 100 },
    );
    const [orla, kofi] = hoursOfWeek(shifts, week.shifts);
    expect(orla).toMatchObject({ hours: 45, premiumHours: 5, reachedOn: 4, threshold: 40 });
    expect(kofi).toMatchObject({ hours: 40, premiumHours: 0 });
    const paid = week.shifts.reduce((sum, { people }) => sum + people[0]!.cost, 0);
    expect(paid).toBeCloseTo(950, 9);
  });
});

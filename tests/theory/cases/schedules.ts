/** Fixed times and a given order: the end of the last job, exactly. */
import type { TheoryCase } from '../case.ts';
import { johnsonOrder, makespan, taillardTimes } from '../formulas/flow-shop.ts';

/** A minute of the source is a tenth of one in the file: 1,721 minutes would not go into a day. */
const SCALE = 0.1;

/** One machine a step, one job a product, each with its own times; all there at the start, in this order. */
export function flowShop(times: number[][], order: number[], rack: number | null): unknown {
  const steps = times.map((_, machine) => `m${machine + 1}`);
  return {
    format: 1,
    name: 'Flow shop',
    steps: Object.fromEntries(
      steps.map((step, machine) => [step, { time: 1, ...(machine === 0 || rack === null ? {} : { rack }) }]),
    ),
    products: Object.fromEntries(
      times[0]!.map((_, job) => [
        `job${job + 1}`,
        { times: Object.fromEntries(steps.map((step, machine) => [step, times[machine]![job]! * SCALE])) },
      ]),
    ),
    people: Object.fromEntries(steps.map((step) => [step, { covers: [step] }])),
    shift: { start: '06:00', end: '14:00', target: order.length },
    intake: { kind: 'list', arrivals: order.map((job) => ({ at: '06:00', product: `job${job + 1}` })) },
  };
}

const TAILLARD = taillardTimes(873654221, 20, 5);
const AS_NUMBERED = TAILLARD[0]!.map((_, job) => job);
const BEST = [3, 17, 15, 6, 9, 8, 13, 2, 14, 4, 5, 16, 18, 19, 1, 7, 11, 10, 20, 12].map((job) => job - 1);
export const JOHNSON = [
  [4, 8, 5, 6, 8, 7],
  [7, 3, 8, 4, 5, 4],
];

const end = (
  name: string,
  source: string,
  times: number[][],
  order: number[],
  rack: number | null,
  expected: number,
  printed?: number,
): TheoryCase => ({
  name,
  source,
  kind: 'fixed',
  scenario: () => flowShop(times, order, rack),
  measures: [
    {
      name: 'end of the last job',
      expected,
      ...(printed === undefined ? {} : { printed }),
      of: (shift) => Math.round(shift.scalar('targetAt') * 60_000) / (60_000 * SCALE),
      per: () => 1,
    },
  ],
});

const OF_TAILLARD = 'Taillard 1993, 20 jobs on 5 machines, no. 1 (generator, seed and first times read)';

export const scheduleCases: TheoryCase[] = [
  end(
    '20 jobs on 5 machines in the order numbered, no rack limits',
    `${OF_TAILLARD}; recursion`,
    TAILLARD,
    AS_NUMBERED,
    null,
    makespan(TAILLARD, AS_NUMBERED),
    1448,
  ),
  end(
    'the same with one slot between machines',
    `${OF_TAILLARD}; recomputed with one slot`,
    TAILLARD,
    AS_NUMBERED,
    1,
    1529,
  ),
  end(
    'the same with no slot between machines',
    `${OF_TAILLARD}; recomputed without slots`,
    TAILLARD,
    AS_NUMBERED,
    0,
    1721,
  ),
  end(
    '20 jobs on 5 machines in an order that reaches the published bound',
    OF_TAILLARD,
    TAILLARD,
    BEST,
    null,
    makespan(TAILLARD, BEST),
    1278,
  ),
  end(
    "6 jobs on 2 machines by Johnson's rule",
    'Johnson 1954; example read',
    JOHNSON,
    johnsonOrder(JOHNSON),
    null,
    makespan(JOHNSON, johnsonOrder(JOHNSON)),
    41,
  ),
];

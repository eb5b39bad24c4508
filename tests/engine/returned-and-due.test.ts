/** Pieces that come back, and due times said from coming: worked out by hand, and by queueing theory. */
import { describe, expect, test } from 'vitest';
import type { Scenario } from '../../src/scenario/schema.ts';
import { eventTable, type Sketch } from '../support/event-table.ts';
import { Rerun, scalar, shiftOf } from '../support/run-cell.ts';

const rowOf = (sketch: object): ReturnType<Rerun['rows']>[number] =>
  new Rerun([shiftOf({ format: 1, name: 'Sketch', ...sketch })]).rows(0)[0]!;

describe('pieces that come back from a later department', () => {
  const sketch: Sketch = {
    steps: { fit: { time: 10 }, sand: { time: 6 } },
    products: { door: {}, back: { share: 0, enters: 'sand', returned: true } },
    people: { ana: { covers: ['fit'] }, bo: { covers: ['sand'] } },
    shift: { target: 3 },
    intake: {
      kind: 'list',
      arrivals: [
        { at: '06:00', units: 3, product: 'door' },
        { at: '06:05', units: 2, product: 'back' },
      ],
    },
  };

  test('take hands and a place in the line, and are no new good units', () => {
    // Ana ends at 10, 20, 30. Bo sands what came back 5-11 and 11-17, then the doors 17-23, 23-29, 30-36.
    expect(eventTable(sketch, ['good', 'out', 'target'])).toEqual([
      '11 out again 3',
      '17 out again 4',
      '23 good 0',
      '29 good 1',
      '36 good 2',
      '36 target met',
    ]);
    const row = rowOf(sketch);
    const of = (
      ['arrived', 'good', 'returned', 'inside', 'targetAt', 'leadMean', 'firstPassYield'] as const
    ).map((name) => scalar(row, name));
    expect(of).toEqual([5, 3, 2, 0, 36, (23 + 29 + 36) / 3, 1]);
  });

  test('fill the out-rack like any other', () => {
    const row = rowOf({ ...sketch, outRack: { size: 2, racks: 3 } });
    expect([scalar(row, 'racksSent'), scalar(row, 'good')]).toEqual([2, 3]);
  });

  test('are not counted where they stand over from the night', () => {
    const row = rowOf({ ...sketch, carryOver: [{ at: 'sand', product: 'back' }, { at: 'sand' }] });
    expect([scalar(row, 'good'), scalar(row, 'returned')]).toEqual([4, 3]);
  });
});

describe('a due time from coming', () => {
  /** Minutes, and when each is due; all there at the start. */
  type Job = readonly [minutes: number, due: number];
  const jobs = (list: readonly Job[], order: 'first come' | 'earliest due'): Partial<Scenario> => ({
    steps: { work: { time: 5, order } },
    products: Object.fromEntries(list.map(([minutes], i) => [`j${i}`, { times: { work: minutes } }])),
    people: { ana: { covers: ['work'] } },
    intake: {
      kind: 'list',
      arrivals: list.map(([, due], i) => ({ at: '06:00', product: `j${i}`, dueAfter: due })),
    },
  });
  // Five jobs of an exercise page, five of Heizer & Render, Operations Management (sequencing), both from
  // memory; how many are late, recomputed by hand.
  const exercise: Job[] = [
    [5, 10],
    [10, 15],
    [2, 5],
    [8, 12],
    [6, 8],
  ];
  const textbook: Job[] = [
    [6, 8],
    [2, 6],
    [8, 18],
    [3, 15],
    [9, 23],
  ];

  test.each([
    ['exercise', exercise, 'first come', 3],
    ['exercise', exercise, 'earliest due', 3],
    ['textbook', textbook, 'first come', 3],
    ['textbook', textbook, 'earliest due', 2],
  ] as const)('tells how many are late: %s, %j, %s', (_name, list, order, late) => {
    const row = rowOf(jobs(list, order));
    expect([scalar(row, 'dated'), scalar(row, 'late')]).toEqual([5, late]);
  });

  const people = { ana: { covers: ['work'] } };
  test.each([
    [{ kind: 'at start', units: 4 }, [4, 2]],
    [{ kind: 'beat', every: 5, units: 4 }, [4, 1]],
    [{ kind: 'random', gap: 5, units: 4 }, [4, 1]],
    [{ kind: 'constant', inside: 3 }, [4, 2]],
    [
      {
        kind: 'list',
        arrivals: [
          { at: '06:00', units: 3 },
          { at: '06:00', dueAfter: 60 },
        ],
      },
      [4, 1],
    ],
    [
      {
        kind: 'list',
        arrivals: [
          { at: '06:00', units: 3 },
          { at: '06:00', due: '06:01' },
        ],
      },
      [4, 2],
    ],
  ])('is said once for every piece that comes: %j', (intake, expected) => {
    // Ends at 10, 20, 30, 40 (where they come from 5 on: 15 to 45), each due 20 after it came.
    const row = rowOf({
      steps: { work: { time: 10 } },
      people,
      shift: { end: '06:40' },
      intake: { ...intake, dueAfter: 20 },
    });
    expect([scalar(row, 'dated'), scalar(row, 'late')]).toEqual(expected);
  });

  test('counts from when a piece of the opening stock came', () => {
    const carryOver = [
      { at: 'work', arrived: 50, dueAfter: 65 },
      { at: 'work', arrived: 50, dueAfter: 65 },
    ];
    const row = rowOf({
      steps: { work: { time: 10 } },
      people,
      intake: { kind: 'at start', units: 0 },
      carryOver,
    });
    // Due at 15: the first is out at 10, the second at 20.
    expect([scalar(row, 'dated'), scalar(row, 'late')]).toEqual([2, 1]);
  });

  // Time in the cell of one server, in a steady state, is over t with chance exp(-t (mu - lambda)): 4 an hour
  // at 12 min, exp(-t/60). An arrival finds k pieces with chance .2 x .8^k; each run opens as one leaves
  // it, with k and itself, and all that come later find the same.
  test.each([
    [30, Math.exp(-0.5)],
    [60, Math.exp(-1)],
    [90, Math.exp(-1.5)],
  ])('random arrivals at one post are late by %i min as often as queueing says: %f', (dueAfter, exact) => {
    const cell = (units: number): object => ({
      format: 1,
      name: 'Queue',
      seed: 'late',
      steps: { work: { time: { curve: 'exponential', mean: 12 } } },
      people,
      shift: { start: '06:00', end: '06:00' },
      intake: { kind: 'random', gap: { curve: 'exponential', mean: 15 }, units: 40, dueAfter },
      carryOver: [{ at: 'work', units }],
    });
    const runs = new Map<number, Rerun>();
    const count = 1500;
    const shares = Array.from({ length: count }, (_, replication) => {
      const found = Math.floor(Math.log(1 - (replication + 0.5) / count) / Math.log(0.8));
      const run = runs.get(found) ?? new Rerun([shiftOf(cell(found + 1))]);
      runs.set(found, run);
      const row = run.rows(replication)[0]!;
      expect(scalar(row, 'dated')).toBe(40);
      return scalar(row, 'late') / 40;
    });
    const mean = shares.reduce((sum, one) => sum + one, 0) / count;
    const spread = Math.sqrt(shares.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (count - 1));
    expect(Math.abs(mean - exact)).toBeLessThan((3.3 * spread) / Math.sqrt(count));
  });
});

import seedrandom from 'seedrandom';
import { describe, expect, test } from 'vitest';
import { correctSelections } from './correct-selections.ts';
import { conductNow, type Ask } from '../../../src/study/selection/procedure.ts';
import { race, type Figures, type Objective, type RaceResult } from '../../../src/study/selection/race.ts';

interface Plan {
  /** Chance of 22, and of 20 (all make 18). */
  makes22: number;
  makes20: number;
  cost: number;
  /** What it brings in, less its cost. Default: nothing. */
  brings?: number;
}

/**
 * Shifts of invented plans: output from one shared and one own draw, cost in money with a spread of its own.
 */
const shifts =
  (plans: Plan[]) =>
  (repeat: number, { candidate, from, count }: Ask): Figures => {
    const plan = plans[candidate]!;
    const figures = { output: [] as number[], cost: [] as number[], worth: [] as number[] };
    for (let at = from; at < from + count; at++) {
      const own = seedrandom(`${repeat} ${candidate} ${at}`);
      const luck = own();
      figures.output.push(luck < plan.makes22 ? 22 : luck < plan.makes20 ? 20 : 18);
      const cost = plan.cost + 40 * (seedrandom(`${repeat} ${at}`)() - 0.5) + 10 * (own() - 0.5);
      figures.cost.push(cost);
      figures.worth.push((plan.brings ?? 0) - cost);
    }
    return figures;
  };

const of = (plans: Plan[], by: Objective, levels: number[]) => ({
  candidates: plans.length,
  levels,
  by,
  changes: plans.map(() => 0),
  matters: 5,
  asked: 0.8,
});

const rehearse = (
  plans: Plan[],
  repeats: number,
  right: (result: RaceResult) => boolean,
  by: Objective = 'cost',
) =>
  correctSelections({
    repeats,
    procedure: () => race(of(plans, by, [22, 21, 20, 19, 18])),
    sample: shifts(plans),
    right,
    cost: (result) => result.replications,
  });

const able: Plan[] = [
  { makes22: 0.6, makes20: 0.9, cost: 900 },
  { makes22: 0.75, makes20: 0.9, cost: 950 },
  { makes22: 0.85, makes20: 0.95, cost: 1000 },
  { makes22: 0.85, makes20: 0.97, cost: 1005 },
  { makes22: 0.99, makes20: 1, cost: 1200 },
];

describe('the race of plans', () => {
  test('finds the cheapest plan that makes the target as often as promised, with the hardest chances at both edges', () => {
    const result = rehearse(
      able,
      100,
      ({ kind, level, chosen }) => kind === 'makes' && level === 22 && chosen === 2,
    );
    expect(result.share.high).toBeGreaterThan(0.95);
    expect(result.share.estimate).toBeGreaterThan(0.93);
  });

  test('where nobody makes the target, finds the most that can be promised and who promises it cheapest', () => {
    const unable: Plan[] = [
      { makes22: 0.4, makes20: 0.75, cost: 800 },
      { makes22: 0.5, makes20: 0.85, cost: 900 },
      { makes22: 0.75, makes20: 0.85, cost: 990 },
    ];
    const result = rehearse(
      unable,
      100,
      ({ kind, level, chosen }) => kind === 'promises' && level === 20 && chosen === 1,
    );
    expect(result.share.high).toBeGreaterThan(0.95);
    expect(result.share.estimate).toBeGreaterThan(0.93);
  });

  test('takes the one worth most of those that make it, not the cheapest', () => {
    const plans: Plan[] = [
      // Worth most of all, and makes it too seldom; then the cheapest; then the one worth most.
      { makes22: 0.6, makes20: 0.9, cost: 900, brings: 1200 },
      { makes22: 0.9, makes20: 0.95, cost: 950, brings: 1000 },
      { makes22: 0.9, makes20: 0.95, cost: 1000, brings: 1060 },
      { makes22: 0.99, makes20: 1, cost: 1200, brings: 1240 },
    ];
    const result = rehearse(plans, 60, ({ level, chosen }) => level === 22 && chosen === 2, 'worth');
    expect(result.share.high).toBeGreaterThan(0.95);
    expect(result.share.estimate).toBeGreaterThan(0.93);
  });

  test('where nothing has a price takes the surest, and of those as sure the cheapest', () => {
    const plans: Plan[] = [
      { makes22: 0.88, makes20: 0.95, cost: 900 },
      { makes22: 0.99, makes20: 1, cost: 1000 },
      { makes22: 0.99, makes20: 1, cost: 1100 },
    ];
    const result = rehearse(plans, 60, ({ level, chosen }) => level === 22 && chosen === 1, 'output');
    expect(result.share.high).toBeGreaterThan(0.95);
    expect(result.share.estimate).toBeGreaterThan(0.93);
  });

  test('of plans equal in cost takes the surer, then the one that makes more, then the one that changes less', () => {
    const equal = (chances: [number, number][], changes: number[]): RaceResult => {
      const plans = chances.map(([makes22, makes20]): Plan => ({ makes22, makes20, cost: 900 }));
      return conductNow(race({ ...of(plans, 'cost', [22]), changes }), (ask) => ({
        ...shifts(plans)(1, ask),
        cost: Array.from({ length: ask.count }, () => 900),
      }));
    };
    // The first two plans' luck is not the same: their chances lie far enough apart to tell.
    expect(
      equal(
        [
          [0.9, 1],
          [0.99, 1],
          [0.9, 1],
        ],
        [0, 2, 0],
      ),
    ).toMatchObject({ chosen: 1 });
    expect(
      equal(
        [
          [1, 1],
          [1, 1],
        ],
        [2, 1],
      ),
    ).toMatchObject({ chosen: 1, runnerUp: 0 });
    expect(
      equal(
        [
          [1, 1],
          [1, 1],
        ],
        [1, 2],
      ).standings.map((one) => one.lostBy),
    ).toEqual([null, 'nothing that matters']);
    const more = conductNow(race({ ...of([able[4]!, able[4]!], 'cost', [22]), changes: [0, 3] }), (ask) => ({
      output: Array.from({ length: ask.count }, () => 22 + ask.candidate),
      cost: Array.from({ length: ask.count }, () => 900),
      worth: Array.from({ length: ask.count }, () => -900),
    }));
    expect(more.chosen).toBe(1);
  });

  test('says who lost by what, who came second, and what it saved', () => {
    const result = conductNow(race(of(able, 'cost', [22])), (ask) => shifts(able)(1, ask));
    expect(result.standings.map((standing) => standing.lostBy)).toEqual([
      'target',
      'target',
      null,
      'cost',
      'cost',
    ]);
    expect(result.runnerUp).toBe(3);
    expect(result.capped).toBe(false);
    expect(result.replications).toBe(
      result.standings.reduce((sum, standing) => sum + standing.replications, 0),
    );
    expect(result.replications).toBeLessThan(result.equalReplications);
    expect(result.standings[4]!.meanCost).toBeCloseTo(1200, -1);
    expect(result.standings[0]!.chance).toBeLessThan(0.75);
  });

  test('says so when nothing asked about can be made, and when the cap forced an answer', () => {
    const hopeless: Plan[] = [{ makes22: 0, makes20: 0, cost: 5 }];
    expect(conductNow(race(of(hopeless, 'cost', [22, 20])), (ask) => shifts(hopeless)(1, ask))).toMatchObject(
      {
        kind: 'none',
        level: null,
        chosen: null,
        runnerUp: null,
        capped: false,
      },
    );
    const between: Plan[] = [{ makes22: 0.8, makes20: 1, cost: 5 }];
    const forced = conductNow(race({ ...of(between, 'cost', [22, 20]), most: 40 }), (ask) =>
      shifts(between)(1, ask),
    );
    expect(forced.capped).toBe(true);
    expect(forced.replications).toBeLessThanOrEqual(40);
    expect(conductNow(race(of([], 'cost', [22])), (ask) => shifts([])(1, ask)).kind).toBe('none');
  });
});

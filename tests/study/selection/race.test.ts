import seedrandom from 'seedrandom';
import { describe, expect, test } from 'vitest';
import { correctSelections } from './correct-selections.ts';
import { conductNow, type Ask } from '../../../src/study/selection/procedure.ts';
import { race, type Figures, type RaceResult } from '../../../src/study/selection/race.ts';

interface Plan {
  /** Chance of 22, and of 20 (all make 18). */
  makes22: number;
  makes20: number;
  cost: number;
}

/**
 * Shifts of invented plans: output from one shared and one own draw, cost in money with a spread of its own.
 */
const shifts =
  (plans: Plan[]) =>
  (repeat: number, { candidate, from, count }: Ask): Figures => {
    const plan = plans[candidate]!;
    const figures = { output: [] as number[], cost: [] as number[] };
    for (let at = from; at < from + count; at++) {
      const own = seedrandom(`${repeat} ${candidate} ${at}`);
      const luck = own();
      figures.output.push(luck < plan.makes22 ? 22 : luck < plan.makes20 ? 20 : 18);
      figures.cost.push(plan.cost + 40 * (seedrandom(`${repeat} ${at}`)() - 0.5) + 10 * (own() - 0.5));
    }
    return figures;
  };

const rehearse = (plans: Plan[], repeats: number, right: (result: RaceResult) => boolean) =>
  correctSelections({
    repeats,
    procedure: () => race({ candidates: plans.length, levels: [22, 21, 20, 19, 18], matters: 5 }),
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
      200,
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
      200,
      ({ kind, level, chosen }) => kind === 'promises' && level === 20 && chosen === 1,
    );
    expect(result.share.high).toBeGreaterThan(0.95);
    expect(result.share.estimate).toBeGreaterThan(0.93);
  });

  test('says who lost by what, who came second, and what it saved', () => {
    const result = conductNow(race({ candidates: 5, levels: [22], matters: 5 }), (ask) =>
      shifts(able)(1, ask),
    );
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
    expect(
      conductNow(race({ candidates: 1, levels: [22, 20], matters: 5 }), (ask) => shifts(hopeless)(1, ask)),
    ).toMatchObject({
      kind: 'none',
      level: null,
      chosen: null,
      runnerUp: null,
      capped: false,
    });
    const between: Plan[] = [{ makes22: 0.8, makes20: 1, cost: 5 }];
    const forced = conductNow(race({ candidates: 1, levels: [22, 20], matters: 5, most: 40 }), (ask) =>
      shifts(between)(1, ask),
    );
    expect(forced.capped).toBe(true);
    expect(forced.replications).toBeLessThanOrEqual(40);
    expect(
      conductNow(race({ candidates: 0, levels: [22], matters: 5 }), (ask) => shifts([])(1, ask)).kind,
    ).toBe('none');
  });
});

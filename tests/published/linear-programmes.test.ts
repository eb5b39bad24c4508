/** Linear programmes and assignments with known optima. */
import fc from 'fast-check';
import highs from 'highs';
import { describe, expect, test } from 'vitest';
import { solve } from 'yalps';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { fluidCeiling } from '../../src/study/ceilings/fluid-ceiling.ts';
import { holds } from '../support/holds.ts';

const MINUTES: Record<string, number> = { fit: 6, glue: 5, unclamp: 3, sand: 8, check: 4 };

/** A shop of 450 minutes with a bench for everybody, so that people alone count. */
const shop = (crew: string[][], minutes = MINUTES): Scenario => ({
  format: 1,
  name: 'Capacity',
  steps: Object.fromEntries(
    Object.entries(minutes).map(([step, time]) => [step, { time, benches: crew.length }]),
  ),
  people: Object.fromEntries(crew.map((covers, at) => [`p${at}`, { covers }])),
  shift: { start: '06:00', end: '13:30' },
  intake: { kind: 'constant', inside: 10 },
});
const capacity = (crew: string[][], minutes = MINUTES): number =>
  fluidCeiling(resolve(shop(crew, minutes)), { inHand: false }).good;

describe('what a crew can make at most, who does what being free (worked out by hand)', () => {
  test.each([
    ['two who do everything', [Object.keys(MINUTES), Object.keys(MINUTES)], 34.615385],
    [
      'three in a chain',
      [
        ['fit', 'glue'],
        ['glue', 'unclamp', 'sand'],
        ['sand', 'check'],
      ],
      51.923077,
    ],
    ['three specialists', [['fit'], ['glue', 'unclamp'], ['sand', 'check']], 37.5],
  ])('%s', (_, crew, expected) => {
    expect(capacity(crew)).toBeCloseTo(expected, 6);
  });

  // Max-flow min-cut (Ford and Fulkerson 1956) for this transport problem.
  test('is always the least, over sets of steps, of the minutes of those who can do some of them by the minutes they take', () => {
    const steps = ['a', 'b', 'c', 'd', 'e'];
    holds(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 5, maxLength: 5 }),
        fc.array(fc.subarray(steps), { minLength: 1, maxLength: 6 }),
        (times, crew) => {
          const minutes = Object.fromEntries(steps.map((step, at) => [step, times[at]!]));
          let least = Infinity;
          for (let set = 1; set < 32; set++) {
            const inSet = steps.filter((_, at) => (set >> at) % 2 === 1);
            const able = crew.filter((covers) => covers.some((step) => inSet.includes(step))).length * 450;
            least = Math.min(least, able / inSet.reduce((sum, step) => sum + minutes[step]!, 0));
          }
          expect(capacity(crew, minutes)).toBeCloseTo(least, 6);
        },
      ),
      { numRuns: 200 },
    );
  });
});

/** The same whole-number programme by both solvers: the one in the product and an outside one. */
async function bothSolve(
  objective: Map<string, number>,
  rows: { terms: string[]; least: number; most: number }[],
): Promise<[number, number]> {
  const constraints = rows.map(({ least, most }, at) => [`r${at}`, { min: least, max: most }] as const);
  const variables = [...objective].map(
    ([column, cost]) =>
      [
        column,
        [
          ['cost', cost] as const,
          ...rows.flatMap(({ terms }, at) => (terms.includes(column) ? [[`r${at}`, 1] as const] : [])),
        ],
      ] as const,
  );
  const inside = solve<string, string>({
    direction: 'minimize',
    objective: 'cost',
    constraints,
    variables,
    integers: true,
  });
  const sum = [...objective].map(([column, cost]) => `${cost} ${column}`).join(' + ');
  const lines = rows.flatMap(({ terms, least, most }) => [
    `${terms.join(' + ')} >= ${least}`,
    ...(most < 1e9 ? [`${terms.join(' + ')} <= ${most}`] : []),
  ]);
  const text = `Minimize\n obj: ${sum}\nSubject To\n ${lines.join('\n ')}\nGeneral\n ${[...objective.keys()].join(' ')}\nEnd\n`;
  return [inside.result, (await highs()).solve(text).ObjectiveValue];
}

// Assignment of five to five, least total 27 (published textbook example).
test('five people on five posts cost 27 together', async () => {
  const costs = [
    [7, 5, 9, 8, 11],
    [9, 12, 7, 11, 10],
    [8, 5, 4, 6, 9],
    [7, 3, 6, 9, 5],
    [4, 6, 7, 5, 11],
  ];
  const objective = new Map(costs.flatMap((row, i) => row.map((cost, j) => [`x${i}${j}`, cost] as const)));
  const five = [0, 1, 2, 3, 4];
  const rows = five
    .flatMap((i) => [five.map((j) => `x${i}${j}`), five.map((j) => `x${j}${i}`)])
    .map((terms) => ({ terms, least: 1, most: 1 }));
  expect(await bothSolve(objective, rows)).toEqual([27, 27]);
});

// Seven-day cover with five days on and two off: Winston, Operations Research (post office), least 23 (from
// memory).
test('a week that needs 17 13 15 19 14 16 11 takes 23 people who work five days on end', async () => {
  const needs = [17, 13, 15, 19, 14, 16, 11];
  const objective = new Map(needs.map((_, day) => [`x${day}`, 1]));
  const rows = needs.map((least, day) => ({
    terms: [0, 1, 2, 3, 4].map((back) => `x${(day - back + 7) % 7}`),
    least,
    most: 1e9,
  }));
  const [inside, outside] = await bothSolve(objective, rows);
  expect(inside).toBeCloseTo(23, 9);
  expect(outside).toBeCloseTo(23, 9);
});

/** Steps in a row: rework that goes back, and a constant number inside. */
import type { TheoryCase } from '../case.ts';
import { waiting } from '../formulas/birth-death.ts';
import { closedThroughput, type Station } from '../formulas/closed-network.ts';
import { atRandom, exponential, measuresIn, people, steady } from './cell.ts';

const HOUR = 1;
const hourly = measuresIn(HOUR);
const JACKSON =
  'Jackson, Operations Research 5, 1957: each step by itself, at the rate that rework brings it to';
const inside = (arrivals: number, work: number, servers: number): number =>
  waiting(arrivals, work, servers) + arrivals / work;

const often = 6 / 0.9;
const backOnce: TheoryCase = {
  name: 'sand 10 an hour, check 12, one in ten back to sand, 6 in',
  source: JACKSON,
  kind: 'steady',
  replications: 40,
  scenario: steady({
    name: 'Rework',
    steps: {
      sand: { time: exponential(HOUR / 10) },
      check: { time: exponential(HOUR / 12), rework: [{ to: 'sand', percent: 10 }] },
    },
    people: { sander: { covers: ['sand'] }, checker: { covers: ['check'] } },
    intake: atRandom(HOUR / 6),
  }),
  measures: [
    hourly.inside('number at sanding', 'sand', inside(often, 10, 1), { printed: 2 }),
    hourly.inside('number at checking', 'check', inside(often, 12, 1), { printed: 1.25 }),
    hourly.lead('arrival to good, hours', (inside(often, 10, 1) + inside(often, 12, 1)) / 6, {
      printed: 0.541667,
    }),
  ],
};

const sanded = 6 / 0.92;
const withScrap: TheoryCase = {
  name: 'fit 12 an hour, two sanders of 5, check 15, 8 % back to sand, 2 % scrap, 6 in',
  source: JACKSON,
  kind: 'steady',
  replications: 40,
  scenario: steady({
    name: 'Rework and scrap',
    steps: {
      fit: { time: exponential(HOUR / 12) },
      sand: { time: exponential(HOUR / 5), benches: 2 },
      check: { time: exponential(HOUR / 15), rework: [{ to: 'sand', percent: 8 }], scrap: 2 },
    },
    people: { fitter: { covers: ['fit'] }, ...people(2, 'sander', ['sand']), checker: { covers: ['check'] } },
    intake: atRandom(HOUR / 6),
  }),
  measures: [
    hourly.inside('number at fitting', 'fit', inside(6, 12, 1), { printed: 1 }),
    hourly.inside('number at sanding', 'sand', inside(sanded, 5, 2), { printed: 2.269737 }),
    hourly.inside('number at checking', 'check', inside(sanded, 15, 1), { printed: 0.769231 }),
    hourly.rate('good, an hour', sanded * 0.9, { printed: 5.869565 }),
  ],
};

const MINUTE = 0.01;
const CELL: Station[] = [
  { mean: 6, servers: 1 },
  { mean: 5, servers: 1 },
  { mean: 30, servers: Infinity },
  { mean: 3, servers: 1 },
  { mean: 8, servers: 2 },
  { mean: 4, servers: 1 },
];
const constantInside = [
  [4, 3.908598],
  [8, 6.638357],
  [16, 9.127924],
].map(([count, printed]): TheoryCase => ({
  name: `fit 6, glue 5, cure always 30, unclamp 3, sand 8 by two, check 4; ${count} joints inside`,
  source: 'closed product form: mean value analysis of Reiser and Lavenberg 1980, here by Buzen 1973',
  kind: 'steady',
  scenario: steady({
    name: 'A constant number inside',
    steps: {
      fit: { time: exponential(6 * MINUTE) },
      glue: { time: exponential(5 * MINUTE) },
      cure: { kind: 'wait', time: 30 * MINUTE },
      unclamp: { time: exponential(3 * MINUTE) },
      sand: { time: exponential(8 * MINUTE), benches: 2 },
      check: { time: exponential(4 * MINUTE) },
    },
    people: {
      fitter: { covers: ['fit'] },
      gluer: { covers: ['glue'] },
      unclamper: { covers: ['unclamp'] },
      ...people(2, 'sander', ['sand']),
      checker: { covers: ['check'] },
    },
    intake: { kind: 'constant', inside: count },
  }),
  measures: [
    measuresIn(60 * MINUTE).rate('joints an hour', 60 * closedThroughput(CELL, count!), {
      printed: printed!,
    }),
  ],
}));

const STATIONS = ['fit', 'glue', 'plug', 'sand', 'check'];
const worstCase = [3, 10].map((count): TheoryCase => ({
  name: `five equal exponential steps, ${count} units inside`,
  source: 'practical worst case, w r / (W + w - 1): Hopp and Spearman, Factory Physics (from memory)',
  kind: 'steady',
  scenario: steady({
    name: 'Practical worst case',
    steps: Object.fromEntries(STATIONS.map((step) => [step, { time: exponential(0.05) }])),
    people: Object.fromEntries(STATIONS.map((step) => [step, { covers: [step] }])),
    intake: { kind: 'constant', inside: count },
  }),
  measures: [measuresIn(0.05).rate('units, per mean time of 1', count / (5 + count - 1))],
}));

export const reworkCases: TheoryCase[] = [backOnce, withScrap, ...constantInside, ...worstCase];

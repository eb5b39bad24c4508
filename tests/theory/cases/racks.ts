/**
 * Racks of limited size between benches: a piece that is done stays where it is while the next rack is full.
 */
import type { TheoryCase } from '../case.ts';
import { lineEnd, lineThroughput } from '../formulas/blocking-line.ts';
import { atRandom, exponential, mean, measuresIn, single, steady } from './cell.ts';

const SCALE = 0.05;
const { rate } = measuresIn(SCALE);
const STATIONS = ['fit', 'glue', 'sand', 'check'];

/** One person and one bench a station. `racks`: slots before each station but the first; null: no limit. */
function line(means: number[], racks: (number | null)[]): Record<string, unknown> {
  const names = STATIONS.slice(0, means.length);
  return {
    name: 'A line with racks',
    steps: Object.fromEntries(
      names.map((name, at) => [
        name,
        { time: exponential(means[at]!), ...(at === 0 ? {} : { rack: racks[at - 1] }) },
      ]),
    ),
    people: Object.fromEntries(names.map((name) => [name, { covers: [name] }])),
  };
}

const HUNT =
  'Hunt, Operations Research 4, 1956, two and three stations; Hillier and Boling 1967 (from memory); chain solved exactly';
const sum = (values: number[]): number => values.reduce((all, value) => all + value, 0);

const LINES: [rates: number[], racks: number[], printed: number][] = [
  [[1, 1], [0], 2 / 3],
  [[1, 1], [1], 0.75],
  [[1, 1], [4], 6 / 7],
  [[1, 1, 1], [0, 0], 22 / 39],
  [[1, 1, 1], [1, 1], 8529 / 12721],
  [[1, 1, 1], [2, 2], 0.73401667],
  [[1, 1, 1], [3, 3], 0.77671153],
  [[1, 1, 1, 1], [0, 0, 0], 0.51477549],
  [[1, 1, 1, 1], [1, 1, 1], 0.63115269],
  [[1, 1.25], [0], 0.73770492],
  [[0.8, 1, 1.2], [1, 2], 0.64964937],
  [[1.2, 1, 0.8], [2, 1], 0.64964937],
];

const lines = LINES.map(([rates, racks, printed]): TheoryCase => ({
  name: `${rates.length} stations, rates ${rates.join(', ')}, rack slots ${racks.join(', ')}`,
  source:
    rates.length === 3 && rates[0] !== 1
      ? 'a line read backwards makes as much (Yamazaki and Sakasegawa 1975, from memory); chain solved exactly'
      : HUNT,
  kind: 'steady',
  // One more inside than the line can hold: the first station always has a piece to begin.
  scenario: steady({
    ...line(
      rates.map((one) => SCALE / one),
      racks,
    ),
    intake: { kind: 'constant', inside: rates.length + sum(racks) + 1 },
  }),
  measures: [
    rate('units, per mean time of 1', lineThroughput(rates, racks), {
      printed,
      ...(rates.length === 2 && racks[0] === 1
        ? { not: [{ value: 2 / 3, because: 'blocking before the work' }] }
        : {}),
    }),
  ],
}));

const tenJoints = (
  [
    [null, 61.43932834],
    [1, 64.41010151],
    [0, 70],
  ] as const
).map(([rack, printed]): TheoryCase => ({
  name: `10 joints from empty through benches of 5 and 4 min, ${rack === null ? 'no rack limit' : `${rack} rack slots between`}`,
  source: 'chain solved exactly, by recursion over its states',
  kind: 'single',
  replications: 6000,
  scenario: single({
    ...line([5, 4], [rack]),
    shift: { start: '06:00', end: '06:00', target: 10 },
    intake: { kind: 'at start', units: 10 },
  }),
  measures: [
    mean(
      'mean end, min',
      (shift) => shift.scalar('targetAt'),
      lineEnd([1 / 5, 1 / 4], [rack ?? Infinity], 10),
      { printed },
    ),
  ],
}));

const transfer = [
  [6, 0.2],
  [12, 0.5],
].map(([size, arrivals]): TheoryCase => ({
  name: `units at random, ${arrivals} a minute, wait for an out-rack of ${size} to fill`,
  source: '(size - 1) / (2 rate) on average, the first (size - 1) / rate (worked out by hand)',
  kind: 'single',
  scenario: single({
    name: 'Rack transfer',
    steps: { look: { time: 0 } },
    people: { looker: { covers: ['look'] } },
    intake: atRandom(SCALE / arrivals!),
    outRack: { size },
  }),
  measures: [
    {
      name: 'mean wait on the rack, min',
      expected: (size! - 1) / (2 * arrivals!),
      of: (shift) => (shift.scalar('rackWait') * shift.scalar('racksSent')) / SCALE,
      per: (shift) => shift.scalar('racksSent'),
    },
    {
      name: 'time to fill, min',
      expected: (size! - 1) / arrivals!,
      of: (shift) => (shift.scalar('rackFill') * shift.scalar('racksSent')) / SCALE,
      per: (shift) => shift.scalar('racksSent'),
    },
  ],
}));

export const rackCases: TheoryCase[] = [...lines, ...tenJoints, ...transfer];

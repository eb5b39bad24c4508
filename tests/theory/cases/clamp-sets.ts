/**
 * The heart of the cell: clamp sets, cure, and hands that are needed at both ends of it. A cure of 30 minutes
 * is common practice, no source.
 */
import { gearAt } from '../../../src/engine/recorder.ts';
import type { TheoryCase } from '../case.ts';
import { erlangLoss, finiteSource } from '../formulas/birth-death.ts';
import { fixedTimeWait } from '../formulas/waits.ts';
import { atRandom, exponential, measuresIn, people, single, steady } from './cell.ts';

/** A minute of the source is a hundredth of one in the file; figures are per hour. */
const SCALE = 0.01;
const CURE = 30;
const HOUR = 60 * SCALE;
const setsOf = (count: number): string => `${count} clamp set${count === 1 ? '' : 's'}`;
/** The cure's place among the steps. */
const CURE_STEP = 1;
const { rate } = measuresIn(HOUR);

const FINITE_SOURCE =
  'Machine interference: Stevenson, Operations Management, 14th edition, chapter 18 (read); any cure curve: Baskett et al. 1975 (from memory)';

/**
 * Unclamping is another's and takes no time, so that gluing is the one task; two joints more than sets are
 * always inside.
 */
function oneTask(
  sets: number,
  hands: unknown,
  count: number,
  cure: unknown = CURE * SCALE,
): ReturnType<typeof steady> {
  return steady({
    name: 'One task',
    steps: {
      glue: { time: hands, benches: 0, takes: [{ gear: 'set', until: 'off' }] },
      cure: { kind: 'wait', time: cure },
      off: { time: 0, benches: 0 },
    },
    gear: { set: { count: sets } },
    people: { ...people(count, 'gluer', ['glue']), helper: { covers: ['off'] } },
    intake: { kind: 'constant', inside: sets + 2 },
  });
}

/** The same hands unclamp and glue, first come first served; one joint comes in as one leaves. */
function twoTasks(sets: number, unclamp: unknown, glue: unknown, count: number): ReturnType<typeof steady> {
  return steady({
    name: 'Two tasks',
    steps: {
      glue: { time: glue, benches: 0, takes: [{ gear: 'set', until: 'unclamp' }] },
      cure: { kind: 'wait', time: CURE * SCALE },
      unclamp: { time: unclamp, benches: 0 },
    },
    gear: { set: { count: sets } },
    people: people(count, 'gluer', ['unclamp', 'glue'], { rule: 'oldest' }),
    intake: { kind: 'constant', inside: sets },
  });
}

const PRINTED: [people: number, sets: number, printed: number][] = [
  [1, 1, 1.5789474],
  [1, 2, 3.0238727],
  [1, 3, 4.2954804],
  [1, 4, 5.354982],
  [1, 6, 6.7544098],
  [1, 8, 7.326353],
  [1, 12, 7.4971519],
  [2, 1, 1.5789474],
  [2, 2, 3.1578947],
  [2, 3, 4.7148455],
  [2, 4, 6.2290118],
  [2, 6, 9.0422122],
  [2, 8, 11.4122989],
  [2, 12, 14.2404836],
];
const perHour = (sets: number, count: number): number => 60 * finiteSource(sets, CURE, 8, count);

const oneTaskCases = PRINTED.map(([count, sets, printed]): TheoryCase => ({
  name: `${setsOf(sets)}, ${count} at one handling task of 8 min, cure 30`,
  source: FINITE_SOURCE,
  kind: 'steady',
  scenario: oneTask(sets, exponential(8 * SCALE), count),
  measures: [rate('joints an hour', perHour(sets, count), { printed })],
}));

const twoTaskCases = [
  [3, 1],
  [4, 1],
  [4, 2],
  [8, 2],
].map(([sets, count]): TheoryCase => ({
  name: `${setsOf(sets!)}, ${count} unclamping and gluing, 4 min each, cure 30`,
  source: FINITE_SOURCE,
  kind: 'steady',
  scenario: twoTasks(sets!, exponential(4 * SCALE), exponential(4 * SCALE), count!),
  measures: [rate('joints an hour', perHour(sets!, count!))],
}));

const four = perHour(4, 1);

/**
 * What must differ: the product form holds for equal exponential tasks only. Figures found by an independent
 * program.
 */
const differing: TheoryCase[] = [
  {
    name: '4 clamp sets, 1 person, unequal tasks: unclamp 2, glue 6',
    source:
      'no product form for unequal tasks first come first served (Baskett et al. 1975, from memory); figure of an independent program, 6 digits',
    kind: 'steady',
    scenario: twoTasks(4, exponential(2 * SCALE), exponential(6 * SCALE), 1),
    measures: [rate('joints an hour', 5.4801, { not: [{ value: four, because: 'equal tasks' }] })],
  },
  {
    name: '4 clamp sets, 1 person, steadier handling (variation 1/2)',
    source:
      'no product form for handling that is not exponential; figure of an independent program, 6 digits',
    kind: 'steady',
    scenario: oneTask(4, { curve: 'gamma', mean: 8 * SCALE, cv: 0.5 }, 1),
    measures: [rate('joints an hour', 5.85456, { not: [{ value: four, because: 'exponential handling' }] })],
  },
];

/**
 * Textbook problems whose statements were read; the answers are the chain's. Machines run, mechanics mend:
 * sets cure, gluers glue.
 */
const TEXTBOOK: [
  words: string,
  source: string,
  machines: number,
  mechanics: number,
  runs: number,
  mended: number,
][] = [
  [
    'three machines, two repairmen, runs of 10 h, repairs of 8 h',
    'Ross, Introduction to Probability Models, chapter 6 (statement read)',
    3,
    2,
    10,
    8,
  ],
  [
    'two machines, one maintenance person, runs of 10 h, repairs of 8 h',
    'Hillier and Lieberman, Introduction to Operations Research, chapter 17 (statement read)',
    2,
    1,
    10,
    8,
  ],
];
const textbook = TEXTBOOK.map(([words, source, machines, mechanics, runs, mended]): TheoryCase => ({
  name: words,
  source,
  kind: 'steady',
  scenario: oneTask(machines, exponential(mended * SCALE), mechanics, exponential(runs * SCALE)),
  measures: [
    {
      name: 'machines not running',
      expected: machines - runs * finiteSource(machines, runs, mended, mechanics),
      of: (shift) => machines * shift.scalar('length') - shift.gear('set', gearAt(CURE_STEP)),
      per: (shift) => shift.scalar('length'),
    },
  ],
}));

/** The cure's curve does not matter, only its mean. */
const anyCure: TheoryCase[] = [
  { curve: 'exponential', mean: CURE * SCALE },
  { curve: 'uniform', least: 0, most: 2 * CURE * SCALE },
  { mean: CURE * SCALE, cv: 2 },
].map((cure, at): TheoryCase => ({
  name: `4 clamp sets, 1 person, cure of mean 30 ${['exponential', 'anywhere from 0 to 60', 'lognormal, variation 2'][at]!}`,
  source: FINITE_SOURCE,
  kind: 'steady',
  scenario: oneTask(4, exponential(8 * SCALE), 1, cure),
  measures: [rate('joints an hour', four, { printed: 5.354982 })],
}));

const fixedTimes = [
  [1, 19],
  [2, 19],
  [3, 19],
  [4, 19],
  [5, 20],
  [6, 20],
].map(([sets, hours]): TheoryCase => ({
  name: `${setsOf(sets!)}, 1 person, all times fixed: glue 8, cure 30`,
  source:
    'sets / (hands + cure) or people / hands, whichever is less; over whole rounds exactly (worked out by hand)',
  kind: 'fixed, warm',
  scenario: () => oneTask(sets!, 8, 1, CURE)({ hours: hours!, measured: 1 }),
  measures: [measuresIn(60).rate('joints an hour', 60 * Math.min(sets! / 38, 1 / 8))],
}));

/** Joints that find no set free go elsewhere; gluing and unclamping take no time. */
const diverted = [
  [4, 2, 0.4],
  [4, 4, 0.0952381],
  [10, 6, 0.1918473],
  [16, 8, 0.2355703],
].map(([hourly, sets, printed]): TheoryCase => ({
  name: `${hourly} joints an hour at random, ${setsOf(sets!)}, cure 30, diverted when none is free`,
  source: 'Erlang 1917 (loss formula; any holding time: Sevastyanov 1957, from memory)',
  kind: 'steady',
  scenario: steady({
    name: 'Diverted',
    steps: {
      glue: { time: 0, rack: 0, benches: 0, takes: [{ gear: 'set', until: 'off' }] },
      cure: { kind: 'wait', time: CURE * SCALE },
      off: { time: 0, benches: 0 },
    },
    gear: { set: { count: sets } },
    people: { gluer: { covers: ['glue'] }, helper: { covers: ['off'] } },
    intake: atRandom(HOUR / hourly!, { whenFull: 'divert' }),
  }),
  measures: [
    {
      name: 'share diverted',
      expected: erlangLoss(sets!, hourly! / 2),
      printed: printed!,
      of: (shift) => shift.scalar('diverted'),
      per: (shift) => shift.scalar('diverted') + shift.starts('glue'),
    },
  ],
}));

/** Joints that find no set free wait for one. */
const waitForSet = [
  [1, 2],
  [2, 0.9032839],
  [3, 0.5539002],
  [4, 0.3860949],
].map(([sets, printed]): TheoryCase => ({
  name: `joints at random wait for one of ${setsOf(sets!)}, cure 30, load 0.8`,
  source: 'Crommelin 1932 (M/D/c)',
  kind: 'steady',
  replications: 60,
  scenario: steady({
    name: 'Wait for a set',
    steps: {
      glue: { time: 0, benches: 0, takes: [{ gear: 'set', until: 'off' }] },
      cure: { kind: 'wait', time: CURE * SCALE },
      off: { time: 0, benches: 0 },
    },
    gear: { set: { count: sets } },
    people: { gluer: { covers: ['glue'] }, helper: { covers: ['off'] } },
    intake: atRandom((CURE * SCALE) / (0.8 * sets!)),
  }),
  measures: [
    measuresIn(CURE * SCALE).wait('wait, in cures', 'glue', fixedTimeWait(0.8 * sets!, 1, sets!), {
      printed: printed!,
    }),
  ],
}));

/** All there at the start, all times fixed, one person: the last joint is off at this minute. */
const handTrace = [
  [1, 152],
  [2, 84],
  [3, 76],
  [4, 53],
].map(([sets, end]): TheoryCase => ({
  name: `4 joints, ${setsOf(sets!)}, one person: glue 5, cure 30, unclamp 3`,
  source: 'worked out by hand',
  kind: 'fixed',
  scenario: single({
    name: 'Hand trace',
    steps: {
      glue: { time: 5, takes: [{ gear: 'set', until: 'unclamp' }] },
      cure: { kind: 'wait', time: 30 },
      unclamp: { time: 3 },
    },
    gear: { set: { count: sets } },
    people: { gluer: { covers: ['unclamp', 'glue'], rule: 'oldest' } },
    shift: { start: '06:00', end: '14:00', target: 4 },
    intake: { kind: 'at start', units: 4 },
  }),
  measures: [
    { name: 'last joint off, min', expected: end!, of: (shift) => shift.scalar('targetAt'), per: () => 1 },
  ],
}));

export const clampSetCases: TheoryCase[] = [
  ...oneTaskCases,
  ...twoTaskCases,
  ...differing,
  ...anyCure,
  ...textbook,
  ...fixedTimes,
  ...diverted,
  ...waitForSet,
  ...handTrace,
];

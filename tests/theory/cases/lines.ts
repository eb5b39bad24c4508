/**
 * Single lines: random arrivals, people side by side, room for so many, work of any curve, who goes first.
 */
import type { TheoryCase } from '../case.ts';
import { insideFromEmpty, limited, waiting } from '../formulas/birth-death.ts';
import { evenBeatWait, pollaczekKhinchine, precedence } from '../formulas/waits.ts';
import { OUT_OF_ORDER } from '../../../src/engine/recorder.ts';
import { atRandom, exponential, mean, measuresIn, people, single, steady } from './cell.ts';

/** One step, `servers` people, a bench for each. `step` may say more of it. */
const oneStep = (
  time: unknown,
  servers: number,
  intake: unknown,
  step: Record<string, unknown> = {},
): Record<string, unknown> => ({
  name: 'One step',
  steps: { sand: { time, benches: servers, ...step } },
  people: people(servers, 'sander', ['sand']),
  intake,
});

/**
 * Minutes of the file that are an hour of the source, so that a mean piece takes a tenth of a minute or so.
 */
const HOUR = 3;
const hourly = measuresIn(HOUR);
const SLOW_HOUR = 0.3;
const slowly = measuresIn(SLOW_HOUR);

const textbooks: TheoryCase[] = [
  {
    name: 'one sander, 30 in and 40 done an hour',
    source: 'Bronson, Operations Research, 1982, problem 23.14 (read)',
    kind: 'steady',
    replications: 60,
    scenario: steady(oneStep(exponential(HOUR / 40), 1, atRandom(HOUR / 30))),
    measures: [
      hourly.waiting('number waiting', 'sand', waiting(30, 40, 1), { printed: 2.25 }),
      measuresIn(HOUR / 60).wait('wait, min', 'sand', (60 * waiting(30, 40, 1)) / 30, { printed: 4.5 }),
      measuresIn(HOUR / 60).lead('arrival to good, min', 60 / (40 - 30)),
    ],
  },
  {
    name: 'two sanders, 20 in an hour, 30 done by each',
    source: 'Render, Stair and Hanna, Quantitative Analysis for Management, chapter 14 (read)',
    kind: 'steady',
    scenario: steady(oneStep(exponential(HOUR / 30), 2, atRandom(HOUR / 20))),
    measures: [hourly.inside('number inside', 'sand', waiting(20, 30, 2) + 20 / 30, { printed: 0.75 })],
  },
  {
    name: 'three sanders, 5 in an hour, 2 done by each',
    source: 'Jensen and Bard, Operations Research Models and Methods (read)',
    kind: 'steady',
    replications: 100,
    scenario: steady(oneStep(exponential(SLOW_HOUR / 2), 3, atRandom(SLOW_HOUR / 5))),
    measures: [slowly.waiting('number waiting', 'sand', waiting(5, 2, 3), { printed: 3.511236 })],
  },
  {
    name: 'two sanders, 3 in the rack, 5 in an hour, 3 done by each, the rest diverted',
    source: 'Jensen and Bard, Operations Research Models and Methods (read)',
    kind: 'steady',
    scenario: steady(
      oneStep(exponential(SLOW_HOUR / 3), 2, atRandom(SLOW_HOUR / 5, { whenFull: 'divert' }), { rack: 3 }),
    ),
    measures: [
      slowly.begun('let in, an hour', 'sand', limited(5, 3, 2, 5).accepted, { printed: 4.424345 }),
      slowly.inside('number inside', 'sand', limited(5, 3, 2, 5).inside, { printed: 2.262278 }),
    ],
  },
];

const MINUTE = 0.01;
const CURVES: [words: string, time: unknown, squared: number, printed: number][] = [
  ['always 8 min', 8 * MINUTE, 0, 16],
  ['lognormal, squared variation 1/2', { mean: 8 * MINUTE, cv: Math.sqrt(0.5) }, 0.5, 24],
  ['gamma, squared variation 1/2', { curve: 'gamma', mean: 8 * MINUTE, cv: Math.sqrt(0.5) }, 0.5, 24],
  ['exponential', exponential(8 * MINUTE), 1, 32],
];
const anyWork = CURVES.map(([words, time, squared, printed]): TheoryCase => ({
  name: `six an hour at random, one sander of mean 8 min: ${words}`,
  source: 'Pollaczek 1930, Khinchine 1932',
  kind: 'steady',
  replications: 100,
  scenario: steady(oneStep(time, 1, atRandom(10 * MINUTE))),
  measures: [measuresIn(MINUTE).wait('wait, min', 'sand', pollaczekKhinchine(0.1, 8, squared), { printed })],
}));

/** The first piece comes one beat after the start and the last at the end, which is the next day's start. */
const evenBeat: TheoryCase = {
  name: 'one every 10 min at an even beat, exponential work of mean 8 min',
  source: 'Kendall, Annals of Mathematical Statistics 24, 1953 (any arrivals, exponential work)',
  kind: 'steady',
  replications: 60,
  scenario: steady(
    oneStep(exponential(8 * MINUTE), 1, { kind: 'beat', every: 10 * MINUTE, late: 10 * MINUTE }),
  ),
  measures: [
    measuresIn(MINUTE).wait('wait, min', 'sand', evenBeatWait(10, 8), {
      not: [{ value: 32, because: 'arrivals at random' }],
    }),
  ],
};

const RATES = [0.2, 0.6, 1.2];
const PLACES = ['a', 'b', 'c'];
const WAITS = [0.238095, 0.324675, 0.909091];
/**
 * Three kinds of work for one person who always takes the first kind there is: each is a product with its own
 * step.
 */
const goesFirst: TheoryCase = {
  name: 'three kinds of work for one person in order of preference: 0.2, 0.6, 1.2 in an hour, 3 done',
  source: 'Cobham, Operations Research 2, 1954; example of Hillier and Lieberman (from memory)',
  kind: 'steady',
  replications: 60,
  scenario: steady({
    name: 'Who goes first',
    products: Object.fromEntries(
      PLACES.map((place, at) => [
        place,
        { share: RATES[at], skips: PLACES.filter((other) => other !== place) },
      ]),
    ),
    steps: Object.fromEntries(
      PLACES.map((place) => [place, { time: exponential(SLOW_HOUR / 3), benches: 0 }]),
    ),
    people: { one: { covers: PLACES, rule: 'in order' } },
    intake: atRandom(SLOW_HOUR / 2),
  }),
  measures: precedence(RATES, 1 / 3).map((wait, at) =>
    slowly.wait(`wait of kind ${at + 1}, hours`, PLACES[at]!, wait, {
      printed: WAITS[at]!,
      not: [{ value: 2 / 3, because: 'first come first served' }],
    }),
  ),
};

const UNTIL: [minutes: number, printed: number, replications: number][] = [
  [1, 0.55155186, 20_000],
  [10, 2.03028156, 10_000],
  [50, 3.40503898, 5000],
];
const fromEmpty = UNTIL.map(([minutes, printed, replications]): TheoryCase => ({
  name: `0.8 in and 1 done a minute, from empty, after ${minutes} min`,
  source: 'transient solution of the chain (Clarke 1956), by uniformization',
  kind: 'single',
  replications,
  scenario: single({
    ...oneStep(exponential(1), 1, atRandom(1.25)),
    shift: { start: '06:00', end: `06:${String(minutes).padStart(2, '0')}`, atEnd: 'put down' },
  }),
  measures: [
    mean('number inside', (shift) => shift.scalar('inside'), insideFromEmpty(0.8, 1, minutes), {
      printed,
      ...(minutes < 50 ? { not: [{ value: 4, because: 'the long run' }] } : {}),
    }),
  ],
}));

/** Gear that nobody needs: out of order for repair / (every + repair) of the time. */
const repairs: TheoryCase = {
  name: 'three jigs that fail after 40 min at random and are repaired in 10',
  source: 'renewal reward theorem (from memory)',
  kind: 'steady',
  scenario: steady({
    ...oneStep(exponential(1), 1, { kind: 'at start', units: 0 }, { uses: ['jig'], benches: 0 }),
    gear: { jig: { count: 3, fails: { every: exponential(4), repair: { mean: 1, cv: 0.5 } } } },
  }),
  measures: [
    {
      name: 'share out of order',
      expected: 0.2,
      of: (shift) => shift.gear('jig', OUT_OF_ORDER),
      per: (shift) => 3 * shift.scalar('length'),
    },
  ],
};

export const lineCases: TheoryCase[] = [...textbooks, ...anyWork, evenBeat, goesFirst, ...fromEmpty, repairs];

/** What is drawn for a cell of any kind, before it is a file: short shifts, few people, frequent ties. */
import fc from 'fast-check';
import type { Time } from '../../../src/duration/time.ts';

/** Minutes in which ties are frequent. */
const evenMinutes = fc.constantFrom(0, 1, 2, 3, 4, 5, 5, 10, 10, 15);
const randomTime: fc.Arbitrary<Time> = fc.oneof(
  fc.record({ mean: fc.constantFrom(2, 5, 9), cv: fc.constantFrom(0.2, 0.5, 1) }),
  fc.constantFrom<Time>(
    { quick: 3, usual: 5, slow: 9 },
    { curve: 'exponential', mean: 4 },
    { curve: 'gamma', mean: 6, cv: 0.6 },
    { curve: 'weibull', shape: 2, scale: 6 },
    { curve: 'triangular', least: 1, likeliest: 4, most: 8 },
    { curve: 'uniform', least: 0, most: 10 },
    { curve: 'observed', values: [0, 1, 5, 5, 10] },
  ),
);
const timeOf = (fixed: boolean): fc.Arbitrary<Time> =>
  fixed ? evenMinutes : fc.oneof(evenMinutes, randomTime);

export const clockAt = (minutes: number): string => {
  const total = 360 + minutes;
  return `${String(Math.floor(total / 60) % 24).padStart(2, '0')}:${String(total % 60).padStart(2, '0')}`;
};
/** Shifts begin at 06:00 and are so long; every clock time lies inside the shorter one. */
const LENGTHS = [100, 125];
const clock = fc.constantFrom(...Array.from({ length: 18 }, (_, i) => clockAt(5 * i + 5)));
/** True once in `n`. */
const rarely = (n: number): fc.Arbitrary<boolean> => fc.nat({ max: n - 1 }).map((i) => i === n - 1);

/** Given once in `n`, otherwise left out. */
const once = <T>(n: number, arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: n - 1, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary });
const sometimes = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => once(2, arbitrary);

export interface StepSketch {
  time: Time;
  repeatTime: Time | undefined;
  rack: number | undefined;
  byDue: boolean;
  whole: boolean;
  plannedAt: 'mean' | number;
  lastStart: string | undefined;
  pair: boolean;
  benches: number;
  jig: boolean;
  back: { steps: number; percent: number } | undefined;
  alsoBack: { steps: number; percent: number } | undefined;
  toRepair: boolean;
  scrap: number;
  wait:
    { time: Time; place: 'places' | 'jig' | undefined; back: boolean; again: Time | undefined } | undefined;
}

const stepSketch = (fixed: boolean): fc.Arbitrary<StepSketch> => {
  const back = fc.record({ steps: fc.nat({ max: 3 }), percent: fc.constantFrom(10, 30, 45) });
  return fc.record({
    time: timeOf(fixed),
    repeatTime: sometimes(timeOf(fixed)),
    rack: fc.option(fc.nat({ max: 3 }), { nil: undefined, freq: 3 }),
    byDue: rarely(5),
    whole: rarely(3),
    plannedAt: fc.constantFrom<'mean' | number>('mean', 50, 95),
    lastStart: once(6, clock),
    pair: rarely(6),
    benches: fc.constantFrom(0, 1, 1, 1, 2),
    jig: rarely(5),
    back: sometimes(back),
    alsoBack: once(4, back),
    toRepair: rarely(5),
    scrap: fc.constantFrom(0, 0, 10),
    wait: once(
      3,
      fc.record({
        time: timeOf(fixed),
        place: fc.constantFrom('places' as const, undefined, undefined, 'places' as const, 'jig' as const),
        back: rarely(4),
        again: once(4, timeOf(fixed)),
      }),
    ),
  });
};

const breakSketch = fc.record({ from: clock, minutes: fc.constantFrom(5, 10, 15, 20) });
const personSketch = fc.record({
  covers: fc.array(fc.nat({ max: 9 }), { minLength: 1, maxLength: 4 }),
  oldest: fc.boolean(),
  factors: fc.array(fc.constantFrom(0.8, 1, 1, 1.25), { minLength: 10, maxLength: 10 }),
  rework: fc.constantFrom(0, 1, 1, 2),
  from: once(5, clock),
  to: once(5, clock),
  breaks: once(4, fc.array(breakSketch, { maxLength: 2 })),
  away: once(4, fc.record({ from: clock, minutes: fc.constantFrom(5, 10, 25, 45) })),
  change: once(4, fc.record({ from: clock, covers: fc.array(fc.nat({ max: 9 }), { maxLength: 3 }) })),
  attendance: once(
    5,
    fc.record({
      percent: fc.constantFrom(60, 100),
      late: fc.constantFrom<Time>(10, { curve: 'exponential', mean: 10 }),
      latePercent: fc.constantFrom(50, 100),
    }),
  ),
  overtime: rarely(6).map((no) => !no),
});
export type PersonSketch = typeof personSketch extends fc.Arbitrary<infer T> ? T : never;

const takeSketch = fc.record({
  from: fc.nat({ max: 4 }),
  steps: fc.integer({ min: 1, max: 3 }),
  count: fc.integer({ min: 1, max: 3 }),
  untilWait: rarely(4),
});
const gearTrouble = fc.record({
  fails: once(
    4,
    fc.constantFrom<{ every: Time; repair: Time }>(
      { every: { curve: 'exponential', mean: 40 }, repair: 10 },
      { every: 20, repair: 5 },
    ),
  ),
  out: once(4, fc.record({ from: clock, minutes: fc.constantFrom(5, 20, 60), items: fc.constantFrom(1, 2) })),
});

const intakeSketch = fc.oneof(
  fc.record({ kind: fc.constant('at start' as const), units: fc.integer({ min: 0, max: 12 }) }),
  fc.record({
    kind: fc.constant('beat' as const),
    every: fc.constantFrom(2, 5, 7.5, 12),
    units: sometimes(fc.nat({ max: 12 })),
  }),
  fc.record({
    kind: fc.constant('random' as const),
    gap: fc.constantFrom<Time>({ curve: 'exponential', mean: 6 }, { mean: 8, cv: 0.5 }, 5),
    units: sometimes(fc.nat({ max: 12 })),
  }),
  fc.record({
    kind: fc.constant('list' as const),
    arrivals: fc.array(
      fc.record({
        at: clock,
        units: fc.integer({ min: 1, max: 4 }),
        product: fc.boolean(),
        due: sometimes(clock),
        rush: rarely(4),
        name: rarely(3),
      }),
      { maxLength: 6 },
    ),
  }),
  fc.record({ kind: fc.constant('constant' as const), inside: fc.integer({ min: 1, max: 6 }) }),
);

const carrySketch = fc.record({
  at: fc.nat({ max: 9 }),
  state: fc.constantFrom(
    'waiting' as const,
    'waiting' as const,
    'in hand' as const,
    'put down' as const,
    'blocked' as const,
  ),
  units: fc.constantFrom(1, 1, 2),
  product: fc.boolean(),
  minutes: sometimes(fc.constantFrom(0, 1, 3, 8)),
  person: fc.nat({ max: 3 }),
  due: sometimes(clock),
  rush: rarely(4),
  name: rarely(3),
  back: rarely(3),
  waited: once(3, fc.constantFrom(5, 20)),
});

const productSketch = fc.record({
  share: fc.constantFrom(0.5, 1, 3),
  factor: fc.record({ step: fc.nat({ max: 9 }), by: fc.constantFrom(0.5, 1.5, 2) }),
  time: once(2, fc.record({ step: fc.nat({ max: 9 }), minutes: evenMinutes })),
  skips: once(2, fc.array(fc.nat({ max: 9 }), { maxLength: 2 })).map((list) => list ?? []),
  enters: once(4, fc.nat({ max: 3 })),
  returned: rarely(5),
});

export const sketch = fc.boolean().chain((fixed) =>
  fc.record({
    steps: fc.array(stepSketch(fixed), { minLength: 1, maxLength: 5 }),
    repair: stepSketch(fixed),
    people: fc.array(personSketch, { minLength: 1, maxLength: 4 }),
    takes: fc.array(takeSketch, { maxLength: 2 }),
    jigs: fc.integer({ min: 1, max: 2 }),
    places: fc.integer({ min: 1, max: 3 }),
    trouble: gearTrouble,
    length: fc.constantFrom(...LENGTHS),
    breaks: fc.array(breakSketch, { maxLength: 3 }),
    tidyUp: fc.constantFrom(0, 0, 5, 10),
    putDown: fc.boolean(),
    allowance: fc.constantFrom(1, 1, 1.06),
    target: sometimes(fc.integer({ min: 1, max: 8 })),
    overtime: fc.constantFrom('none' as const, 'none' as const, 'empty' as const, 'target' as const),
    cap: fc.constantFrom(0, 5, 15, 30, 60),
    someStay: rarely(5),
    intake: intakeSketch,
    late: fc.constantFrom(0, 0, 0, 10),
    dueAfter: once(3, fc.constantFrom(0, 10, 25)),
    divert: fc.boolean(),
    carry: fc.array(carrySketch, { maxLength: 4 }),
    hold: once(5, fc.record({ before: fc.nat({ max: 9 }), until: clock, byProduct: fc.boolean() })),
    outRack: once(
      4,
      fc.record({
        size: fc.integer({ min: 1, max: 3 }),
        racks: fc.integer({ min: 1, max: 2 }),
        back: fc.constantFrom(0, 5, 20),
        standing: fc.constantFrom(0, 0, 1, 2),
        away: fc.constantFrom(undefined, undefined, 0, 15),
      }),
    ),
    products: fc.array(productSketch, { minLength: 1, maxLength: 3 }),
  }),
);
export type Sketch = typeof sketch extends fc.Arbitrary<infer T> ? T : never;

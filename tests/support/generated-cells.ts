/**
 * Cells of every kind, for properties that must hold in all of them: short shifts with a few people, so that
 * a run costs little and racks, breaks, ends and ties come up all the time. What the check of a file refuses
 * is left out.
 */
import fc from 'fast-check';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Time } from '../../src/duration/time.ts';
import type { CarryOver, Gear, Person, Scenario, Step } from '../../src/scenario/schema.ts';

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

const clockAt = (minutes: number): string => {
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

interface StepSketch {
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
type PersonSketch = typeof personSketch extends fc.Arbitrary<infer T> ? T : never;

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
});

const productSketch = fc.record({
  share: fc.constantFrom(0.5, 1, 3),
  factor: fc.record({ step: fc.nat({ max: 9 }), by: fc.constantFrom(0.5, 1.5, 2) }),
  time: once(2, fc.record({ step: fc.nat({ max: 9 }), minutes: evenMinutes })),
  skips: once(2, fc.array(fc.nat({ max: 9 }), { maxLength: 2 })).map((list) => list ?? []),
  enters: once(4, fc.nat({ max: 3 })),
});

const sketch = fc.boolean().chain((fixed) =>
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
    divert: fc.boolean(),
    carry: fc.array(carrySketch, { maxLength: 4 }),
    hold: once(5, fc.record({ before: fc.nat({ max: 9 }), until: clock, byProduct: fc.boolean() })),
    outRack: once(
      4,
      fc.record({
        size: fc.integer({ min: 1, max: 3 }),
        racks: fc.integer({ min: 1, max: 2 }),
        back: fc.constantFrom(0, 5, 20),
      }),
    ),
    products: fc.array(productSketch, { minLength: 1, maxLength: 3 }),
  }),
);
type Sketch = typeof sketch extends fc.Arbitrary<infer T> ? T : never;

const LETTERS = ['fit', 'glue', 'unclamp', 'sand', 'check'];
const pick = <T>(list: T[], at: number): T => list[at % list.length]!;
const unique = <T>(list: T[]): T[] => [...new Set(list)];
const given = <T extends object>(values: T): { [K in keyof T]: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };

function stepsOf(drawn: Sketch): { steps: Record<string, Step>; hands: string[]; waits: string[] } {
  const steps: Record<string, Step> = {};
  const hands = LETTERS.slice(0, drawn.steps.length);
  const waits: string[] = [];
  const repairs = drawn.steps.some((one) => one.toRepair);
  drawn.steps.forEach((one, i) => {
    const rework = [one.back, one.alsoBack].flatMap((back) =>
      back === undefined ? [] : [{ to: hands[Math.max(0, i - back.steps)]!, percent: back.percent }],
    );
    if (one.toRepair) rework.push({ to: 'repair', percent: 10 });
    steps[hands[i]!] = handsStep(one, rework, drawn.people.length > 1);
    if (one.wait === undefined || i + 1 === hands.length) return;
    const wait = `${hands[i]!}-cure`;
    waits.push(wait);
    steps[wait] = given({
      kind: 'wait',
      time: one.wait.time,
      uses: one.wait.place === undefined ? undefined : [one.wait.place],
      rework: one.wait.back ? [{ to: hands[i]!, percent: 20 }] : undefined,
    });
    if (one.wait.again === undefined) return;
    waits.push(`${hands[i]!}-rest`);
    steps[`${hands[i]!}-rest`] = { kind: 'wait', time: one.wait.again };
  });
  if (repairs)
    steps['repair'] = {
      ...handsStep({ ...drawn.repair, toRepair: false }, [], false),
      aside: true,
      then: pick(hands, drawn.repair.benches + drawn.repair.scrap),
    };
  return { steps, hands: repairs ? [...hands, 'repair'] : hands, waits };
}

function handsStep(one: StepSketch, rework: NonNullable<Step['rework']>, many: boolean): Step {
  return given({
    time: one.time,
    repeatTime: one.repeatTime,
    rack: one.rack,
    order: one.byDue ? ('earliest due' as const) : undefined,
    whole: one.whole || undefined,
    plannedAt: one.whole ? one.plannedAt : undefined,
    lastStart: one.lastStart,
    people: one.pair && many ? (2 as const) : undefined,
    benches: one.benches,
    uses: one.jig ? ['jig'] : undefined,
    rework: rework.length > 0 ? rework : undefined,
    scrap: one.scrap || undefined,
  });
}

function personOf(one: PersonSketch, hands: string[], steps: Record<string, Step>, more: string[]): Person {
  const covers = unique([...one.covers.map((at) => pick(hands, at)), ...more]);
  const changed = one.change === undefined ? [] : unique(one.change.covers.map((at) => pick(hands, at)));
  const all = Object.keys(steps).filter((step) => covers.includes(step) || changed.includes(step));
  return given({
    covers,
    skills: Object.fromEntries(
      all.map((step, i) => [step, { level: 3, factor: one.factors[i]!, rework: one.rework }]),
    ),
    changes: one.change === undefined ? undefined : [{ from: one.change.from, covers: changed }],
    rule: one.oldest ? ('oldest' as const) : undefined,
    from: one.from,
    to: one.to,
    breaks: one.breaks,
    attendance: one.attendance,
    away:
      one.away === undefined
        ? undefined
        : [{ from: one.away.from, to: clockAt(minutesOf(one.away.from) + one.away.minutes) }],
    overtime: one.overtime ? undefined : false,
  });
}

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3)) - 360;

function scenarioOf(drawn: Sketch): unknown {
  const { steps, hands, waits } = stepsOf(drawn);
  const gear: NonNullable<Scenario['gear']> = {};
  const main = Object.keys(steps).filter((step) => !steps[step]!.aside);
  drawn.takes.forEach((take, i) => {
    const taking = pick(LETTERS.slice(0, drawn.steps.length), take.from);
    const later = main
      .slice(main.indexOf(taking) + 1)
      .filter((step) => take.untilWait || steps[step]!.kind !== 'wait');
    if (later.length === 0) return;
    const name = i === 0 ? 'clamps' : 'frames';
    gear[name] = { count: take.count, ...(i === 0 ? troubleOf(drawn, take.count) : {}) };
    const step = steps[taking]!;
    step.takes = [
      ...(step.takes ?? []),
      { gear: name, until: later[Math.min(take.steps, later.length) - 1]! },
    ];
  });
  if (Object.values(steps).some((step) => step.uses?.includes('jig')))
    gear['jig'] = { count: drawn.jigs, ...(drawn.takes.length === 0 ? troubleOf(drawn, drawn.jigs) : {}) };
  if (Object.values(steps).some((step) => step.uses?.includes('places')))
    gear['places'] = { count: drawn.places };
  const covered = drawn.people.flatMap((one) => one.covers.map((at) => pick(hands, at)));
  // What nobody drew is the first person's too.
  const left = hands.filter((step) => !covered.includes(step));
  const people = drawn.people.map(
    (one, i) =>
      [pick(['ana', 'bo', 'cy', 'dee'], i), personOf(one, hands, steps, i === 0 ? left : [])] as const,
  );
  const products = productsOf(drawn, hands, Object.keys(steps));
  return given({
    format: 1,
    name: 'Generated',
    seed: 'generated',
    steps,
    gear,
    products,
    people: Object.fromEntries(people),
    shift: given({
      end: clockAt(drawn.length),
      breaks: drawn.breaks,
      tidyUp: drawn.tidyUp,
      atEnd: drawn.putDown ? 'put down' : 'finish',
      allowance: drawn.allowance,
      target: drawn.target,
      overtime: {
        until: drawn.overtime === 'target' && drawn.target === undefined ? 'empty' : drawn.overtime,
        cap: drawn.cap,
        ...(drawn.someStay ? { who: ['ana'] } : {}),
      },
    }),
    intake: { ...intakeOf(drawn), late: drawn.late, whenFull: drawn.divert ? 'divert' : 'hold' },
    carryOver: drawn.carry.map((one) => carryOf(one, hands, waits, drawn)),
    holds:
      drawn.hold === undefined
        ? []
        : [
            given({
              before: pick(hands, drawn.hold.before),
              until: drawn.hold.until,
              product: drawn.hold.byProduct ? 'p0' : undefined,
              units: drawn.hold.byProduct ? undefined : ['marked'],
            }),
          ],
    outRack: drawn.outRack,
  });
}

function troubleOf({ trouble }: Sketch, count: number): Pick<Gear, 'fails' | 'out'> {
  return given({
    fails: trouble.fails,
    out:
      trouble.out === undefined ? undefined : [{ ...trouble.out, items: Math.min(count, trouble.out.items) }],
  });
}

function productsOf(drawn: Sketch, hands: string[], all: string[]): NonNullable<Scenario['products']> {
  const lastHands = LETTERS[drawn.steps.length - 1];
  return Object.fromEntries(
    drawn.products.map((one, i) => [
      `p${i}`,
      given({
        share: one.share,
        factors: { [pick(all, one.factor.step)]: one.factor.by },
        times: one.time === undefined ? undefined : { [pick(all, one.time.step)]: one.time.minutes },
        skips: unique(one.skips.map((at) => pick(all, at))).filter(
          (step) => step !== 'repair' && step !== hands[0] && step !== lastHands,
        ),
        enters: one.enters === undefined ? undefined : pick(LETTERS.slice(0, drawn.steps.length), one.enters),
      }),
    ]),
  );
}

function intakeOf({ intake }: Sketch): Scenario['intake'] {
  if (intake.kind !== 'list') return given(intake) as Scenario['intake'];
  const arrivals = intake.arrivals.map((one) =>
    given({
      ...one,
      product: one.product ? 'p0' : undefined,
      name: one.name ? 'marked' : undefined,
      rush: one.rush || undefined,
    }),
  );
  return { kind: 'list', arrivals } as Scenario['intake'];
}

function carryOf(one: Sketch['carry'][number], hands: string[], waits: string[], drawn: Sketch): CarryOver {
  const curing = waits.length > 0 && one.at % 3 === 0;
  const state = curing ? 'curing' : one.state;
  return given({
    at: pick(curing ? waits : hands, one.at),
    state,
    product: one.product ? 'p0' : undefined,
    units: state === 'in hand' ? 1 : one.units,
    minutes: state === 'waiting' || state === 'blocked' ? undefined : one.minutes,
    person:
      state === 'in hand' ? pick(['ana', 'bo', 'cy', 'dee'], one.person % drawn.people.length) : undefined,
    to: state === 'blocked' && one.back ? pick(hands, one.at) : undefined,
    due: one.due,
    rush: one.rush || undefined,
    name: one.name ? 'marked' : undefined,
  }) as CarryOver;
}

/** Sound scenarios. */
export const generatedCells: fc.Arbitrary<Scenario> = sketch
  .map(scenarioOf)
  .filter((value) => checkScenario(value).kind === 'fine')
  .map((value) => value as Scenario);

/**
 * Cells of every kind, for properties that must hold in all of them: short shifts with a few people, so that
 * a run costs little and racks, breaks, ends and ties come up all the time. What the check of a file refuses
 * is left out.
 */
import type fc from 'fast-check';
import { checkScenario } from '../../src/scenario/check.ts';
import type { CarryOver, Gear, Person, Scenario, Step } from '../../src/scenario/schema.ts';
import { clockAt, sketch, type PersonSketch, type Sketch, type StepSketch } from './generated/sketch.ts';

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
    intake: given({
      ...intakeOf(drawn),
      late: drawn.late,
      whenFull: drawn.divert ? 'divert' : 'hold',
      dueAfter: drawn.dueAfter,
    }),
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
    outRack: drawn.outRack === undefined ? undefined : outRackOf(drawn.outRack),
  });
}

function outRackOf({ away, ...rack }: NonNullable<Sketch['outRack']>): NonNullable<Scenario['outRack']> {
  const isAway = away !== undefined && rack.racks > 1;
  return given({
    ...rack,
    standing: Math.min(rack.standing, rack.size - 1),
    away: isAway ? [away] : undefined,
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
        returned: one.returned || undefined,
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
    waited: one.waited,
    name: one.name ? 'marked' : undefined,
  }) as CarryOver;
}

/** Sound scenarios. */
export const generatedCells: fc.Arbitrary<Scenario> = sketch
  .map(scenarioOf)
  .filter((value) => checkScenario(value).kind === 'fine')
  .map((value) => value as Scenario);

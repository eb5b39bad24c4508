/**
 * From a checked scenario file to a shift with every default filled in and every clock time as minutes from
 * its start. Nothing is checked here: `check` (check.ts) has done so; what it refuses never gets here.
 */
import { minutesAfter } from './clock.ts';
import { inputsOf, type UncertainInput } from './inputs.ts';
import { resolvePay, type PayRules } from './pay.ts';
import type { Time } from '../duration/time.ts';
import type { CarryOver, Gear, Intake, Person, Scenario, Step } from './schema.ts';

export interface ResolvedProduct {
  id: string;
  name: string;
  share: number;
  factors: Record<string, number>;
  times: Record<string, Time>;
  skips: string[];
  /** First step of this product. */
  enters: string;
}

export interface ResolvedStep {
  id: string;
  name: string;
  kind: 'hands' | 'wait';
  time: Time;
  repeatTime: Time | null;
  people: 1 | 2;
  /** Slots before the step; null is no limit. */
  rack: number | null;
  order: 'first come' | 'earliest due';
  whole: boolean;
  plannedAt: 'mean' | number;
  /** Minutes from the start of the shift. */
  lastStart: number | null;
  /** Gear ids, the step's own benches (`<step>-bench`) among them. */
  uses: string[];
  takes: { gear: string; until: string }[];
  /** Shares are 0 to 1. */
  rework: { to: string; share: number; cause: string }[];
  scrap: number;
  aside: boolean;
  /** The step that follows on the path; null is the out-rack. */
  next: string | null;
}

export interface ResolvedGear {
  id: string;
  name: string;
  /** A step's own benches, or gear the file lists. */
  kind: 'bench' | 'gear';
  count: number;
  price: number;
  fails: Gear['fails'] | null;
  out: { from: number; minutes: number; items: number }[];
}

/** A time off the cell: minutes from the start of the shift; `share` of its pay (0 to 1) is borne here. */
export interface ResolvedOff {
  kind: 'break' | 'away';
  from: number;
  minutes: number;
  share: number;
  name: string;
}

export interface ResolvedPerson {
  id: string;
  name: string;
  /** Cover from a time on, minutes from the start of the shift, ascending; the first is at 0. */
  cover: { from: number; steps: string[] }[];
  /** Everything they can do, with the time and rework factors. */
  skills: Record<string, { level: number; factor: number; rework: number }>;
  rule: 'in order' | 'oldest';
  from: number;
  to: number;
  /** Disjoint, ascending; breaks inside a time away are taken there and left out. */
  offs: ResolvedOff[];
  chance: number;
  lateChance: number;
  late: Time | null;
  pay: number;
  overtime: boolean;
  hoursThisWeek: number;
  daysThisWeek: number;
}

export interface ResolvedShift {
  name: string;
  seed: string;
  /** Clock of the start, "HH:MM". */
  start: string;
  /** Minutes from the start of the first shift of the file to the start of this one. */
  startsAfter: number;
  /** Length in minutes. */
  length: number;
  tidyUp: number;
  atEnd: 'finish' | 'put down';
  allowance: number;
  target: number | null;
  overtime: { until: 'none' | 'empty' | 'target'; cap: number; who: string[] | null };
  products: ResolvedProduct[];
  steps: ResolvedStep[];
  gear: ResolvedGear[];
  people: ResolvedPerson[];
  intake: Intake & { late: number; whenFull: 'hold' | 'divert' };
  carryOver: CarryOver[];
  holds: { before: string; until: number; product: string | null; units: string[] | null; whose: string }[];
  outRack: { size: number; racks: number; back: number } | null;
  breaks: { from: number; minutes: number; name: string }[];
  pay: PayRules;
  /** What is not known exactly of the numbers above; see inputs.ts. */
  inputs: UncertainInput[];
}

export const DEFAULT_SEED = 'clampwright';
export const LEVEL_FACTORS = [1.6, 1.25, 1, 1];
export const LEVEL_REWORK = [1, 1, 1, 1];
export const benchOf = (step: string): string => `${step}-bench`;

/**
 * The first shift of a checked scenario, defaults filled in. The shifts that follow: `shiftsOf` (options.ts).
 */
export function resolve(scenario: Scenario, startsAfter = 0): ResolvedShift {
  const shift = scenario.shift ?? {};
  const start = shift.start ?? '06:00';
  const after = (clock: string): number => minutesAfter(start, clock);
  const length = after(shift.end ?? '14:30') || 1440;
  const stepIds = Object.keys(scenario.steps);
  const mainPath = stepIds.filter((id) => !scenario.steps[id]!.aside);
  const breaks = (shift.breaks ?? []).map((one) => ({
    from: after(one.from),
    minutes: one.minutes,
    name: one.name ?? 'break',
    share: one.paid === false ? 0 : 1,
  }));
  const products = scenario.products ?? { piece: {} };
  const overtime = shift.overtime ?? {};
  const intake = scenario.intake ?? { kind: 'at start' as const, units: 60 };
  return {
    name: scenario.name,
    seed: scenario.seed ?? DEFAULT_SEED,
    start,
    startsAfter,
    length,
    tidyUp: shift.tidyUp ?? 0,
    atEnd: shift.atEnd ?? 'finish',
    allowance: shift.allowance ?? 1,
    target: shift.target ?? null,
    overtime: { until: overtime.until ?? 'none', cap: overtime.cap ?? 60, who: overtime.who ?? null },
    products: Object.entries(products).map(([id, product]) => ({
      id,
      name: product.name ?? id,
      share: product.share ?? 1,
      factors: product.factors ?? {},
      times: product.times ?? {},
      skips: product.skips ?? [],
      enters:
        product.enters ?? mainPath.find((step) => !(product.skips ?? []).includes(step)) ?? mainPath[0]!,
    })),
    steps: stepIds.map((id) => resolveStep(id, scenario.steps[id]!, mainPath, after)),
    gear: resolveGear(scenario, after),
    people: Object.entries(scenario.people).map(([id, person]) =>
      resolvePerson(id, person, scenario, stepIds, length, after),
    ),
    intake: { ...intake, late: intake.late ?? 0, whenFull: intake.whenFull ?? 'hold' },
    carryOver: scenario.carryOver ?? [],
    holds: (scenario.holds ?? []).map((hold) => ({
      before: hold.before,
      until: after(hold.until),
      product: hold.product ?? null,
      units: hold.units ?? null,
      whose: hold.whose ?? '',
    })),
    outRack: scenario.outRack
      ? { size: scenario.outRack.size, racks: scenario.outRack.racks ?? 1, back: scenario.outRack.back ?? 0 }
      : null,
    breaks: breaks.map(({ from, minutes, name }) => ({ from, minutes, name })),
    pay: resolvePay(scenario),
    inputs: inputsOf(scenario),
  };
}

function resolveStep(
  id: string,
  step: Step,
  mainPath: string[],
  after: (clock: string) => number,
): ResolvedStep {
  const benches = step.benches ?? (step.uses === undefined ? 1 : 0);
  const hands = (step.kind ?? 'hands') === 'hands';
  return {
    id,
    name: step.name ?? id,
    kind: step.kind ?? 'hands',
    time: step.time,
    repeatTime: step.repeatTime ?? null,
    people: step.people ?? 1,
    rack: step.rack ?? null,
    order: step.order ?? 'first come',
    whole: step.whole ?? false,
    plannedAt: step.plannedAt ?? 'mean',
    lastStart: step.lastStart === undefined ? null : after(step.lastStart),
    uses: [...(hands && benches > 0 ? [benchOf(id)] : []), ...(step.uses ?? [])],
    takes: step.takes ?? [],
    rework: (step.rework ?? []).map((back) => ({
      to: back.to,
      share: back.percent / 100,
      cause: back.cause ?? 'rework',
    })),
    scrap: (step.scrap ?? 0) / 100,
    aside: step.aside ?? false,
    next: step.aside ? (step.then ?? null) : (mainPath[mainPath.indexOf(id) + 1] ?? null),
  };
}

function resolveGear(scenario: Scenario, after: (clock: string) => number): ResolvedGear[] {
  const listed = Object.entries(scenario.gear ?? {}).map(([id, gear]): ResolvedGear => ({
    id,
    name: gear.name ?? id,
    kind: 'gear',
    count: gear.count,
    price: gear.price ?? 0,
    fails: gear.fails ?? null,
    out: (gear.out ?? []).map((one) => ({
      from: after(one.from),
      minutes: one.minutes,
      items: one.items ?? 1,
    })),
  }));
  const benches = Object.entries(scenario.steps).flatMap(([id, step]): ResolvedGear[] => {
    const count = step.kind === 'wait' ? 0 : (step.benches ?? (step.uses === undefined ? 1 : 0));
    if (count === 0) return [];
    const price = scenario.money?.benchPrice ?? 0;
    return [
      {
        id: benchOf(id),
        name: `${step.name ?? id} bench`,
        kind: 'bench',
        count,
        price,
        fails: null,
        out: [],
      },
    ];
  });
  return [...listed, ...benches];
}

function resolvePerson(
  id: string,
  person: Person,
  scenario: Scenario,
  stepIds: string[],
  length: number,
  after: (clock: string) => number,
): ResolvedPerson {
  const factors = scenario.skillLevels?.factors ?? LEVEL_FACTORS;
  const rework = scenario.skillLevels?.rework ?? LEVEL_REWORK;
  const skills: ResolvedPerson['skills'] = {};
  for (const [step, skill] of Object.entries(person.skills ?? {})) {
    const given = typeof skill === 'number' ? { level: skill } : skill;
    const level = given.level ?? 3;
    if (level === 0) continue;
    skills[step] = {
      level,
      factor: given.factor ?? factors[level - 1]!,
      rework: given.rework ?? rework[level - 1]!,
    };
  }
  if (person.skills === undefined) {
    const all = [...(person.covers ?? []), ...(person.changes ?? []).flatMap((change) => change.covers)];
    for (const step of all) skills[step] = { level: 3, factor: 1, rework: 1 };
  }
  const covers = person.covers ?? stepIds.filter((step) => step in skills);
  const changes = (person.changes ?? []).map((change) => ({
    from: after(change.from),
    steps: change.covers,
  }));
  const lateGiven = person.attendance?.late !== undefined;
  return {
    id,
    name: person.name ?? id,
    cover: [{ from: 0, steps: covers }, ...changes].sort((a, b) => a.from - b.from),
    skills,
    rule: person.rule ?? 'in order',
    from: person.from === undefined ? 0 : after(person.from),
    to: person.to === undefined ? length : after(person.to) || 1440,
    offs: offsOf(person, scenario, after),
    chance: (person.attendance?.percent ?? 100) / 100,
    lateChance: lateGiven ? (person.attendance?.latePercent ?? 100) / 100 : 0,
    late: person.attendance?.late ?? null,
    pay: person.pay ?? 0,
    overtime: person.overtime ?? true,
    hoursThisWeek: person.hoursThisWeek ?? 0,
    daysThisWeek: person.daysThisWeek ?? 0,
  };
}

/**
 * Breaks and times away as disjoint stretches: a time away swallows the break inside it; where they overlap,
 * the first runs out first.
 */
function offsOf(person: Person, scenario: Scenario, after: (clock: string) => number): ResolvedOff[] {
  const away = (person.away ?? []).map((one): ResolvedOff => ({
    kind: 'away',
    from: after(one.from),
    minutes: minutesAfter(one.from, one.to),
    share: (one.payShare ?? 0) / 100,
    name: 'away',
  }));
  const breaks = (person.breaks ?? scenario.shift?.breaks ?? []).map((one): ResolvedOff => ({
    kind: 'break',
    from: after(one.from),
    minutes: one.minutes,
    share: one.paid === false ? 0 : 1,
    name: one.name ?? 'break',
  }));
  const all = [...away, ...breaks].sort((a, b) => a.from - b.from || (a.kind === 'away' ? -1 : 1));
  const offs: ResolvedOff[] = [];
  let until = 0;
  for (const one of all) {
    const end = one.from + one.minutes;
    const from = Math.max(one.from, until);
    if (end <= from) continue;
    offs.push({ ...one, from, minutes: end - from });
    until = end;
  }
  return offs;
}

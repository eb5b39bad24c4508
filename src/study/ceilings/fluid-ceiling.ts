/**
 * The fluid ceiling: the most good units a shift could make if nothing ever had to wait, as the optimum of a
 * linear programme over who does what.
 *
 * In it: people's minutes (own hours, breaks, times away, changes of cover, chance of coming, overtime to its
 * cap, allowance, skill factors), minutes of gear (what is taken and held, cures included; what is used;
 * planned times out of order), rework and scrap in expectation, the opening stock with what is already done
 * of it, and the units that come. A bench serves one person at a time, so benches bind within each stretch of
 * time in which the same people are on duty. Pieces in hand at the end are finished after it: each person may
 * add one, each piece of gear carry one.
 *
 * Why no run beats it. Fixed times, no chance: every run's own figures satisfy every row. Random times: the
 * expected figures do, since whether a piece is begun never depends on how long it will take (Wald's
 * equation), outcomes fall independently of all that went before, and the optimum is concave in what is at
 * hand, so that averages over who comes or what arrives cannot pass the optimum at the averages (Jensen's
 * inequality). Three things are approximate by less than the piece in hand that is granted: the mean overrun
 * of the last pieces (exact for coefficients of variation up to 1), the mix of products among the units
 * inside at the end, and times rounded to whole milliseconds. Left out, so that the ceiling is only the
 * higher: last start times, holds, random lateness, random failures of gear, racks, the way through the cell
 * of the first and the last units.
 */
import type { ResolvedGear, ResolvedPerson, ResolvedShift, ResolvedStep } from '../../scenario/resolve.ts';
import { compileTime } from '../../duration/compile.ts';
import { coveredBy, factorOf, stretchesOf, windowOf, type Stretch } from './duty.ts';
import {
  bound,
  createProgramme,
  put,
  solveProgramme,
  usedOf,
  type Optimum,
  type Programme,
} from './programme.ts';
import type { Route, Visit } from './routes.ts';
import { behindOf, supplyOf, type Supply } from './supply.ts';

export interface CeilingSettings {
  /** Pieces in hand at the end count (default). Without: the rate that could be kept up, times the shift. */
  inHand?: boolean;
  /** People may do all they can, not only what they are set to cover. Default false. */
  anySkill?: boolean;
}

export interface Use {
  kind: 'person' | 'gear' | 'units';
  id: string;
  /** Minutes (or units) at hand, and how many of them the optimum uses. */
  atHand: number;
  used: number;
}

export interface Ceiling {
  good: number;
  uses: Use[];
}

const GOOD = 'good';

interface Making {
  shift: ResolvedShift;
  settings: Required<CeilingSettings>;
  stretches: Stretch[];
  supply: Supply;
  /** Last minute at which anybody may be at work. */
  until: number;
  programme: Programme;
  /** Good units there are before anybody lifts a hand (carried over, blocked before the out-rack). */
  already: number;
}

/** @throws Error where the file's loops have no end in sight (an unbounded programme). */
export function fluidCeiling(shift: ResolvedShift, settings: CeilingSettings = {}): Ceiling {
  const made = makeProgramme(shift, settings);
  const optimum = solveProgramme(made.programme);
  return { good: optimum.value + made.already, uses: usesOf(made, optimum) };
}

/** The programme itself, for outside solvers. `already` is to be added to its optimum. */
export function ceilingProgramme(
  shift: ResolvedShift,
  settings: CeilingSettings = {},
): { programme: Programme; already: number } {
  const { programme, already } = makeProgramme(shift, settings);
  return { programme, already };
}

function makeProgramme(shift: ResolvedShift, given: CeilingSettings): Making {
  const settings = { inHand: true, anySkill: false, ...given };
  const until = Math.max(0, ...shift.people.map((person) => windowOf(shift, person).to));
  const making: Making = {
    shift,
    settings,
    until,
    stretches: stretchesOf(shift, settings.anySkill),
    supply: supplyOf(shift, until),
    programme: createProgramme(GOOD),
    already: 0,
  };
  putUnits(making);
  putPeople(making);
  putGear(making);
  return making;
}

const unitsRow = (route: number, visit: string): string => `units ${route} ${visit}`;
const stepRow = (step: string): string => `work ${step}`;
const handRow = (person: string, step: string): string => `hand ${person} ${step}`;
const personRow = (stretch: number, person: string): string => `person ${stretch} ${person}`;
const benchRow = (stretch: number, gear: string): string => `bench ${stretch} ${gear}`;
const gearRow = (gear: string): string => `gear ${gear}`;

/** Units: no visit without a unit that is there, comes, or has come on. */
function putUnits(making: Making): void {
  const { supply, programme, shift } = making;
  const stocked = new Map<string, number>();
  const behind = new Map<string, number>();
  const add = (map: Map<string, number>, key: string, value: number): void =>
    void map.set(key, (map.get(key) ?? 0) + value);
  supply.arrivals.forEach(({ most, routes }, at) => {
    bound(programme, `arrivals ${at}`, most);
    put(programme, `come ${at}`, `arrivals ${at}`, 1);
    for (const { route, weight } of routes) {
      put(
        programme,
        `come ${at}`,
        unitsRow(supply.routes.indexOf(route), route.enter(route.start)!),
        -weight,
      );
    }
  });
  for (const { route, place, units, carried } of supply.stock) {
    const key = route.enter(place);
    if (key === null) {
      if (counts(route)) making.already += units;
      continue;
    }
    const visit = route.visits.get(key)!;
    add(stocked, unitsRow(supply.routes.indexOf(route), key), units);
    const done = units * behindOf(shift, carried, visit.step.id, visit.longest);
    if (visit.step.kind === 'hands') add(behind, stepRow(visit.step.id), done * visit.step.people);
    else for (const gear of new Set([...visit.held, ...visit.step.uses])) add(behind, gearRow(gear), done);
  }
  supply.routes.forEach((route, at) => {
    for (const visit of route.visits.values())
      putVisit(programme, at, visit, { stocked, counted: counts(route) });
  });
  for (const step of shift.steps)
    if (step.kind === 'hands') bound(programme, stepRow(step.id), behind.get(stepRow(step.id)) ?? 0);
  for (const gear of shift.gear) bound(programme, gearRow(gear.id), behind.get(gearRow(gear.id)) ?? 0);
}

/** Are units of this route good units once they are out? */
const counts = (route: Route): boolean => !route.kind.products[0]!.product.returned;

function putVisit(
  programme: Programme,
  route: number,
  visit: Visit,
  { stocked, counted }: { stocked: Map<string, number>; counted: boolean },
): void {
  const column = `visit ${route} ${visit.key}`;
  bound(programme, unitsRow(route, visit.key), stocked.get(unitsRow(route, visit.key)) ?? 0);
  put(programme, column, unitsRow(route, visit.key), 1);
  for (const { to, share } of visit.onward) {
    if (to === null && counted) put(programme, column, GOOD, share);
    else if (to !== null) put(programme, column, unitsRow(route, to), -share);
  }
  if (visit.step.kind === 'hands')
    put(programme, column, stepRow(visit.step.id), visit.minutes * visit.step.people);
}

/**
 * People: minutes by stretch and step, and the piece in hand at the end. Two at a piece: nobody is both pairs
 * of hands.
 */
function putPeople({ shift, stretches, settings, supply, programme }: Making): void {
  const steps = new Map(shift.steps.map((step) => [step.id, step]));
  shift.people.forEach((person, who) => {
    const works = coveredBy(person, settings.anySkill)
      .map((id) => steps.get(id)!)
      .filter((step) => step.kind === 'hands');
    stretches.forEach((stretch, at) => {
      if (stretch.covers[who] === null) return;
      bound(programme, personRow(at, person.id), stretch.minutes * person.chance);
      for (const step of works)
        if (stretch.covers[who]!.includes(step.id)) putWork(programme, shift, supply, at, person, step);
    });
    if (settings.inHand) for (const step of works) putLast(programme, shift, supply, person, step);
    bound(programme, `last ${person.id}`, person.chance);
    for (const step of works.filter((one) => one.people === 2)) {
      bound(programme, handRow(person.id, step.id), 0);
      supply.routes.forEach((route, at) => {
        for (const visit of route.visits.values()) {
          if (visit.step === step)
            put(programme, `visit ${at} ${visit.key}`, handRow(person.id, step.id), -visit.minutes);
        }
      });
    }
  });
}

function putWork(
  programme: Programme,
  shift: ResolvedShift,
  supply: Supply,
  stretch: number,
  person: ResolvedPerson,
  step: ResolvedStep,
): void {
  const column = `does ${stretch} ${person.id} ${step.id}`;
  const pieceMinutes = 1 / (factorOf(person, step.id) * shift.allowance);
  put(programme, column, personRow(stretch, person.id), 1);
  put(programme, column, stepRow(step.id), -pieceMinutes);
  if (step.people === 2) put(programme, column, handRow(person.id, step.id), pieceMinutes);
  // The minutes people are at the step are the gear's too, each pair of hands once.
  for (const gear of step.uses) put(programme, column, benchRow(stretch, gear), 1 / step.people);
  for (const gear of gearAtHand(supply, step)) put(programme, column, gearRow(gear), 1 / step.people);
}

/**
 * The piece in hand at the end: all of it beyond the minutes at hand, or what the rules of the end leave of
 * it.
 */
function putLast(
  programme: Programme,
  shift: ResolvedShift,
  supply: Supply,
  person: ResolvedPerson,
  step: ResolvedStep,
): void {
  const longest = longestOf(supply, step);
  const { lastStart, to, stays } = windowOf(shift, person);
  const clock = longest * factorOf(person, step.id) * shift.allowance;
  if (clock === 0 || (shift.atEnd === 'put down' && !step.whole && !stays)) return;
  // A whole piece of fixed length is begun only where it ends in time: only the tidy-up is left to run into.
  const most =
    step.whole && alwaysTheSame(shift, step) ? Math.min(1, Math.max(0, to - lastStart) / clock) : 1;
  const column = `ends ${person.id} ${step.id}`;
  bound(programme, `most ${column}`, most * person.chance);
  put(programme, column, `most ${column}`, 1);
  put(programme, column, `last ${person.id}`, 1);
  put(programme, column, stepRow(step.id), -longest);
  if (step.people === 2) put(programme, column, handRow(person.id, step.id), longest);
  for (const gear of gearAtHand(supply, step)) put(programme, column, `last gear ${gear}`, 1 / step.people);
}

const visitsOf = (supply: Supply, step: ResolvedStep): Visit[] =>
  supply.routes.flatMap((route) => [...route.visits.values()]).filter((visit) => visit.step === step);

const longestOf = (supply: Supply, step: ResolvedStep): number =>
  Math.max(0, ...visitsOf(supply, step).map((visit) => visit.longest));

function alwaysTheSame(shift: ResolvedShift, step: ResolvedStep): boolean {
  const times = shift.products.flatMap(({ tasks }) => [tasks[step.id]!.time, tasks[step.id]!.repeat]);
  return times.every((time) => compileTime(time).variance === 0);
}

/** Gear every visit of a step has: what it uses, and what all its units hold. */
function gearAtHand(supply: Supply, step: ResolvedStep): string[] {
  const visits = visitsOf(supply, step);
  const held = [...new Set(visits.flatMap((visit) => visit.held))].filter((gear) =>
    visits.every((visit) => visit.held.includes(gear)),
  );
  return [...new Set([...step.uses, ...held])];
}

/**
 * Gear: minutes over the whole time for what units hold or cure in; per stretch for benches (in `putWork`).
 */
function putGear({ shift, stretches, supply, programme, until }: Making): void {
  for (const gear of shift.gear) {
    const row = gearRow(gear.id);
    const use = longestUse(shift, supply, gear.id);
    // Units carried over that found none of it left go through without.
    const without = Math.max(0, heldAtStart(supply, gear.id) - gear.count);
    bound(
      programme,
      row,
      (programme.bounds.get(row) ?? 0) + gear.count * until + without * use - outMinutes(gear, until, use),
    );
    bound(programme, `last gear ${gear.id}`, gear.count + without);
    stretches.forEach((stretch, at) => bound(programme, benchRow(at, gear.id), gear.count * stretch.minutes));
  }
  supply.routes.forEach((route, at) => {
    for (const visit of route.visits.values()) putHeld(programme, shift, supply, at, visit);
  });
}

/**
 * Minutes of gear by visit: of waits, and of those hands visits only some of whose units hold it (at the
 * quickest person's pace).
 */
function putHeld(
  programme: Programme,
  shift: ResolvedShift,
  supply: Supply,
  route: number,
  visit: Visit,
): void {
  const wait = visit.step.kind === 'wait';
  const byHands = wait ? [] : gearAtHand(supply, visit.step);
  const paces = shift.people
    .filter((person) => person.skills[visit.step.id] !== undefined)
    .map((person) => factorOf(person, visit.step.id));
  const pace = wait ? 1 : Math.min(...(paces.length === 0 ? [1] : paces)) * shift.allowance;
  for (const gear of new Set([...visit.held, ...(wait ? visit.step.uses : [])])) {
    if (!byHands.includes(gear))
      put(programme, `visit ${route} ${visit.key}`, gearRow(gear), visit.minutes * pace);
  }
}

/** The longest that one unit can use or hold a piece of gear, waiting out. */
function longestUse(shift: ResolvedShift, supply: Supply, id: string): number {
  const slowest =
    Math.max(
      1,
      ...shift.people.flatMap((person) => Object.values(person.skills).map((skill) => skill.factor)),
    ) * shift.allowance;
  return shift.steps
    .filter(
      (step) => step.uses.includes(id) || visitsOf(supply, step).some((visit) => visit.held.includes(id)),
    )
    .reduce((sum, step) => sum + longestOf(supply, step) * (step.kind === 'hands' ? slowest : 1), 0);
}

/** Units carried over that hold it, or would. */
function heldAtStart(supply: Supply, id: string): number {
  return supply.stock.reduce((sum, { route, place, units, carried }) => {
    if (place === null) return sum;
    const begun = carried.state !== undefined && carried.state !== 'waiting' && carried.state !== 'blocked';
    const held = begun ? route.visits.get(route.enter(place)!)!.held : place.held.map((one) => one.gear);
    return held.includes(id) ? sum + units : sum;
  }, 0);
}

/**
 * Planned minutes out of order, less the longest use that may run into each (a piece in it is finished
 * first).
 */
function outMinutes(gear: ResolvedGear, until: number, use: number): number {
  return gear.out.reduce(
    (sum, out) =>
      sum + Math.min(out.items, gear.count) * Math.max(0, Math.min(out.minutes, until - out.from) - use),
    0,
  );
}

function usesOf({ shift, stretches, supply, programme }: Making, optimum: Optimum): Use[] {
  const used = (row: string): number => usedOf(programme, optimum, row);
  const sum = (rows: string[], of: (row: string) => number): number =>
    rows.reduce((total, row) => total + of(row), 0);
  const atHand = (row: string): number => programme.bounds.get(row) ?? 0;
  const people = shift.people.map((person): Use => {
    const rows = stretches.map((_, at) => personRow(at, person.id));
    return { kind: 'person', id: person.id, atHand: sum(rows, atHand), used: sum(rows, used) };
  });
  const gear = shift.gear.map(({ id }): Use => ({
    kind: 'gear',
    id,
    atHand: atHand(gearRow(id)),
    used: used(gearRow(id)),
  }));
  const units = supply.arrivals
    .filter(({ most }) => Number.isFinite(most))
    .map(({ most }, at): Use => ({
      kind: 'units',
      id: `arrivals ${at + 1}`,
      atHand: most,
      used: used(`arrivals ${at}`),
    }));
  return [...people, ...gear, ...units];
}

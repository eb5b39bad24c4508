/**
 * What a unit still has to go through, as a graph of visits: a step, how far the unit had come before (so
 * that a repeat visit is known as one), and the gear it then holds. Shares of going on, back and out are
 * those of the file.
 */
import { compileTime } from '../../duration/compile.ts';
import type { ResolvedProduct, ResolvedShift, ResolvedStep } from '../../scenario/resolve.ts';
import { coveredBy } from './duty.ts';

export interface Visit {
  key: string;
  step: ResolvedStep;
  /** Mean minutes, product factor in, person's factor and allowance out; and the longest product's. */
  minutes: number;
  longest: number;
  /** Gear taken and held during the visit (not what the step uses). */
  held: string[];
  /** Where units go from here; null is the out-rack. What is missing to 1 is scrap. */
  onward: { to: string | null; share: number }[];
}

/**
 * Products that go the same way, with their weights (sum 1): on average one unit is the weighted mean of
 * them.
 */
export interface Kind {
  products: { product: ResolvedProduct; weight: number }[];
}

export interface Place {
  step: string;
  /** Place on the path of the farthest step visited before. */
  farthest: number;
  held: Held[];
  /** Which visits it had is not known for certain: the shorter time then counts. */
  unsure: boolean;
}

export interface Held {
  gear: string;
  from: number;
  until: string;
}

export interface Route {
  kind: Kind;
  visits: Map<string, Visit>;
  /** Key of the visit at a place; null where the place is the out-rack. Made when first asked for. */
  enter: (place: Place | null) => string | null;
  /**
   * The place of a new unit, and of one that is before a step (`after` it: blocked there) on the first way
   * through.
   */
  start: Place;
  before: (step: string) => Place;
  next: (step: string) => string | null;
}

/** Places on the path; a step aside stands just before the one that follows it. */
export function positionsOf(shift: ResolvedShift): Map<string, number> {
  const path = shift.steps.filter((step) => !step.aside).map((step) => step.id);
  const at = (id: string | null): number => (id === null ? path.length : path.indexOf(id));
  return new Map(shift.steps.map((step) => [step.id, step.aside ? at(step.next) - 0.5 : at(step.id)]));
}

export function createRoute(shift: ResolvedShift, kind: Kind): Route {
  const steps = new Map(shift.steps.map((step) => [step.id, step]));
  const positions = positionsOf(shift);
  const position = (id: string): number => positions.get(id) ?? 0;
  const { skips, enters } = kind.products[0]!.product;
  const visits = new Map<string, Visit>();
  const next = (id: string): string | null => {
    let to = steps.get(id)!.next;
    while (to !== null && skips.includes(to)) to = steps.get(to)!.next;
    return to;
  };
  const enter = (place: Place | null): string | null => {
    if (place === null) return null;
    const step = steps.get(place.step)!;
    const taken = step.takes.filter(
      (take) => !place.held.some((one) => one.gear === take.gear && one.until === take.until),
    );
    const held = [
      ...place.held,
      ...taken.map((take): Held => ({ gear: take.gear, from: position(step.id), until: take.until })),
    ];
    const key = JSON.stringify([
      step.id,
      place.farthest,
      place.unsure,
      held.map((one) => [one.gear, one.from, one.until]),
    ]);
    if (visits.has(key)) return key;
    const visit: Visit = {
      key,
      step,
      ...minutesOf(kind, step, visitKind(place, position, enters)),
      held: held.map((one) => one.gear),
      onward: [],
    };
    visits.set(key, visit);
    const kept = held.filter((one) => one.until !== step.id);
    const farthest = Math.max(place.farthest, position(step.id));
    const move = (to: string | null, left: Held[]): string | null =>
      enter(to === null ? null : { step: to, farthest, held: left, unsure: place.unsure });
    let on = 1 - step.scrap;
    for (const back of step.rework) {
      const share = Math.min(back.share * leastRework(shift, back.to), on);
      on -= share;
      visit.onward.push({
        to: move(
          back.to,
          kept.filter((one) => one.from < position(back.to)),
        ),
        share,
      });
    }
    visit.onward.push({ to: move(next(step.id), kept), share: on });
    return key;
  };
  const before = (id: string): Place => ({
    step: id,
    farthest: position(id) - 0.25,
    held: heldBefore(shift, skips, position, id),
    unsure: false,
  });
  return {
    kind,
    visits,
    enter,
    start: { step: enters, farthest: position(enters) - 0.25, held: [], unsure: false },
    before,
    next,
  };
}

type VisitKind = 'first' | 'again' | 'either';

function visitKind(place: Place, position: (id: string) => number, enters: string): VisitKind {
  const at = position(place.step);
  if (at > place.farthest) return at % 1 === 0 ? 'first' : 'either';
  return place.unsure || at % 1 !== 0 || at < position(enters) ? 'either' : 'again';
}

function minutesOf(kind: Kind, step: ResolvedStep, visit: VisitKind): { minutes: number; longest: number } {
  let [minutes, longest] = [0, 0];
  for (const { product, weight } of kind.products) {
    const task = product.tasks[step.id]!;
    const [first, again] = [compileTime(task.time).mean, compileTime(task.repeat).mean];
    const mean =
      task.factor * (visit === 'first' ? first : visit === 'again' ? again : Math.min(first, again));
    minutes += weight * mean;
    longest = Math.max(longest, mean);
  }
  return { minutes, longest };
}

/** The kindest rework factor among those who may do the step: a ceiling supposes that they do it all. */
function leastRework(shift: ResolvedShift, step: string): number {
  const able = shift.people.filter((person) => coveredBy(person).includes(step) || step in person.skills);
  return able.length === 0 ? 1 : Math.min(...able.map((person) => person.skills[step]?.rework ?? 1));
}

/** Gear taken on the way to a step and not yet freed. */
function heldBefore(
  shift: ResolvedShift,
  skips: string[],
  position: (id: string) => number,
  id: string,
): Held[] {
  return shift.steps
    .filter((step) => !skips.includes(step.id))
    .flatMap((step) =>
      step.takes
        .filter((take) => position(step.id) < position(id) && position(id) <= position(take.until))
        .map((take): Held => ({ gear: take.gear, from: position(step.id), until: take.until })),
    );
}

/**
 * Expected visits of each by one unit that enters at a place (rework in), and the chance that it ends good.
 */
export function expectedVisits(
  route: Route,
  place: Place | null,
): { visits: Map<string, number>; good: number } {
  const entry = route.enter(place);
  const visits = new Map<string, number>();
  let good = 0;
  // Units that go round are followed until what is left is too little to matter.
  let under = new Map<string | null, number>([[entry, 1]]);
  for (let round = 0; round < 100_000 && under.size > 0; round++) {
    const after = new Map<string | null, number>();
    for (const [key, share] of under) {
      if (key === null) {
        good += share;
        continue;
      }
      visits.set(key, (visits.get(key) ?? 0) + share);
      for (const { to, share: part } of route.visits.get(key)!.onward) {
        if (share * part > 1e-12) after.set(to, (after.get(to) ?? 0) + share * part);
      }
    }
    under = after;
  }
  return { visits, good };
}

/**
 * The spreadsheet's number, defined once: the least, over steps and gear, of minutes at hand by mean minutes
 * per good unit. Handling, rework, scrap, breaks, skills and the mix are in; waiting, variation, the opening
 * stock and the sharing of people are out: a person counts in full at every step they cover, as on a
 * spreadsheet with a line a step. And the naive one: clamp sets by their cure alone.
 */
import type { ResolvedShift, ResolvedStep } from '../../scenario/resolve.ts';
import { factorOf, stretchesOf, windowOf } from './duty.ts';
import { createRoute, expectedVisits, type Route } from './routes.ts';
import { kindsOf } from './supply.ts';

export interface SpreadsheetLine {
  kind: 'step' | 'gear';
  id: string;
  /**
   * Minutes at hand (people's at their own pace; gear's from the first piece that could begin to the last).
   */
  atHand: number;
  /** Mean minutes per good unit. */
  perUnit: number;
  units: number;
}

export interface SpreadsheetNumber {
  /** NaN where nothing limits. */
  units: number;
  /** Ascending: the first line is what binds. */
  lines: SpreadsheetLine[];
}

interface Part {
  route: Route;
  weight: number;
}

/** Expected visits of one started unit, and the chance that it ends good. */
interface Mix {
  visits: { part: Part; key: string; number: number }[];
  good: number;
}

function mixOf(shift: ResolvedShift): Mix {
  const kinds = kindsOf(shift.products);
  const whole = kinds.flatMap((kind) => kind.products).reduce((sum, one) => sum + one.weight, 0);
  const mix: Mix = { visits: [], good: 0 };
  for (const kind of kinds) {
    const share = kind.products.reduce((sum, one) => sum + one.weight, 0);
    const route = createRoute(shift, {
      products: kind.products.map((one) => ({ ...one, weight: one.weight / share })),
    });
    const part = { route, weight: share / whole };
    const { visits, good } = expectedVisits(route, route.start);
    mix.good += part.weight * good;
    for (const [key, number] of visits) mix.visits.push({ part, key, number: part.weight * number });
  }
  return mix;
}

export function spreadsheetNumber(shift: ResolvedShift): SpreadsheetNumber {
  const mix = mixOf(shift);
  const steps = shift.steps.filter((step) => step.kind === 'hands').map((step) => stepLine(shift, mix, step));
  const gear = shift.gear.map((one) => gearLine(shift, mix, one.id));
  const lines = [...steps, ...gear].filter((line) => line.perUnit > 0).sort((a, b) => a.units - b.units);
  return { units: lines[0]?.units ?? NaN, lines };
}

/**
 * Cure only: minutes of each gear that is taken across a wait, by the minutes of the wait. The least of them;
 * null without any.
 */
export function naiveNumber(shift: ResolvedShift): SpreadsheetLine | null {
  const mix = mixOf(shift);
  const parts = [...new Set(mix.visits.map(({ part }) => part))];
  const lines = shift.gear.flatMap((gear): SpreadsheetLine[] => {
    const perUnit = parts.reduce((sum, part) => sum + part.weight * cureMinutes(part.route, gear.id), 0);
    if (perUnit === 0) return [];
    const atHand = gear.count * openMinutes(shift);
    return [{ kind: 'gear', id: gear.id, atHand, perUnit, units: atHand / perUnit }];
  });
  return lines.sort((a, b) => a.units - b.units)[0] ?? null;
}

/** Minutes of waits on the first way through during which a unit holds the gear. */
function cureMinutes(route: Route, gear: string): number {
  let minutes = 0;
  for (let step: string | null = route.start.step; step !== null; step = route.next(step)) {
    const visit = route.visits.get(route.enter(route.before(step))!)!;
    if (visit.step.kind === 'wait' && visit.held.includes(gear)) minutes += visit.minutes;
  }
  return minutes;
}

/** Mean minutes per good unit, repeat visits in. */
function minutesPer(mix: Mix, minutes: (route: Route, key: string) => number): number {
  return (
    mix.visits.reduce((total, { part, key, number }) => total + number * minutes(part.route, key), 0) /
    mix.good
  );
}

function stepLine(shift: ResolvedShift, mix: Mix, step: ResolvedStep): SpreadsheetLine {
  const perUnit = minutesPer(mix, (route, key) => {
    const visit = route.visits.get(key)!;
    return visit.step === step ? visit.minutes * step.people * shift.allowance : 0;
  });
  const atHand = stretchesOf(shift).reduce(
    (total, stretch) =>
      total +
      stretch.minutes *
        shift.people.reduce(
          (sum, person, who) =>
            stretch.covers[who]?.includes(step.id) ? sum + person.chance / factorOf(person, step.id) : sum,
          0,
        ),
    0,
  );
  return { kind: 'step', id: step.id, atHand, perUnit, units: perUnit > 0 ? atHand / perUnit : Infinity };
}

/** Gear by the minutes it is used or held, hands at the ordinary pace (factor 1). */
function gearLine(shift: ResolvedShift, mix: Mix, id: string): SpreadsheetLine {
  const perUnit = minutesPer(mix, (route, key) => {
    const { step, held, minutes } = route.visits.get(key)!;
    return held.includes(id) || step.uses.includes(id)
      ? minutes * (step.kind === 'hands' ? shift.allowance : 1)
      : 0;
  });
  const gear = shift.gear.find((one) => one.id === id)!;
  const out = gear.out.reduce((sum, one) => sum + one.minutes * one.items, 0);
  // A bench is of use while somebody is there; what glue cures in is of use all the time.
  const cures = mix.visits.some(({ part, key }) => {
    const { step, held } = part.route.visits.get(key)!;
    return step.kind === 'wait' && (held.includes(id) || step.uses.includes(id));
  });
  const atHand = Math.max(0, gear.count * (cures ? openMinutes(shift) : staffedMinutes(shift)) - out);
  return { kind: 'gear', id, atHand, perUnit, units: perUnit > 0 ? atHand / perUnit : Infinity };
}

/** From the first minute somebody may begin to the last, breaks in: glue does not stop for them. */
function openMinutes(shift: ResolvedShift): number {
  const windows = shift.people.map((person) => {
    const { from, lastStart } = windowOf(shift, person);
    // A break right at the start (a huddle) puts off the first piece.
    const first = person.offs.reduce(
      (at, off) => (off.from <= at && off.from + off.minutes > at ? off.from + off.minutes : at),
      from,
    );
    return { first, last: lastStart };
  });
  if (windows.length === 0) return 0;
  return Math.max(
    0,
    Math.max(...windows.map((one) => one.last)) - Math.min(...windows.map((one) => one.first)),
  );
}

const staffedMinutes = (shift: ResolvedShift): number =>
  stretchesOf(shift).reduce((sum, stretch) => sum + stretch.minutes, 0);

/** A count in one order, whoever told it how; and what it leaves out of what came in. */
import { minutesAfter } from '../scenario/clock.ts';
import { carriedOf, resolve, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';
import { goodSoFar, type NowState } from './state.ts';

/**
 * The same count in one order: two people who count the same things in another order get the same figures. A
 * count off a record keeps its order, which is the order of the lines.
 */
export function inOneOrder(scenario: Scenario, now: NowState): NowState {
  const named = now.inside.some((piece) => piece.name !== undefined || piece.arrived !== undefined);
  const text = (value: unknown): string => JSON.stringify(value);
  const sorted = <T>(list: readonly T[], key: (one: T) => string): T[] =>
    [...list].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
  return {
    ...now,
    inside: named ? now.inside : byPlace(scenario, now.inside),
    out: [...new Set(now.out)].sort(),
    broken: sorted(now.broken, text),
  };
}

function byPlace(scenario: Scenario, inside: readonly CarryOver[]): CarryOver[] {
  const shift = resolve(scenario);
  const keys = new Map(inside.map((piece) => [piece, placeOf(shift, piece)] as const));
  const ordered = [...inside].sort((a, b) => compare(keys.get(a)!, keys.get(b)!));
  // "fit=2,fit=1" is "fit=3": alike but for their number, one after the other.
  return ordered.reduce<CarryOver[]>((list, piece) => {
    const last = list.at(-1);
    const alike =
      last !== undefined &&
      keys.get(piece)!.slice(0, -1).join() === placeOf(shift, last).slice(0, -1).join() &&
      JSON.stringify({ ...last, units: 0 }) === JSON.stringify({ ...piece, units: 0 });
    if (!alike) return [...list, piece];
    return [...list.slice(0, -1), { ...last, units: unitsAt(shift, last) + unitsAt(shift, piece) }];
  }, []);
}

const unitsAt = (shift: ResolvedShift, piece: CarryOver): number => carriedOf(shift, piece).units;

/** Step, state, product, minutes, person, number: each as something to be put in order. */
function placeOf(shift: ResolvedShift, piece: CarryOver): (number | string)[] {
  const { at, state, product, minutes, person, units } = carriedOf(shift, piece);
  const step = shift.steps.findIndex(({ id }) => id === at);
  return [step, state, product ?? '', minutes ?? -1, person ?? '', units];
}

function compare(a: readonly (number | string)[], b: readonly (number | string)[]): number {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at < 0 ? 0 : a[at]! < b[at]! ? -1 : 1;
}

/** Pieces that came into the cell since the shift began, its opening stock in, against what was counted. */
export interface Sum {
  opening: number;
  came: number;
  good: number;
  inside: number;
  /** Came and were not counted: scrapped, sent elsewhere, or overlooked. Under 0: too many were counted. */
  missing: number;
}

/** Null where only chance, or the cell itself, says what comes. */
export function sumOf(scenario: Scenario, now: NowState): Sum | null {
  const shift = resolve(scenario);
  const came = arrivedBy(shift, minutesAfter(shift.start, now.at));
  if (came === null) return null;
  const unitsOf = (pieces: readonly { units: number }[]): number =>
    pieces.reduce((sum, { units }) => sum + units, 0);
  const opening = unitsOf(shift.carryOver);
  const inside = unitsOf(now.inside.map((piece) => carriedOf(shift, piece)));
  const good = goodSoFar(now);
  return { opening, came, good, inside, missing: opening + came - good - inside };
}

function arrivedBy({ intake }: ResolvedShift, minute: number): number | null {
  const since = minute - intake.late;
  switch (intake.kind) {
    case 'list':
      return intake.arrivals.filter(({ at }) => at <= since).reduce((sum, { units }) => sum + units, 0);
    case 'at start':
      return since >= 0 ? intake.units : 0;
    case 'beat':
      return since < 0 ? 0 : Math.min(intake.units ?? Infinity, Math.floor(since / intake.every) + 1);
    default:
      return null;
  }
}

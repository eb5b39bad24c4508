/**
 * The chain of causes at one minute: why a step was not begun, why somebody had no work, why a piece of gear
 * stood. Always in the order in which a start is decided: a piece, its gear, somebody free, the rules of
 * time; and from what is missing on to what kept it.
 */
import {
  FREE,
  gearStateOf,
  NO_COVER,
  NO_GEAR,
  NOTHING_MISSING,
  NOWHERE,
  WAITING_PARTNER,
} from '../../engine/states.ts';
import type { Cause } from './causes.ts';
import type { Moment } from './moment.ts';
import { nearestPiece } from './nearest.ts';
import type { Place } from './timeline.ts';
import { coverOf, whoMight, whyNot } from './whereabouts.ts';

/** `others`: what kept the other people who might have begun it, or the other steps a person covers. */
export interface Explained {
  chain: readonly Cause[];
  others: readonly Cause[];
  /** Pieces that stood before the step at which the chain ends. */
  there: number;
}

/** Why a free person begins nothing: the first missing thing of the first step they cover. */
export function whyIdle(moment: Moment, person: number): Explained {
  const doing = moment.person(person)!;
  const [step, ...rest] = coverOf(moment, person);
  if (doing.state === WAITING_PARTNER) return { chain: whyPartner(moment, person), others: [], there: 0 };
  if (doing.state === NO_COVER || step === undefined)
    return { chain: [{ kind: 'no post', step: -1, person }], others: [], there: 0 };
  const others = rest.map((other) => whyNotBegun(moment, other, { person })[0]!);
  return { chain: whyNotBegun(moment, step, { person }), others, there: piecesAt(moment, step) };
}

function whyPartner(moment: Moment, person: number): readonly Cause[] {
  const lastPieceOf = (one: number): number =>
    moment.timeline.people[one]!.findLast(({ from, unit }) => from < moment.at && unit >= 0)?.unit ?? -1;
  const unit = lastPieceOf(person);
  const step = moment.placeOf(unit)?.step ?? -1;
  const partner = moment.timeline.people.findIndex((_, one) => one !== person && lastPieceOf(one) === unit);
  const cause: Cause = { kind: 'other of two', step, person };
  return partner < 0 ? [cause] : [cause, whyNot(moment, partner, step)];
}

/** Why a piece of gear stands: free, or with a piece that waits. Null while it is worked with, or cures. */
export function whyStands(moment: Moment, gear: number, item: number): Explained | null {
  const doing = moment.item(gear, item);
  if (doing === null) return null;
  if (doing.state === FREE) return whyFree(moment, gear, item);
  const { kind } = gearStateOf(doing.state);
  if (kind !== 'before' && kind !== 'put down') return null;
  return withOthers(moment, ofPiece(moment, doing.unit, []));
}

function whyFree(moment: Moment, gear: number, item: number): Explained {
  const steps = moment.timeline.needing[gear]!;
  let before = 0;
  for (let one = 0; one < item; one++) if (moment.item(gear, one)?.state === FREE) before++;
  const step = steps.find((one) => (moment.head(one)?.unit ?? -1) >= 0) ?? steps[0];
  if (step === undefined) return { chain: [{ kind: 'not needed', gear }], others: [], there: 0 };
  return withOthers(moment, whyNotBegun(moment, step, { besides: before }));
}

/** Where a chain ends with who might have begun it, the others who might have. */
function withOthers(moment: Moment, chain: readonly Cause[]): Explained {
  const last = chain.at(-1)!;
  if (!('person' in last) || last.kind === 'in hand')
    return { chain, others: [], there: 'step' in last ? piecesAt(moment, last.step) : 0 };
  return { chain, others: whoMight(moment, last.step).slice(1), there: piecesAt(moment, last.step) };
}

interface Asked {
  /** The one person who is asked; everybody where none is given. */
  person?: number;
  /** So many pieces more would have to stand there. */
  besides?: number;
  /** Steps that the chain has come through. */
  seen?: readonly number[];
}

/** Why nothing is begun at a step. */
export function whyNotBegun(
  moment: Moment,
  step: number,
  { person, besides = 0, seen = [] }: Asked = {},
): readonly Cause[] {
  const missing = whatIsMissing(moment, step, besides, seen);
  if (missing.length > 0) return missing;
  if (person === undefined) return whoMight(moment, step).slice(0, 1);
  const why = whyNot(moment, person, step);
  return why.kind === 'no second' ? [why, ...whoMight(moment, step, person).slice(0, 1)] : [why];
}

/** A piece or gear, and what keeps that; nothing where all is there. Each is worked out once a minute. */
function whatIsMissing(
  moment: Moment,
  step: number,
  besides: number,
  seen: readonly number[],
): readonly Cause[] {
  const key = `${step} ${besides} ${seen.join()}`;
  const known = moment.explained.get(key);
  if (known !== undefined) return known;
  const found = missingAt(moment, step, besides, seen);
  moment.explained.set(key, found);
  return found;
}

function missingAt(moment: Moment, step: number, besides: number, seen: readonly number[]): readonly Cause[] {
  const { timeline } = moment;
  const path = [...seen, step];
  const isAgain = seen.includes(step);
  const head = moment.head(step);
  const there = piecesAt(moment, step);
  if (there > 0 && (head === null || head.unit < 0)) return [{ kind: 'nothing new', step }];
  // A full rack cannot hold the piece more that this would take: it is hands that are missing.
  const rack = timeline.cell.steps.rack[step]!;
  if (there === 0 || (there <= besides && !(rack > 0 && there >= rack))) {
    if (!timeline.isOnTheWay[step]) return [{ kind: 'none sent back', step }];
    return [{ kind: 'no piece', step, there }, ...(isAgain ? [] : whereIsNext(moment, step, path))];
  }
  const missing = head!.missing;
  if (missing === NOWHERE) return whyBenchHeld(moment, step, isAgain, path);
  if (missing === NOTHING_MISSING) return [];
  const gear = missing - NO_GEAR;
  return [{ kind: 'no gear', step, gear }, ...(isAgain ? [] : whyTaken(moment, gear, path))];
}

/** Pieces that stand before a step, with one that was put down there and is nobody's. */
function piecesAt(moment: Moment, step: number): number {
  const head = moment.head(step);
  const isLeft = head !== null && head.unit >= 0 && moment.placeOf(head.unit)?.where === 'put down';
  return moment.before[step]! + (isLeft ? 1 : 0);
}

/** Where the piece is that would come to a step next, and what keeps it. */
function whereIsNext(moment: Moment, step: number, seen: readonly number[]): readonly Cause[] {
  const next = nearestPiece(moment, step);
  if (next !== null) return whatKeeps(moment, next.unit.number, next.place, seen);
  const until = moment.nextArrival();
  return [until === null ? { kind: 'none to come' } : { kind: 'not come yet', until }];
}

/** What keeps a piece where it is. */
function whatKeeps(moment: Moment, unit: number, place: Place, seen: readonly number[]): readonly Cause[] {
  const { step, wants, person, to: until } = place;
  const of = { step, unit, until };
  const beyond = (at: number): readonly Cause[] =>
    seen.includes(at) ? [] : whyNotBegun(moment, at, { seen });
  switch (place.where) {
    case 'hand':
      return [{ kind: 'in hand', person, ...of }];
    case 'wait':
      return [{ kind: 'curing', ...of }];
    case 'aside':
      return [{ kind: 'on hold', ...of }];
    case 'put down':
      if (moment.head(step)?.unit === unit) return [{ kind: 'put down', ...of }, ...beyond(step)];
      return [{ kind: 'put down', ...of }, ...(person < 0 ? [] : [whyNot(moment, person, step)])];
    case 'blocked':
      if (wants >= moment.timeline.cell.steps.count) return [{ kind: 'no out-rack' }];
      return [{ kind: 'rack full', step: wants }, ...beyond(wants)];
    case 'outside':
      if (moment.timeline.cell.steps.rack[step] === 0) return beyond(step);
      return [{ kind: 'rack full', step }, ...beyond(step)];
    case 'line':
      return beyond(step);
    case 'left':
      return [{ kind: 'unknown' }];
  }
}

/** What keeps the piece in a piece of gear that waits. */
function ofPiece(moment: Moment, number: number, seen: readonly number[]): readonly Cause[] {
  const place = moment.placeOf(number);
  const chain = place === null ? [] : whatKeeps(moment, number, place, seen);
  return chain.length > 0 ? chain : [{ kind: 'unknown' }];
}

/** Why none of a kind of gear is free: what the piece of it is doing that comes free first. */
function whyTaken(moment: Moment, gear: number, seen: readonly number[]): readonly Cause[] {
  let first = -1;
  for (let item = 0; item < moment.timeline.items[gear]!.length; item++)
    if (first < 0 || moment.freeFrom(gear, item) < moment.freeFrom(gear, first)) first = item;
  const doing = first < 0 ? null : moment.item(gear, first);
  if (doing === null) return [];
  const told = gearStateOf(doing.state);
  if (told.kind === 'out of order') return [{ kind: 'out of order', gear, until: doing.to }];
  return ofPiece(moment, doing.unit, seen);
}

function whyBenchHeld(
  moment: Moment,
  step: number,
  isAgain: boolean,
  seen: readonly number[],
): readonly Cause[] {
  const { cell } = moment.timeline;
  const uses = cell.steps.uses.subarray(cell.steps.usesFrom[step]!, cell.steps.usesFrom[step + 1]!);
  for (const gear of uses)
    for (let item = 0; item < moment.timeline.items[gear]!.length; item++) {
      const unit = moment.item(gear, item)?.unit ?? -1;
      const where = moment.placeOf(unit)?.where;
      if (where === 'blocked' || where === 'line' || where === 'wait')
        return [{ kind: 'nowhere to put it', step, unit }, ...(isAgain ? [] : ofPiece(moment, unit, seen))];
    }
  return [{ kind: 'nowhere to put it', step, unit: -1 }];
}

/**
 * Blocked units that wait for each other in a circle: a check that sends back into a full sanding rack while
 * the sanders cannot reach a full check rack. None of them would ever move again, so they change places at
 * that instant: each leaves its bench for the rack it waits for, which holds one more than its slots until
 * the bench that came free takes one out of it.
 */
import { hasPlace, leavePlace } from './gear.ts';
import { joinLine, unblock } from './lines.ts';
import {
  BLOCKED,
  IN_LINE,
  IN_WAIT,
  type CellState,
  type GearItem,
  type GearKind,
  type Step,
  type Unit,
} from './state.ts';
import type { CompiledCell } from './tables.ts';

/** Can any circle close at all? Only where units go back, or a step uses gear that another one uses too. */
export const circlesArePossible = (cell: CompiledCell): boolean => {
  const { steps } = cell;
  if (steps.ownPlace.includes(1)) return true;
  for (let step = 0; step < steps.count; step++) {
    for (let branch = steps.branchFrom[step]!; branch < steps.branchFrom[step + 1]!; branch++) {
      if (steps.position[steps.branchTo[branch]!]! <= steps.position[step]!) return true;
    }
  }
  return false;
};

/** The step whose rack, gear or place it waits for. */
const targetOf = (unit: Unit): Step =>
  (unit.where === BLOCKED ? unit.to : unit.where === IN_WAIT ? unit.wantsPlace : unit.step)!;

/**
 * Units that hold a place while they wait for another: blocked ones, those in line in no slot, those that
 * cure on a bench.
 */
const waitingOnPlaces = (state: CellState): Unit[] => {
  const found: Unit[] = [];
  for (let unit = state.blocked.first; unit !== null; unit = unit.after) {
    if (unit.to !== state.out && hasPlace(unit)) found.push(unit);
  }
  for (const step of state.steps) {
    for (let unit = step.line.first; unit !== null; unit = unit.after) {
      if (!unit.slotted && hasPlace(unit)) found.push(unit);
    }
  }
  for (const unit of state.wantingPlace) if (unit.where === IN_WAIT && hasPlace(unit)) found.push(unit);
  return found.sort((a, b) => a.since - b.since || a.number - b.number);
};

/** Does the unit hold a place while it waits for another? */
const waitsOnPlace = (unit: Unit): boolean => {
  if (!hasPlace(unit)) return false;
  if (unit.where === IN_LINE) return !unit.slotted;
  return unit.where === BLOCKED || (unit.where === IN_WAIT && unit.wantsPlace !== null);
};

/**
 * Is all there is of some kind of gear that the unit waits for held by units that wait themselves? Without
 * such a one there is no circle.
 */
const mayBeStuck = (unit: Unit): boolean => {
  const { uses, takes } = targetOf(unit);
  for (let i = 0; i < uses.length; i++) if (isHeldByWaiting(uses[i]!)) return true;
  for (let i = 0; i < takes.length; i++) if (isHeldByWaiting(takes[i]!.kind)) return true;
  return false;
};

const isHeldByWaiting = (kind: GearKind): boolean => {
  if (kind.free > 0) return false;
  for (let i = 0; i < kind.count; i++) {
    const { unit } = kind.items[i]!;
    if (unit === null || !waitsOnPlace(unit)) return false;
  }
  return kind.count > 0;
};

/** Looked at after nearly every instant, so it makes nothing new; the search itself is rare. */
const anyMayBeStuck = (state: CellState): boolean => {
  const { steps, out, wantingPlace } = state;
  for (let unit = state.blocked.first; unit !== null; unit = unit.after) {
    if (unit.to !== out && mayBeStuck(unit)) return true;
  }
  for (let i = 0; i < steps.length; i++) {
    const { line, inSlots } = steps[i]!;
    if (line.length === inSlots) continue;
    for (let unit = line.first; unit !== null; unit = unit.after)
      if (waitsOnPlace(unit) && mayBeStuck(unit)) return true;
  }
  for (let i = 0; i < wantingPlace.length; i++)
    if (waitsOnPlace(wantingPlace[i]!) && mayBeStuck(wantingPlace[i]!)) return true;
  return false;
};

/**
 * The members of `stuck` that hold, as their place, all there is of some kind of gear that the step needs;
 * none where it can go on.
 */
const holdersOf = (step: Step, stuck: Set<Unit>, unit: Unit): Unit[] => {
  for (const kind of [...step.uses, ...step.takes.map((taking) => taking.kind)]) {
    const holders: Unit[] = [];
    for (const item of kind.items.slice(0, kind.count)) {
      const holder = item.unit;
      if (holder === null || !stuck.has(holder) || !standsOn(holder, item)) break;
      // A unit that is itself the line in place of its step may start on the bench it already has.
      if (holder === unit && unit.where === IN_LINE) break;
      holders.push(holder);
    }
    if (holders.length > 0 && holders.length === kind.count) return holders;
  }
  return [];
};

const standsOn = (unit: Unit, item: GearItem): boolean => {
  return unit.place.includes(item);
};

/**
 * Looks for a circle among the units that cannot move; its members change places. True where one was found.
 */
export const changePlaces = (state: CellState): boolean => {
  state.circleDue = false;
  if (!anyMayBeStuck(state)) return false;
  const order = waitingOnPlaces(state);
  const stuck = new Set(order);
  for (let shrinking = true; shrinking;) {
    shrinking = false;
    for (const unit of stuck) {
      if (holdersOf(targetOf(unit), stuck, unit).length > 0) continue;
      stuck.delete(unit);
      shrinking = true;
    }
  }
  if (stuck.size === 0) return false;
  const circle = followCircle(
    order.find((unit) => stuck.has(unit))!,
    stuck,
  );
  for (const unit of circle) {
    const to = targetOf(unit);
    if (unit.where === BLOCKED) {
      unblock(state, unit);
      joinLine(state, unit, to, true);
    } else {
      leavePlace(state, unit);
    }
  }
  state.recorder.changePlaces(state.now, circle.length);
  state.circleDue = true;
  return true;
};

/** From one stuck unit to the one it waits for, blocked longest, until one comes round again. */
const followCircle = (first: Unit, stuck: Set<Unit>): Unit[] => {
  const path = [first];
  for (;;) {
    const last = path[path.length - 1]!;
    const next = holdersOf(targetOf(last), stuck, last)[0]!;
    const seen = path.indexOf(next);
    if (seen >= 0) return path.slice(seen).sort((a, b) => a.since - b.since);
    path.push(next);
  }
};

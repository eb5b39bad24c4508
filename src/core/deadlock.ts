/**
 * Deadlock: blocked units that wait for each other in a circle, such as a check that sends back into a full
 * sanding rack while the sanders cannot reach a full check rack. None of them would ever move again, so they
 * change places at that instant: each leaves its bench for the rack it waits for, which holds one more than
 * its slots until the bench that came free takes one out of it.
 */
import type { GearKind } from './resources.ts';
import type { Step } from './steps.ts';
import { BLOCKED, IN_LINE, IN_WAIT, type Unit, type UnitStack } from './units.ts';
import { hasPlace, leavePlace } from './gear.ts';
import { joinLine, unblock } from './lines.ts';
import type { CellState } from './state.ts';

/** The step whose rack, gear or place it waits for. */
function targetOf(unit: Unit): Step {
  if (unit.where === BLOCKED) return unit.to!;
  return unit.where === IN_WAIT ? unit.wantsPlace! : unit.step!;
}

/**
 * Units that hold a place while they wait for another: blocked ones, those in line in no slot, those that
 * cure on a bench. In order of waiting; each of them is marked as stuck.
 */
function waitingOnPlaces(state: CellState): UnitStack {
  const found = state.found;
  found.count = 0;
  let unit = state.blocked.first;
  while (unit !== null) {
    if (unit.to !== state.out && hasPlace(unit)) found.push(unit);
    unit = unit.after;
  }
  for (let i = 0; i < state.steps.length; i++) {
    unit = state.steps[i]!.line.first;
    while (unit !== null) {
      if (!unit.slotted && hasPlace(unit)) found.push(unit);
      unit = unit.after;
    }
  }
  const wanting = state.wantingPlace;
  for (let i = 0; i < wanting.count; i++) {
    const one = wanting.at(i);
    if (one.where === IN_WAIT && hasPlace(one)) found.push(one);
  }
  found.sortBySince(true);
  for (let i = 0; i < found.count; i++) found.at(i).stuck = true;
  return found;
}

/** Does the unit hold a place while it waits for another? */
function waitsOnPlace(unit: Unit): boolean {
  if (!hasPlace(unit)) return false;
  if (unit.where === IN_LINE) return !unit.slotted;
  return unit.where === BLOCKED || (unit.where === IN_WAIT && unit.wantsPlace !== null);
}

/**
 * Is all there is of some kind of gear that the unit waits for held by units that wait themselves? Without
 * such a one there is no circle.
 */
function mayBeStuck(unit: Unit): boolean {
  const target = targetOf(unit);
  for (let i = 0; i < target.uses.length; i++) if (isHeldByWaiting(target.uses[i]!)) return true;
  for (let i = 0; i < target.takes.length; i++) if (isHeldByWaiting(target.takes[i]!.kind)) return true;
  return false;
}

function isHeldByWaiting(kind: GearKind): boolean {
  if (kind.free > 0) return false;
  for (let i = 0; i < kind.count; i++) {
    const unit = kind.items[i]!.unit;
    if (unit === null || !waitsOnPlace(unit)) return false;
  }
  return kind.count > 0;
}

/** Looked at after nearly every instant; the search itself is rare. */
function anyMayBeStuck(state: CellState): boolean {
  const steps = state.steps;
  const wanting = state.wantingPlace;
  let unit = state.blocked.first;
  while (unit !== null) {
    if (unit.to !== state.out && mayBeStuck(unit)) return true;
    unit = unit.after;
  }
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    if (step.line.length === step.inSlots) continue;
    unit = step.line.first;
    while (unit !== null) {
      if (waitsOnPlace(unit) && mayBeStuck(unit)) return true;
      unit = unit.after;
    }
  }
  for (let i = 0; i < wanting.count; i++)
    if (waitsOnPlace(wanting.at(i)) && mayBeStuck(wanting.at(i))) return true;
  return false;
}

/**
 * The first of the stuck units that hold, as their place, all there is of some kind of gear that the target
 * of `unit` needs; null where it can go on.
 */
function holderBefore(unit: Unit): Unit | null {
  const target = targetOf(unit);
  for (let i = 0; i < target.uses.length; i++) {
    if (isHeldByStuck(target.uses[i]!, unit)) return target.uses[i]!.items[0]!.unit;
  }
  for (let i = 0; i < target.takes.length; i++) {
    const kind = target.takes[i]!.kind;
    if (isHeldByStuck(kind, unit)) return kind.items[0]!.unit;
  }
  return null;
}

function isHeldByStuck(kind: GearKind, unit: Unit): boolean {
  for (let i = 0; i < kind.count; i++) {
    const item = kind.items[i]!;
    const holder = item.unit;
    if (holder === null || !holder.stuck) return false;
    let stands = false;
    for (let at = 0; at < holder.place.length; at++) if (holder.place[at] === item) stands = true;
    if (!stands) return false;
    // A unit that is itself the line in place of its step may start on the bench it already has.
    if (holder === unit && unit.where === IN_LINE) return false;
  }
  return kind.count > 0;
}

/**
 * Looks for a deadlock among the units that cannot move; its members change places. True where one was found.
 */
export function resolveDeadlock(state: CellState): boolean {
  state.deadlockDue = false;
  if (!state.shift.deadlocks || !anyMayBeStuck(state)) return false;
  const order = waitingOnPlaces(state);
  let shrinking = true;
  while (shrinking) {
    shrinking = false;
    for (let i = 0; i < order.count; i++) {
      const unit = order.at(i);
      if (!unit.stuck || holderBefore(unit) !== null) continue;
      unit.stuck = false;
      shrinking = true;
    }
  }
  let first: Unit | null = null;
  for (let i: i32 = order.count - 1; i >= 0; i--) if (order.at(i).stuck) first = order.at(i);
  const circle: UnitStack | null = first === null ? null : followCircle(state, first);
  for (let i = 0; i < order.count; i++) order.at(i).stuck = false;
  if (circle === null) return false;
  for (let i = 0; i < circle.count; i++) {
    const unit = circle.at(i);
    if (unit.where === BLOCKED) {
      const to = unit.to!;
      unblock(state, unit);
      joinLine(state, unit, to, true);
    } else {
      leavePlace(state, unit);
    }
  }
  state.recorder.changePlaces(state.now, circle.count);
  state.deadlockDue = true;
  return true;
}

/** From one stuck unit to the one it waits for until one comes round again: those of the circle, by time. */
function followCircle(state: CellState, first: Unit): UnitStack {
  const path = state.path;
  path.count = 0;
  path.push(first);
  let seen: i32 = -1;
  while (seen < 0) {
    const next = holderBefore(path.at(path.count - 1))!;
    seen = path.indexOf(next);
    if (seen < 0) path.push(next);
  }
  for (; seen > 0; seen--) path.removeAt(0);
  path.sortBySince(false);
  return path;
}

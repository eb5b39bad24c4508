/** Lines of hands steps: who is next, who stands in a slot. */
import { gearBefore } from './codes.ts';
import type { Step } from './steps.ts';
import { BLOCKED, IN_LINE, OUTSIDE, type Unit } from './units.ts';
import { leavePlace, tellGear } from './gear.ts';
import type { CellState } from './state.ts';

/**
 * Does `a` come before `b` in the line of a step? Rush first; then due (where the step says so); then who
 * joined first.
 */
function comesBefore(step: Step, a: Unit, b: Unit): boolean {
  if (a.rush !== b.rush) return a.rush > b.rush;
  if (step.byDue && a.due !== b.due) return a.due < b.due;
  if (a.since !== b.since) return a.since < b.since;
  return a.number < b.number;
}

/**
 * Joins the line of a step now: in a slot of its rack, or in no slot where it stands (after a wait; before a
 * rack of 0).
 */
// @inline
export function joinLine(state: CellState, unit: Unit, step: Step, slotted: boolean): void {
  const line = step.line;
  unit.where = IN_LINE;
  unit.step = step;
  unit.since = state.now - state.earlier;
  unit.slotted = slotted;
  if (slotted) step.inSlots++;
  let place = line.last;
  while (place !== null && comesBefore(step, unit, place)) place = place.before;
  line.insertAfter(unit, place);
  state.lineMask |= step.bit;
  if (unit.held > 0) tellGear(state, unit, gearBefore(step.index));
  state.recorder.join(state.now, unit, step, line.length);
}

/** The units outside that would start at a step with a rack of 0 keep it in the mask of lines. */
// @inline
export function updateLineMask(state: CellState, step: Step): void {
  const waiting = step.line.length > 0 || (step.rack === 0 && step.outside > 0);
  if (waiting) state.lineMask |= step.bit;
  else state.lineMask &= ~step.bit;
}

/** The unit that comes in next for this first step: rush first, then who has waited outside longest. */
export function firstOutside(state: CellState, step: Step): Unit | null {
  if (step.outside === 0) return null;
  let unit = state.outside.first;
  while (unit !== null && unit.to !== step) unit = unit.after;
  return unit;
}

export function keepOutside(state: CellState, unit: Unit, step: Step): void {
  const outside = state.outside;
  unit.where = OUTSIDE;
  unit.step = null;
  unit.to = step;
  unit.since = state.now - state.earlier;
  step.outside++;
  // Outside, too, rush comes first.
  let place = outside.last;
  while (place !== null && unit.rush > place.rush) place = place.before;
  outside.insertAfter(unit, place);
  updateLineMask(state, step);
  state.recorder.keepOutside(state.now, unit, outside.length);
}

/** Out of those that wait outside; what becomes of it is the caller's. */
export function leaveOutside(state: CellState, unit: Unit): void {
  const step = unit.to!;
  state.outside.remove(unit);
  step.outside--;
  updateLineMask(state, step);
}

export function comeIn(state: CellState, unit: Unit): void {
  leaveOutside(state, unit);
  state.inside++;
  state.recorder.enter(state.now, unit, state.outside.length);
}

export function block(state: CellState, unit: Unit, from: Step, to: Step): void {
  unit.where = BLOCKED;
  unit.step = from;
  unit.to = to;
  unit.since = state.now - state.earlier;
  let place = state.blocked.last;
  while (place !== null && place.since > unit.since) place = place.before;
  state.blocked.insertAfter(unit, place);
  state.deadlockDue = true;
  tellGear(state, unit, gearBefore(to.index));
  state.recorder.block(state.now, unit);
}

/** A blocked unit leaves its place; what it joins is the caller's. */
export function unblock(state: CellState, unit: Unit): void {
  state.blocked.remove(unit);
  state.recorder.unblock(state.now, unit);
  leavePlace(state, unit);
}

/** Lines of hands steps: who is next, who stands in a slot. */
import {
  append,
  BLOCKED,
  IN_LINE,
  insertAfter,
  OUTSIDE,
  remove,
  type CellState,
  type Step,
  type Unit,
} from './state.ts';
import { gearBefore } from './recorder.ts';
import { leavePlace, tellGear } from './gear.ts';

/**
 * Does `a` come before `b` in the line of a step? Rush first; then due (where the step says so); then who
 * joined first.
 */
const comesBefore = (step: Step, a: Unit, b: Unit): boolean => {
  if (a.rush !== b.rush) return a.rush > b.rush;
  if (step.byDue && a.due !== b.due) return a.due < b.due;
  if (a.since !== b.since) return a.since < b.since;
  return a.number < b.number;
};

/**
 * Joins the line of a step now: in a slot of its rack, or in no slot where it stands (after a wait; before a
 * rack of 0).
 */
export const joinLine = (state: CellState, unit: Unit, step: Step, slotted: boolean): void => {
  const { line } = step;
  unit.where = IN_LINE;
  unit.step = step;
  unit.since = state.now;
  unit.slotted = slotted;
  if (slotted) step.inSlots++;
  let place = line.last;
  while (place !== null && comesBefore(step, unit, place)) place = place.before;
  insertAfter(line, unit, place);
  state.lineMask |= step.bit;
  if (unit.held > 0) tellGear(state, unit, gearBefore(step.index));
  state.recorder.join(state.now, unit.number, step.index, line.length);
};

/** Is there a slot before this step? A rack of 0 has none; without a limit there always is one. */
export const hasSlot = (step: Step): boolean => {
  return step.rack < 0 || step.inSlots < step.rack;
};

/** The units outside that would start at a step with a rack of 0 keep it in the mask of lines. */
export const updateLineMask = (state: CellState, step: Step): void => {
  const waiting = step.line.length > 0 || (step.rack === 0 && firstOutside(state, step) !== null);
  if (waiting) state.lineMask |= step.bit;
  else state.lineMask &= ~step.bit;
};

/** The unit that comes in next for this first step: rush first, then who has waited outside longest. */
export const firstOutside = (state: CellState, step: Step): Unit | null => {
  for (let unit = state.outside.first; unit !== null; unit = unit.after) {
    if (unit.to === step) return unit;
  }
  return null;
};

export const keepOutside = (state: CellState, unit: Unit, step: Step): void => {
  unit.where = OUTSIDE;
  unit.step = null;
  unit.to = step;
  unit.since = state.now;
  step.outside++;
  // Outside, too, rush comes first.
  let place = state.outside.last;
  while (place !== null && unit.rush > place.rush) place = place.before;
  insertAfter(state.outside, unit, place);
  updateLineMask(state, step);
  state.recorder.keepOutside(state.now, unit.number, state.outside.length);
};

/** Out of those that wait outside; what becomes of it is the caller's. */
export const leaveOutside = (state: CellState, unit: Unit): void => {
  const step = unit.to!;
  remove(state.outside, unit);
  step.outside--;
  updateLineMask(state, step);
};

export const comeIn = (state: CellState, unit: Unit): void => {
  leaveOutside(state, unit);
  state.inside++;
  state.recorder.enter(state.now, unit.number, state.outside.length);
};

export const block = (state: CellState, unit: Unit, from: Step, to: Step): void => {
  unit.where = BLOCKED;
  unit.step = from;
  unit.to = to;
  unit.since = state.now;
  append(state.blocked, unit);
  state.circleDue = true;
  tellGear(state, unit, gearBefore(to.index));
  state.recorder.block(state.now, unit.number, from.index, to.index);
};

/** A blocked unit leaves its place; what it joins is the caller's. */
export const unblock = (state: CellState, unit: Unit): void => {
  remove(state.blocked, unit);
  state.recorder.unblock(state.now, unit.number, unit.step!.index, unit.to!.index);
  leavePlace(state, unit);
};

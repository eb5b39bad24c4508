/** Lines of hands steps: who is next, who stands in a slot. */
import { append, BLOCKED, IN_LINE, insertAfter, NONE, OUTSIDE, remove, type CellState, type Unit } from './state.ts';
import { gearBefore } from './recorder.ts';
import { leavePlace, tellGear } from './gear.ts';

/** Does `a` come before `b` in the line of a step? Rush first; then due (where the step says so); then who joined first. */
function comesBefore(state: CellState, step: number, a: Unit, b: Unit): boolean {
  if (a.rush !== b.rush) return a.rush > b.rush;
  if (state.cell.steps.byDue[step] !== 0 && a.due !== b.due) return a.due < b.due;
  if (a.since !== b.since) return a.since < b.since;
  return a.number < b.number;
}

/** Joins the line of a step now: in a slot of its rack, or in no slot where it stands (after a wait; before a rack of 0). */
export function joinLine(state: CellState, unit: Unit, step: number, slotted: boolean): void {
  const line = state.lines[step]!;
  unit.where = IN_LINE;
  unit.step = step;
  unit.since = state.now;
  unit.slotted = slotted ? 1 : 0;
  if (slotted) state.inSlots[step] = state.inSlots[step]! + 1;
  let place = line.last;
  while (place !== null && comesBefore(state, step, unit, place)) place = place.before;
  insertAfter(line, unit, place);
  state.lineMask |= 1 << step;
  tellGear(state, unit, gearBefore(step));
  state.recorder.join(state.now, unit.number, step, line.length);
}

/** Is there a slot before this step? A rack of 0 has none; without a limit there always is one. */
export function hasSlot(state: CellState, step: number): boolean {
  const rack = state.cell.steps.rack[step]!;
  return rack < 0 || state.inSlots[step]! < rack;
}

/** The units outside that would start at a step with a rack of 0 keep it in the mask of lines. */
export function updateLineMask(state: CellState, step: number): void {
  const waiting = state.lines[step]!.length > 0 || (state.cell.steps.rack[step] === 0 && firstOutside(state, step) !== null);
  if (waiting) state.lineMask |= 1 << step;
  else state.lineMask &= ~(1 << step);
}

/** The unit that comes in next for this first step: rush first, then who has waited outside longest. */
export function firstOutside(state: CellState, step: number): Unit | null {
  for (let unit = state.outside.first; unit !== null; unit = unit.after) {
    if (unit.to === step) return unit;
  }
  return null;
}

export function keepOutside(state: CellState, unit: Unit, step: number): void {
  unit.where = OUTSIDE;
  unit.step = NONE;
  unit.to = step;
  unit.since = state.now;
  // Outside, too, rush comes first.
  let place = state.outside.last;
  while (place !== null && unit.rush > place.rush) place = place.before;
  insertAfter(state.outside, unit, place);
  updateLineMask(state, step);
  state.recorder.keepOutside(state.now, unit.number, state.outside.length);
}

export function comeIn(state: CellState, unit: Unit): void {
  remove(state.outside, unit);
  state.inside++;
  updateLineMask(state, unit.to);
  state.recorder.enter(state.now, unit.number, state.outside.length);
}

export function block(state: CellState, unit: Unit, from: number, to: number): void {
  unit.where = BLOCKED;
  unit.step = from;
  unit.to = to;
  unit.since = state.now;
  append(state.blocked, unit);
  state.circleDue = true;
  tellGear(state, unit, gearBefore(to));
  state.recorder.block(state.now, unit.number, from, to);
}

/** A blocked unit leaves its place; what it joins is the caller's. */
export function unblock(state: CellState, unit: Unit): void {
  remove(state.blocked, unit);
  state.recorder.unblock(state.now, unit.number, unit.step, unit.to);
  leavePlace(state, unit);
}

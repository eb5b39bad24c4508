/** Lines of hands steps: who is next, who stands in a slot. */
import { append, BLOCKED, IN_LINE, insertAfter, NONE, OUTSIDE, remove, type CellState } from './state.ts';
import { gearBefore } from './recorder.ts';
import { leavePlace, tellGear } from './gear.ts';

/** Does `a` come before `b` in the line of a step? Rush first; then due (where the step says so); then who joined first. */
function comesBefore(state: CellState, step: number, a: number, b: number): boolean {
  const units = state.units;
  if (units.rush[a] !== units.rush[b]) return units.rush[a]! > units.rush[b]!;
  if (state.cell.steps.byDue[step] !== 0 && units.due[a] !== units.due[b]) return units.due[a]! < units.due[b]!;
  if (units.since[a] !== units.since[b]) return units.since[a]! < units.since[b]!;
  return units.number[a]! < units.number[b]!;
}

/** Joins the line of a step now: in a slot of its rack, or in no slot where it stands (after a wait; before a rack of 0). */
export function joinLine(state: CellState, unit: number, step: number, slotted: boolean): void {
  const units = state.units;
  const line = state.lines[step]!;
  units.where[unit] = IN_LINE;
  units.step[unit] = step;
  units.since[unit] = state.now;
  units.slotted[unit] = slotted ? 1 : 0;
  if (slotted) state.inSlots[step] = state.inSlots[step]! + 1;
  let place = line.last;
  while (place !== NONE && comesBefore(state, step, unit, place)) place = units.before[place]!;
  insertAfter(state, line, unit, place);
  state.lineMask |= 1 << step;
  tellGear(state, unit, gearBefore(step));
  state.recorder.join(state.now, units.number[unit]!, step, line.length);
}

/** Is there a slot before this step? A rack of 0 has none; without a limit there always is one. */
export function hasSlot(state: CellState, step: number): boolean {
  const rack = state.cell.steps.rack[step]!;
  return rack < 0 || state.inSlots[step]! < rack;
}

/** The units outside that would start at a step with a rack of 0 keep it in the mask of lines. */
export function updateLineMask(state: CellState, step: number): void {
  const waiting = state.lines[step]!.length > 0 || (state.cell.steps.rack[step] === 0 && firstOutside(state, step) !== NONE);
  if (waiting) state.lineMask |= 1 << step;
  else state.lineMask &= ~(1 << step);
}

/** The unit that has waited outside longest for this first step. */
export function firstOutside(state: CellState, step: number): number {
  const units = state.units;
  for (let unit = state.outside.first; unit !== NONE; unit = units.after[unit]!) {
    if (units.to[unit] === step) return unit;
  }
  return NONE;
}

export function keepOutside(state: CellState, unit: number, step: number): void {
  const units = state.units;
  units.where[unit] = OUTSIDE;
  units.step[unit] = NONE;
  units.to[unit] = step;
  append(state, state.outside, unit);
  updateLineMask(state, step);
  state.recorder.keepOutside(state.now, units.number[unit]!, state.outside.length);
}

export function comeIn(state: CellState, unit: number): void {
  remove(state, state.outside, unit);
  state.inside++;
  updateLineMask(state, state.units.to[unit]!);
  state.recorder.enter(state.now, state.units.number[unit]!, state.outside.length);
}

export function block(state: CellState, unit: number, from: number, to: number): void {
  const units = state.units;
  units.where[unit] = BLOCKED;
  units.step[unit] = from;
  units.to[unit] = to;
  units.since[unit] = state.now;
  append(state, state.blocked, unit);
  state.circleDue = true;
  tellGear(state, unit, gearBefore(to));
  state.recorder.block(state.now, units.number[unit]!, from, to);
}

/** A blocked unit leaves its place; what it joins is the caller's. */
export function unblock(state: CellState, unit: number): void {
  const units = state.units;
  remove(state, state.blocked, unit);
  state.recorder.unblock(state.now, units.number[unit]!, units.step[unit]!, units.to[unit]!);
  leavePlace(state, unit);
}

/** What people are told to be doing, and the pieces they leave to others. */
import { BUSY, IDLE, type Person } from './resources.ts';
import type { Unit } from './units.ts';
import type { CellState } from './state.ts';

/** Tells what a person is doing, where it is something new. */
// @inline
export function tellPerson(state: CellState, person: Person, code: i32): void {
  if (person.told === code) return;
  person.told = code;
  state.recorder.person(state.now, person, code);
}

/** The other one of two people at a piece. */
export function partnerAt(unit: Unit, person: Person): Person | null {
  return unit.person === person ? unit.second : unit.person;
}

/** Nobody's any more: whoever first covers its step takes it up. */
export function leaveDown(state: CellState, unit: Unit): void {
  const step = unit.step!;
  const person = unit.person;
  const second = unit.second;
  if (person !== null) person.piece = null;
  if (second !== null) second.piece = null;
  unit.person = null;
  unit.second = null;
  step.left.append(unit);
  state.leftMask |= step.bit;
}

/** Leaves a put-down piece to others; a partner who waited for it is free. */
export function abandon(state: CellState, person: Person): void {
  const unit = person.piece!;
  const other = partnerAt(unit, person);
  leaveDown(state, unit);
  if (other !== null && other.at === BUSY) free(state, other);
  if (person.at === BUSY) free(state, person);
}

function free(state: CellState, person: Person): void {
  if (person.finishing >= 0) state.recorder.finished(state.now, person);
  state.setAt(person, IDLE);
}

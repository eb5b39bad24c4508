/** What people are told to be doing, and the pieces they leave to others. */
import { append, BUSY, IDLE, setAt, type CellState, type Person, type Unit } from './state.ts';

/** Tells what a person is doing, where it is something new. */
export const tellPerson = (state: CellState, person: Person, code: number): void => {
  if (person.told === code) return;
  person.told = code;
  state.recorder.person(state.now, person.index, code, person.ended !== 0);
};

/** Nobody's any more: whoever first covers its step takes it up. */
export const leaveDown = (state: CellState, unit: Unit): void => {
  const step = unit.step!;
  if (unit.person !== null) unit.person.piece = null;
  if (unit.second !== null) unit.second.piece = null;
  unit.person = null;
  unit.second = null;
  append(step.left, unit);
  state.leftMask |= step.bit;
};

/** Leaves a put-down piece to others; a partner who waited for it is free. */
export const abandon = (state: CellState, person: Person): void => {
  const unit = person.piece!;
  const other = unit.person === person ? unit.second : unit.person;
  leaveDown(state, unit);
  if (other !== null && other.at === BUSY) setAt(state, other, IDLE);
  if (person.at === BUSY) setAt(state, person, IDLE);
};

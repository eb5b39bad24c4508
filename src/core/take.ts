/** A piece goes into somebody's hands. */
import { gearAt, workingAt } from './codes.ts';
import { BUSY, type Person } from './resources.ts';
import type { Step } from './steps.ts';
import { IN_HAND, type Unit } from './units.ts';
import { tellGear } from './gear.ts';
import { tellPerson } from './left-pieces.ts';
import { END_HANDS, RANK_ENDS } from './ranks.ts';
import type { CellState } from './state.ts';

/** Puts a unit into the hands of one or two people for so many ms. */
// @inline
export function take(
  state: CellState,
  unit: Unit,
  step: Step,
  person: Person,
  second: Person | null,
  duration: number,
): void {
  const ends = state.now + duration;
  unit.where = IN_HAND;
  unit.step = step;
  unit.person = person;
  unit.second = second;
  unit.ends = ends;
  setBusy(state, person, unit, step);
  if (second !== null) setBusy(state, second, unit, step);
  tellGear(state, unit, gearAt(step.index));
  state.plan(ends, RANK_ENDS, END_HANDS, unit.index, unit.token);
}

// @inline
function setBusy(state: CellState, person: Person, unit: Unit, step: Step): void {
  state.setAt(person, BUSY);
  person.piece = unit;
  tellPerson(state, person, workingAt(state.kinds.length, step.index));
}

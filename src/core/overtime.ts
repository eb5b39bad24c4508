/** The end of the day: who stays for overtime and how long, tidying up, leaving. */
import { GONE, TIDYING } from './codes.ts';
import { BUSY, ENDED_IN_OVERTIME, IDLE, LEAVING, LEFT, type Person } from './resources.ts';
import type { Step } from './steps.ts';
import { ASIDE, BLOCKED, IN_HAND, IN_LINE, IN_WAIT, NOWHERE, OUTSIDE, PUT_DOWN, type Unit } from './units.ts';
import { abandon, tellPerson } from './left-pieces.ts';
import { isNew, overtimeInForce } from './may-start.ts';
import { LEAVE, NOTHING, personOrder, RANK_PEOPLE } from './ranks.ts';
import { type CellState, OVERTIME_EMPTY, OVERTIME_TARGET } from './state.ts';

/**
 * After their own end: is anything left, at or upstream of what they cover, that can reach them before the
 * cap? `busy`: besides their own piece.
 */
export function overtimeGoesOn(state: CellState, person: Person, busy: boolean): boolean {
  if (!person.mayOvertime || !overtimeInForce(state)) return false;
  const cap = person.to + state.shift.overtimeCap;
  if (state.now >= cap) return false;
  if (busy) return true;
  for (let i = 0; i < state.top; i++) {
    const unit = state.units.at(i);
    if (unit.where !== NOWHERE && canReach(state, unit, person, cap)) return true;
  }
  return state.shift.overtime === OVERTIME_TARGET && arrivalCanReach(state, person, cap);
}

/**
 * Walks forward from where the unit is: waits on the way take their remaining or planned time, the work of
 * others its mean. What is left of a piece in hand nobody knows; it counts from now.
 */
function canReach(state: CellState, unit: Unit, person: Person, cap: number): boolean {
  const where = unit.where;
  const untilEmpty = state.shift.overtime === OVERTIME_EMPTY;
  if (where === OUTSIDE && untilEmpty) return false;
  if (where === IN_LINE && untilEmpty && isNew(state, unit, unit.step!)) return false;
  let step = where === BLOCKED || where === ASIDE || where === OUTSIDE ? unit.to! : unit.step!;
  let time = state.now;
  if (where === ASIDE || where === IN_WAIT) time = unit.ends;
  if (where === IN_WAIT || where === IN_HAND) step = step.tasks[unit.product]!.next;
  return reaches(state, unit.product, step, time, person, cap);
}

function reaches(
  state: CellState,
  product: i32,
  from: Step,
  earliest: number,
  person: Person,
  cap: number,
): boolean {
  let time = earliest;
  let step = from;
  while (step !== state.out) {
    const task = step.tasks[product]!;
    if (time >= cap) return false;
    if (!step.hands) {
      time += Math.floor(task.planned * task.plannedScale + 0.5);
    } else {
      if ((person.coverMask & step.bit) !== 0) {
        const factor: number = person.factor[step.index]!;
        const planned = Math.floor(task.planned * task.plannedScale * factor + 0.5);
        const opens = step.opens(time);
        if (opens < cap && opens + planned <= cap - state.shift.tidyUp) return true;
      }
      time += Math.floor(task.mean * task.plannedScale + 0.5);
    }
    step = task.next;
  }
  return false;
}

function arrivalCanReach(state: CellState, person: Person, cap: number): boolean {
  const next = state.nextArrival;
  if (next >= cap) return false;
  const enters = state.shift.enters;
  for (let product = 0; product < enters.length; product++) {
    if (reaches(state, product, enters[product]!, next, person, cap)) return true;
  }
  return false;
}

/**
 * Once the starts of an instant are done: who is past their end with nothing left to do goes, after tidying
 * up.
 */
export function settleEnded(state: CellState): void {
  const people = state.people;
  for (let i = 0; i < people.length; i++) {
    const person = people[i]!;
    if (person.ended === 0) continue;
    if (person.at === BUSY && person.piece!.where === PUT_DOWN && !overtimeGoesOn(state, person, true)) {
      // Nobody waits for a partner once the overtime is over; others may take the piece up at this instant.
      abandon(state, person);
      state.plan(state.now, RANK_PEOPLE, NOTHING, 0, 0);
    }
    if (person.at !== IDLE || overtimeGoesOn(state, person, false)) continue;
    // Where the target was met before their end, the ordinary tidy-up before it held again.
    const tidied = person.lastPiece + state.shift.tidyUp;
    const until: number = person.ended === ENDED_IN_OVERTIME ? tidied : state.now;
    if (until <= state.now) {
      leave(state, person);
      continue;
    }
    state.setAt(person, LEAVING);
    tellPerson(state, person, TIDYING);
    state.events.plan(until, personOrder(person.index, LEAVE), LEAVE, person.index, 0);
  }
}

export function leave(state: CellState, person: Person): void {
  state.setAt(person, LEFT);
  state.present--;
  person.piece = null;
  tellPerson(state, person, GONE);
}

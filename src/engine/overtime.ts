/** The end of the day: who stays for overtime and how long, tidying up, leaving. */
import { abandon, tellPerson } from './left-pieces.ts';
import { isNew, overtimeInForce } from './may-start.ts';
import { LEAVE, NOTHING, personOrder, RANK_PEOPLE } from './ranks.ts';
import { GONE, TIDYING } from './recorder.ts';
import {
  ASIDE,
  BLOCKED,
  BUSY,
  ENDED_IN_OVERTIME,
  IDLE,
  IN_HAND,
  IN_LINE,
  IN_WAIT,
  LEAVING,
  LEFT,
  OUTSIDE,
  PUT_DOWN,
  setAt,
  type CellState,
  type Person,
  type Step,
  type Unit,
} from './state.ts';
import { OVERTIME_EMPTY, OVERTIME_TARGET } from './tables.ts';

/**
 * After their own end: is anything left, at or upstream of what they cover, that can reach them before the
 * cap? `busy`: besides their own piece.
 */
export const overtimeGoesOn = (state: CellState, person: Person, busy = false): boolean => {
  if (!person.mayOvertime || !overtimeInForce(state)) return false;
  const cap = person.to + state.cell.overtimeCap;
  if (state.now >= cap) return false;
  if (busy) return true;
  for (let i = 0; i < state.top; i++) {
    const unit = state.units[i]!;
    if (unit.where !== 0 && canReach(state, unit, person, cap)) return true;
  }
  return state.cell.overtime === OVERTIME_TARGET && arrivalCanReach(state, person, cap);
};

/** Walks forward from where the unit is; waits on the way take at least their remaining or planned time. */
const canReach = (state: CellState, unit: Unit, person: Person, cap: number): boolean => {
  const { cell } = state;
  const { where } = unit;
  if (where === OUTSIDE && cell.overtime === OVERTIME_EMPTY) return false;
  if (where === IN_LINE && cell.overtime === OVERTIME_EMPTY && isNew(state, unit, unit.step!)) return false;
  let step = (where === BLOCKED || where === ASIDE || where === OUTSIDE ? unit.to : unit.step)!;
  let time = state.now;
  if (where === ASIDE) time = unit.ends;
  if (where === IN_WAIT) time = unit.ends;
  if (where === IN_WAIT || where === IN_HAND) step = step.tasks[unit.product]!.next;
  return reaches(state, unit.product, step, time, person, cap);
};

const reaches = (
  state: CellState,
  product: number,
  from: Step,
  earliest: number,
  person: Person,
  cap: number,
): boolean => {
  let time = earliest;
  let step = from;
  while (step !== state.out) {
    const task = step.tasks[product]!;
    if (time >= cap) return false;
    if (!step.hands) {
      time += Math.floor(task.planned * task.plannedScale + 0.5);
    } else if ((person.coverMask & step.bit) !== 0) {
      const planned = task.planned * task.plannedScale * person.factor[step.index]!;
      if (time <= step.lastStart && (!step.whole || time + planned <= cap)) return true;
    }
    step = task.next;
  }
  return false;
};

const arrivalCanReach = (state: CellState, person: Person, cap: number): boolean => {
  const next = state.nextArrival;
  if (!(next < cap)) return false;
  const { products } = state.cell;
  for (let product = 0; product < products.count; product++) {
    if (reaches(state, product, state.steps[products.enters[product]!]!, next, person, cap)) return true;
  }
  return false;
};

/**
 * Once the starts of an instant are done: who is past their end with nothing left to do goes, after tidying
 * up.
 */
export const settleEnded = (state: CellState): void => {
  const { tidyUp } = state.cell;
  for (const person of state.people) {
    if (person.ended === 0) continue;
    if (person.at === BUSY && person.piece!.where === PUT_DOWN && !overtimeGoesOn(state, person, true)) {
      // Nobody waits for a partner once the overtime is over; others may take the piece up at this instant.
      abandon(state, person);
      state.plan(state.now, RANK_PEOPLE, NOTHING, 0, 0);
    }
    if (person.at !== IDLE || overtimeGoesOn(state, person)) continue;
    // Where the target was met before their end, the ordinary tidy-up before it held again.
    const until = person.ended === ENDED_IN_OVERTIME ? person.lastPiece + tidyUp : state.now;
    if (until <= state.now) {
      leave(state, person);
      continue;
    }
    setAt(state, person, LEAVING);
    tellPerson(state, person, TIDYING);
    state.events.plan(until, personOrder(person.index, LEAVE), LEAVE, person.index, 0);
  }
};

export const leave = (state: CellState, person: Person): void => {
  setAt(state, person, LEFT);
  state.present--;
  person.piece = null;
  tellPerson(state, person, GONE);
};

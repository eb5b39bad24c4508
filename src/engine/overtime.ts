/** The end of the day: who stays for overtime and how long, tidying up, leaving. */
import { abandon, tellPerson } from './people.ts';
import { LEAVE, NOTHING, personOrder, RANK_PEOPLE } from './ranks.ts';
import { GONE, TIDYING } from './recorder.ts';
import { isNew } from './starts.ts';
import { ASIDE, BLOCKED, BUSY, ENDED_IN_OVERTIME, IDLE, IN_HAND, IN_LINE, IN_WAIT, LEAVING, LEFT, OUTSIDE, PUT_DOWN, setAt, type CellState, type Unit } from './state.ts';
import { OVERTIME_EMPTY, OVERTIME_NONE, OVERTIME_TARGET } from './tables.ts';

/** Is there (still) overtime to be had at all? */
export function overtimeInForce(state: CellState): boolean {
  const policy = state.cell.overtime;
  return policy !== OVERTIME_NONE && !(policy === OVERTIME_TARGET && state.targetReached);
}

/** After their own end: is anything left, at or upstream of what they cover, that can reach them before the cap? `busy`: besides their own piece. */
export function overtimeGoesOn(state: CellState, person: number, busy = false): boolean {
  const { people } = state.cell;
  if (people.mayOvertime[person] === 0 || !overtimeInForce(state)) return false;
  const cap = people.to[person]! + state.cell.overtimeCap;
  if (state.now >= cap) return false;
  if (busy) return true;
  const mask = people.coverMask[state.cover[person]!]!;
  for (let i = 0; i < state.top; i++) {
    const unit = state.units[i]!;
    if (unit.where !== 0 && canReach(state, unit, mask, person, cap)) return true;
  }
  return state.cell.overtime === OVERTIME_TARGET && arrivalCanReach(state, mask, person, cap);
}

/** Walks forward from where the unit is; waits on the way take at least their remaining or planned time. */
function canReach(state: CellState, unit: Unit, mask: number, person: number, cap: number): boolean {
  const { cell } = state;
  const { steps } = cell;
  const where = unit.where;
  const after = (step: number): number => cell.products.next[unit.product * steps.count + step]!;
  if (where === OUTSIDE && cell.overtime === OVERTIME_EMPTY) return false;
  if (where === IN_LINE && cell.overtime === OVERTIME_EMPTY && isNew(state, unit, unit.step)) return false;
  let step = where === BLOCKED || where === ASIDE || where === OUTSIDE ? unit.to : unit.step;
  let time = state.now;
  if (where === ASIDE) time = unit.ends;
  if (where === IN_WAIT) time = unit.ends;
  if (where === IN_WAIT || where === IN_HAND) step = after(step);
  return reaches(state, unit.product, step, time, mask, person, cap);
}

function reaches(state: CellState, product: number, from: number, earliest: number, mask: number, person: number, cap: number): boolean {
  const { steps, products, people } = state.cell;
  let time = earliest;
  for (let step = from; step < steps.count; step = products.next[product * steps.count + step]!) {
    const at = product * steps.count + step;
    if (time >= cap) return false;
    if (steps.hands[step] === 0) {
      time += Math.floor(products.planned[at]! * products.scale[at]! + 0.5);
      continue;
    }
    if ((mask & (1 << step)) === 0) continue;
    const planned = products.planned[at]! * products.scale[at]! * people.factor[person * steps.count + step]!;
    if (time <= steps.lastStart[step]! && (steps.whole[step] === 0 || time + planned <= cap)) return true;
  }
  return false;
}

function arrivalCanReach(state: CellState, mask: number, person: number, cap: number): boolean {
  const next = state.nextArrival;
  if (!(next < cap)) return false;
  const { products } = state.cell;
  for (let product = 0; product < products.count; product++) {
    if (reaches(state, product, products.enters[product]!, next, mask, person, cap)) return true;
  }
  return false;
}

/** Once the starts of an instant are done: who is past their end with nothing left to do goes, after tidying up. */
export function settleEnded(state: CellState): void {
  const { people, tidyUp } = state.cell;
  for (let person = 0; person < people.count; person++) {
    if (state.ended[person] === 0) continue;
    if (state.at[person] === BUSY && state.piece[person]!.where === PUT_DOWN && !overtimeGoesOn(state, person, true)) {
      // Nobody waits for a partner once the overtime is over; others may take the piece up at this instant.
      abandon(state, person);
      state.plan(state.now, RANK_PEOPLE, NOTHING, 0, 0);
    }
    if (state.at[person] !== IDLE || overtimeGoesOn(state, person)) continue;
    // Where the target was met before their end, the ordinary tidy-up before it held again.
    const until = state.ended[person] === ENDED_IN_OVERTIME ? state.lastPiece[person]! + tidyUp : state.now;
    if (until <= state.now) {
      leave(state, person);
      continue;
    }
    setAt(state, person, LEAVING);
    tellPerson(state, person, TIDYING);
    state.events.plan(until, personOrder(person, LEAVE), LEAVE, person, 0);
  }
}

export function leave(state: CellState, person: number): void {
  setAt(state, person, LEFT);
  state.present--;
  state.piece[person] = null;
  tellPerson(state, person, GONE);
}

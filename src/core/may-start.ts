/** Whether somebody may begin a piece now: time rules, planned time, the second pair of hands, overtime. */
import { IDLE, type Person } from './resources.ts';
import type { Step } from './steps.ts';
import type { Unit } from './units.ts';
import { type CellState, OVERTIME_NONE, OVERTIME_TARGET } from './state.ts';

/** Is there (still) overtime to be had at all? */
export function overtimeInForce(state: CellState): boolean {
  const policy = state.shift.overtime;
  return policy !== OVERTIME_NONE && !(policy === OVERTIME_TARGET && state.targetReached);
}

export function isNew(state: CellState, unit: Unit, step: Step): boolean {
  return state.shift.enters[unit.product] === step && unit.visits[step.index] === 0;
}

/** The first other free person who covers the step, where it fits both at the pace of the slower. */
export function secondFor(
  state: CellState,
  person: Person,
  step: Step,
  unit: Unit,
  left: boolean,
): Person | null {
  const people = state.people;
  for (let i = 0; i < people.length; i++) {
    const other = people[i]!;
    if (other === person || other.at !== IDLE || (other.coverMask & step.bit) === 0) continue;
    if (fits(state, other, person, step, unit, left) && fits(state, person, other, step, unit, left))
      return other;
  }
  return null;
}

/**
 * May this person begin this piece now? Rules of time, tidy-up and end of the day; a whole piece must end
 * before they stop.
 */
export function fits(
  state: CellState,
  person: Person,
  second: Person | null,
  step: Step,
  unit: Unit,
  left: boolean,
): boolean {
  const now = state.now;
  if (!left && step.opens(now) !== now) return false;
  if (now < person.tidyFrom && !step.whole) return true;
  const overtime = person.mayOvertime && overtimeInForce(state);
  if (overtime ? now >= person.to + state.shift.overtimeCap : now >= person.tidyFrom) return false;
  const needed: number = left ? unit.ends : plannedTime(person, second, step, unit);
  // A cap is a cap: what is begun in overtime ends by plan so that tidying up is over by then too.
  if (now >= person.tidyFrom && now + needed > lastEnd(state, person)) return false;
  return !step.whole || now + needed <= nextStop(state, person, overtime);
}

/** When the last piece of their overtime has to be over. */
export function lastEnd(state: CellState, person: Person): number {
  return person.to + state.shift.overtimeCap - state.shift.tidyUp;
}

/** Their next time off, or what comes before it: their own end, or the last of their overtime. */
export function nextStop(state: CellState, person: Person, overtime: boolean): number {
  const last: number = overtime ? Math.max(person.to, lastEnd(state, person)) : person.to;
  return person.nextOff < person.offs.length ? Math.min(last, person.offs[person.nextOff]!.start) : last;
}

/** Person's factor: the larger of two people's. */
export function factorOf(person: Person, second: Person | null, step: Step): number {
  const own = person.factor[step.index]!;
  return second === null ? own : Math.max(own, second.factor[step.index]!);
}

/** Whole ms reckoned with for this visit: the mean or the percentile of the step, with all factors. */
export function plannedTime(person: Person, second: Person | null, step: Step, unit: Unit): number {
  const task = step.tasks[unit.product]!;
  const base = unit.visits[step.index] === 0 ? task.planned : task.plannedRepeat;
  return Math.floor(base * task.plannedScale * factorOf(person, second, step) + 0.5);
}

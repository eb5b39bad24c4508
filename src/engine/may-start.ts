/** Whether somebody may begin a piece now: time rules, planned time, the second pair of hands, overtime. */
import { IDLE, type CellState, type Person, type Step, type Unit } from './state.ts';
import { OVERTIME_NONE, OVERTIME_TARGET } from './tables.ts';

/** Is there (still) overtime to be had at all? */
export const overtimeInForce = (state: CellState): boolean => {
  const policy = state.cell.overtime;
  return policy !== OVERTIME_NONE && !(policy === OVERTIME_TARGET && state.targetReached);
};

export const isNew = (state: CellState, unit: Unit, step: Step): boolean => {
  return state.cell.products.enters[unit.product] === step.index && unit.visits[step.index] === 0;
};

/** The first other free person who covers the step, where it fits both at the pace of the slower. */
export const secondFor = (
  state: CellState,
  person: Person,
  step: Step,
  unit: Unit,
  left: boolean,
): Person | null => {
  for (const other of state.people) {
    if (other === person || other.at !== IDLE || (other.coverMask & step.bit) === 0) continue;
    if (fits(state, other, person, step, unit, left) && fits(state, person, other, step, unit, left))
      return other;
  }
  return null;
};

/**
 * May this person begin this piece now? Last start, tidy-up and end of the day; a whole piece must end before
 * they stop.
 */
export const fits = (
  state: CellState,
  person: Person,
  second: Person | null,
  step: Step,
  unit: Unit,
  left: boolean,
): boolean => {
  const { now } = state;
  if (!left && now > step.lastStart) return false;
  if (now < person.tidyFrom && !step.whole) return true;
  const overtime = person.mayOvertime && overtimeInForce(state);
  if (overtime ? now >= person.to + state.cell.overtimeCap : now >= person.tidyFrom) return false;
  if (!step.whole) return true;
  return (
    now + (left ? unit.ends : plannedTime(person, second, step, unit)) <= nextStop(state, person, overtime)
  );
};

/** Their next time off, or what comes before it: their own end, or the last of their overtime. */
const nextStop = (state: CellState, person: Person, overtime: boolean): number => {
  const { people, overtimeCap } = state.cell;
  const last = overtime ? person.to + overtimeCap : person.to;
  return person.nextOff < people.offFrom[person.index + 1]!
    ? Math.min(last, people.offStart[person.nextOff]!)
    : last;
};

/** Person's factor: the larger of two people's. */
export const factorOf = (person: Person, second: Person | null, step: Step): number => {
  const own = person.factor[step.index]!;
  return second === null ? own : Math.max(own, second.factor[step.index]!);
};

/** Whole ms reckoned with for this visit: the mean or the percentile of the step, with all factors. */
const plannedTime = (person: Person, second: Person | null, step: Step, unit: Unit): number => {
  const task = step.tasks[unit.product]!;
  const base = unit.visits[step.index] === 0 ? task.planned : task.plannedRepeat;
  return Math.floor(base * task.plannedScale * factorOf(person, second, step) + 0.5);
};

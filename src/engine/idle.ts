/** Why somebody is without work: the first missing thing of the first step they cover. */
import { overtimeInForce, fits } from './may-start.ts';
import { tellPerson } from './left-pieces.ts';
import { ownItem } from './gear.ts';
import { headOf, readySteps } from './starts.ts';
import { NO_COVER, NO_FIT, NO_GEAR, NO_HELP, NO_UNIT, NOWHERE, TIDYING } from './recorder.ts';
import {
  BLOCKED,
  IDLE,
  IN_LINE,
  IN_WAIT,
  SHARED_BIT,
  SHARED_FROM,
  type CellState,
  type Person,
  type Step,
  type Unit,
} from './state.ts';

export const tellIdle = (state: CellState): void => {
  const { people } = state;
  const lines = state.lineMask | state.leftMask;
  for (let mask = state.idleMask; mask !== 0; mask &= mask - 1) {
    const index = 31 - Math.clz32(mask & -mask);
    if (index === SHARED_FROM) {
      tellRest(state);
      continue;
    }
    const person = people[index]!;
    // Nothing to work on still: by far the most common.
    if (
      person.told === NO_UNIT &&
      (lines & person.firstBit) === 0 &&
      person.coverMask !== 0 &&
      state.now < person.tidyFrom
    )
      continue;
    tellOne(state, person);
  }
};

const tellRest = (state: CellState): void => {
  const { people } = state;
  let any = false;
  for (let i = SHARED_FROM; i < people.length; i++) {
    if (people[i]!.at !== IDLE) continue;
    tellOne(state, people[i]!);
    any = true;
  }
  if (!any) state.idleMask &= ~SHARED_BIT;
};

const tellOne = (state: CellState, person: Person): void => {
  tellPerson(state, person, reasonOf(state, person));
};

const reasonOf = (state: CellState, person: Person): number => {
  const { steps } = person.cover;
  const tidying = state.cell.tidyUp > 0 && state.now >= person.tidyFrom;
  if (tidying && !(person.mayOvertime && overtimeInForce(state))) return TIDYING;
  if (steps.length === 0) return NO_COVER;
  const step = steps[0]!;
  const left = step.left.first;
  const unit = left ?? headOf(state, step);
  if (unit === null) return NO_UNIT;
  if (left === null && (readySteps(state) & step.bit) === 0) return missingGear(unit, step);
  if (step.pair && fits(state, person, null, step, unit, left !== null)) return NO_HELP;
  return NO_FIT;
};

/**
 * A bench that is held by a piece which cannot move on (blocked, itself the line of the next step, or curing
 * there for want of a place) is "nowhere to put it"; anything else is that gear not being free.
 */
const missingGear = (unit: Unit, step: Step): number => {
  const { uses, takes } = step;
  for (let i = 0; i < uses.length; i++) {
    const kind = uses[i]!;
    if (kind.free > 0 || ownItem(unit, kind) !== null) continue;
    for (let item = 0; item < kind.count; item++) {
      const holder = kind.items[item]!.unit;
      if (
        holder !== null &&
        (holder.where === BLOCKED || holder.where === IN_LINE || holder.where === IN_WAIT)
      )
        return NOWHERE;
    }
    return NO_GEAR + kind.index;
  }
  for (let i = 0; i < takes.length; i++) if (takes[i]!.kind.free <= 0) return NO_GEAR + takes[i]!.kind.index;
  return NO_FIT;
};

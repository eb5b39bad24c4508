/** Why somebody is without work: the first missing thing of the first step they cover. */
import { NO_COVER, NO_FIT, NO_GEAR, NO_HELP, NO_UNIT, NOWHERE_TO_PUT, TIDYING } from './codes.ts';
import type { Person } from './resources.ts';
import type { Step } from './steps.ts';
import { BLOCKED, IN_LINE, IN_WAIT, type Unit } from './units.ts';
import { ownItem } from './gear.ts';
import { tellPerson } from './left-pieces.ts';
import { fits, overtimeInForce } from './may-start.ts';
import { lowestBit } from './platform.ts';
import { headOf, readySteps } from './starts.ts';
import type { CellState } from './state.ts';

export function tellIdle(state: CellState): void {
  const lines: i32 = state.lineMask | state.leftMask;
  for (let word = 0; word < state.words; word++) {
    for (let mask: i32 = state.idle[word]!; mask !== 0; mask &= mask - 1) {
      const person = state.people[(word << 5) + lowestBit(mask)]!;
      // Nothing to work on still: by far the most common.
      if (
        person.told === NO_UNIT &&
        (lines & person.firstBit) === 0 &&
        person.coverMask !== 0 &&
        state.now < person.tidyFrom
      )
        continue;
      tellPerson(state, person, reasonOf(state, person));
    }
  }
}

function reasonOf(state: CellState, person: Person): i32 {
  const steps = person.cover.steps;
  const tidying = state.shift.tidyUp > 0 && state.now >= person.tidyFrom;
  if (tidying && !(person.mayOvertime && overtimeInForce(state))) return TIDYING;
  if (steps.length === 0) return NO_COVER;
  const step = steps[0]!;
  const left = step.left.first;
  const unit = left !== null ? left : headOf(state, step);
  if (unit === null) return NO_UNIT;
  if (left === null && (readySteps(state) & step.bit) === 0) return missingGear(unit, step);
  if (step.pair && fits(state, person, null, step, unit, left !== null)) return NO_HELP;
  return NO_FIT;
}

/**
 * A bench that is held by a piece which cannot move on (blocked, itself the line of the next step, or curing
 * there for want of a place) is "nowhere to put it"; anything else is that gear not being free.
 */
export function missingGear(unit: Unit, step: Step): i32 {
  const uses = step.uses;
  const takes = step.takes;
  for (let i = 0; i < uses.length; i++) {
    const kind = uses[i]!;
    if (kind.free > 0 || ownItem(unit, kind) !== null) continue;
    for (let item = 0; item < kind.count; item++) {
      const holder = kind.items[item]!.unit;
      if (
        holder !== null &&
        (holder.where === BLOCKED || holder.where === IN_LINE || holder.where === IN_WAIT)
      )
        return NOWHERE_TO_PUT;
    }
    return NO_GEAR + kind.index;
  }
  for (let i = 0; i < takes.length; i++) if (takes[i]!.kind.free <= 0) return NO_GEAR + takes[i]!.kind.index;
  return NO_FIT;
}

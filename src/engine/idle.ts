/** Why somebody is without work: the first missing thing of the first step they cover. */
import { ownItem } from './gear.ts';
import { tellPerson } from './people.ts';
import { overtimeInForce } from './overtime.ts';
import { fits, headOf, readySteps } from './starts.ts';
import { NO_COVER, NO_FIT, NO_GEAR, NO_HELP, NO_UNIT, NOWHERE, TIDYING } from './recorder.ts';
import { BLOCKED, IDLE, IN_LINE, IN_WAIT, NONE, type CellState, type Unit } from './state.ts';

export function tellIdle(state: CellState): void {
  if (state.idle === 0) return;
  const { people } = state.cell;
  for (let person = 0; person < people.count; person++) {
    if (state.at[person] === IDLE) tellPerson(state, person, reasonOf(state, person));
  }
}

function reasonOf(state: CellState, person: number): number {
  const { people, tidyUp, steps } = state.cell;
  const cover = state.cover[person]!;
  const tidying = tidyUp > 0 && state.now >= people.to[person]! - tidyUp;
  if (tidying && !(people.mayOvertime[person] !== 0 && overtimeInForce(state))) return TIDYING;
  if (people.coverFrom[cover] === people.coverFrom[cover + 1]) return NO_COVER;
  const step = people.coverSteps[people.coverFrom[cover]!]!;
  const left = state.leftDown[step]!.first;
  const unit = left ?? headOf(state, step);
  if (unit === null) return NO_UNIT;
  if (left === null && (readySteps(state) & (1 << step)) === 0) return missingGear(state, unit, step);
  if (steps.people[step] === 2 && fits(state, person, NONE, step, unit, left !== null)) return NO_HELP;
  return NO_FIT;
}

/** A bench that is held by a piece which cannot move on (blocked, itself the line of the next step, or curing there for want of a place) is "nowhere to put it"; anything else is that gear not being free. */
function missingGear(state: CellState, unit: Unit, step: number): number {
  const { steps, gear, takes } = state.cell;
  for (let i = steps.usesFrom[step]!; i < steps.usesFrom[step + 1]!; i++) {
    const kind = steps.uses[i]!;
    if (state.freeGear[kind]! > 0 || ownItem(state, unit, kind) !== NONE) continue;
    for (let item = gear.firstItem[kind]!; item < gear.firstItem[kind + 1]!; item++) {
      const holder = state.itemUnit[item]!;
      if (holder !== null && (holder.where === BLOCKED || holder.where === IN_LINE || holder.where === IN_WAIT)) return NOWHERE;
    }
    return NO_GEAR + kind;
  }
  for (let i = steps.takesFrom[step]!; i < steps.takesFrom[step + 1]!; i++) {
    const kind = takes.gear[steps.takes[i]!]!;
    if (state.freeGear[kind]! <= 0) return NO_GEAR + kind;
  }
  return NO_FIT;
}

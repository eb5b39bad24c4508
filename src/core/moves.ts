/**
 * Moves of one instant: blocked units into slots that came free, cures onto places of their own, arrivals in
 * from outside.
 */
import { gearAt, gearBefore } from './codes.ts';
import { resolveDeadlock } from './deadlock.ts';
import { IN_WAIT } from './units.ts';
import { putOut, standsAside, stopWanting } from './flow.ts';
import { changePlace, placeIsFree, tellGear } from './gear.ts';
import { comeIn, joinLine, unblock } from './lines.ts';
import type { CellState } from './state.ts';

/** Is there anybody who waits to move? */
// @inline
export function movesAreDue(state: CellState): boolean {
  return state.deadlockDue || state.blocked.length + state.outside.length + state.wantingPlace.count > 0;
}

/** Carries out every move that is possible now. */
export function moves(state: CellState): void {
  if (movesAreDue(state)) moveAll(state);
}

function moveAll(state: CellState): void {
  do {
    if (state.blocked.length > 0) moveBlocked(state);
    if (state.wantingPlace.count > 0) findPlaces(state);
    if (state.outside.length > 0) letIn(state);
  } while (state.deadlockDue && resolveDeadlock(state));
}

/** Blocked longest first. Slots come free by starts alone, so one pass is enough. */
function moveBlocked(state: CellState): void {
  let unit = state.blocked.first;
  while (unit !== null) {
    const next = unit.after;
    const to = unit.to!;
    if (to === state.out) {
      if (state.shift.outRackSize === 0 || state.outRackHere > 0) {
        unblock(state, unit);
        putOut(state, unit);
      }
    } else if (to.hasSlot()) {
      unblock(state, unit);
      joinLine(state, unit, to, true);
    }
    unit = next;
  }
}

/**
 * Units that cure (or have cured) on a bench for want of a place of their own; one that leaves a place may
 * free it for the next.
 */
function findPlaces(state: CellState): void {
  const wanting = state.wantingPlace;
  for (let i: i32 = 0; i < wanting.count; i++) {
    const unit = wanting.at(i);
    const step = unit.wantsPlace!;
    if (!placeIsFree(unit, step)) continue;
    stopWanting(state, unit);
    changePlace(state, unit, step);
    // It may now stand in the place of another that it waits for.
    state.deadlockDue = true;
    tellGear(state, unit, unit.where === IN_WAIT ? gearAt(step.index) : gearBefore(unit.step!.index));
    i = -1;
  }
}

/** Walks along those outside only as far as there is a slot for somebody among them. */
function letIn(state: CellState): void {
  let unit = state.outside.first;
  while (unit !== null && anyMayComeIn(state)) {
    const next = unit.after;
    const step = unit.to!;
    if (step.rack !== 0 && step.hasSlot()) {
      comeIn(state, unit);
      if (!standsAside(state, unit, step)) joinLine(state, unit, step, true);
    }
    unit = next;
  }
}

function anyMayComeIn(state: CellState): boolean {
  const steps = state.steps;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    if (step.outside > 0 && step.rack !== 0 && step.hasSlot()) return true;
  }
  return false;
}

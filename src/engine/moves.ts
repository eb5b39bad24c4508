/**
 * Moves of one instant: blocked units into slots that came free, cures onto places of their own, arrivals in
 * from outside.
 */
import { changePlace, placeIsFree, tellGear } from './gear.ts';
import { changePlaces } from './circles.ts';
import { standsAside, stopWanting, putOut } from './flow.ts';
import { comeIn, hasSlot, joinLine, unblock } from './lines.ts';
import { gearAt, gearBefore } from './recorder.ts';
import { IN_WAIT, type CellState } from './state.ts';

/** Carries out every move that is possible now. */
export const moves = (state: CellState): void => {
  if (state.circleDue || state.blocked.length + state.outside.length + state.wantingPlace.length > 0)
    moveAll(state);
};

const moveAll = (state: CellState): void => {
  do {
    moveBlocked(state);
    if (state.wantingPlace.length > 0) findPlaces(state);
    if (state.outside.first !== null) letIn(state);
  } while (state.circleDue && changePlaces(state));
};

/** Blocked longest first. Slots come free by starts alone, so one pass is enough. */
const moveBlocked = (state: CellState): void => {
  const { cell } = state;
  let unit = state.blocked.first;
  while (unit !== null) {
    const next = unit.after;
    const to = unit.to!;
    if (to === state.out) {
      if (cell.shift.outRack === null || state.outRackHere > 0) {
        unblock(state, unit);
        putOut(state, unit);
      }
    } else if (hasSlot(to)) {
      unblock(state, unit);
      joinLine(state, unit, to, true);
    }
    unit = next;
  }
};

/**
 * Units that cure (or have cured) on a bench for want of a place of their own; one that leaves a place may
 * free it for the next.
 */
const findPlaces = (state: CellState): void => {
  const wanting = state.wantingPlace;
  for (let i = 0; i < wanting.length; i++) {
    const unit = wanting[i]!;
    const step = unit.wantsPlace!;
    if (!placeIsFree(unit, step)) continue;
    stopWanting(state, unit);
    changePlace(state, unit, step);
    // It may now stand in the place of another that it waits for.
    state.circleDue = true;
    tellGear(state, unit, unit.where === IN_WAIT ? gearAt(step.index) : gearBefore(unit.step!.index));
    i = -1;
  }
};

/** Walks along those outside only as far as there is a slot for somebody among them. */
const letIn = (state: CellState): void => {
  let unit = state.outside.first;
  while (unit !== null && anyMayComeIn(state)) {
    const next = unit.after;
    const step = unit.to!;
    if (step.rack !== 0 && hasSlot(step)) {
      comeIn(state, unit);
      if (!standsAside(state, unit, step)) joinLine(state, unit, step, true);
    }
    unit = next;
  }
};

const anyMayComeIn = (state: CellState): boolean => {
  const { steps } = state;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    if (step.outside > 0 && step.rack !== 0 && hasSlot(step)) return true;
  }
  return false;
};

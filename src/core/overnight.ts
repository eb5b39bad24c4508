/** From the end of one shift to the start of the next. */
import type { GearItem, GearKind } from './resources.ts';
import { NONE, PUT_DOWN, type Unit } from './units.ts';
import { planFailure, resetGear, takeItem } from './gear.ts';
import { leaveDown } from './left-pieces.ts';
import type { List } from './platform.ts';
import { END_WAIT, GEAR_BACK, GEAR_FAILS, RACK_BACK, RANK_ENDS, RANK_RETURNS, RELEASE } from './ranks.ts';
import type { CellState, Shift } from './state.ts';

/**
 * Waits and holds run on by the clock on the wall, everything else stands where it stood. Times of units are
 * moved so that 0 is the new start and the night counts in none of them. `shift` has been entered; the one
 * before had so many out-racks. Where units hold more of a kind of gear than there is now,
 * `state.tooFew` is that kind.
 */
export function carryOn(state: CellState, shift: Shift, racksBefore: i32): void {
  const worked = state.now;
  replan(state, shift, worked);
  const inside = state.unitsInside();
  for (let i = 0; i < inside.count; i++) {
    const unit = inside.at(i);
    unit.stoodHere = true;
    unit.arrival -= worked;
    unit.firstStart -= worked;
    unit.since -= worked;
    unit.due -= shift.night;
    if (unit.where === PUT_DOWN && unit.person !== null) leaveDown(state, unit);
    // People are numbered by each shift's own crew.
    for (let step = 0; step < state.steps.length; step++) {
      const by: i32 = unit.lastBy[step]!;
      if (by !== NONE) unit.lastBy[step] = shift.sameAs[by]!;
    }
  }
  if (!shift.sameGear) renumberGear(state);
  // A part-filled out-rack has waited what it has waited; this shift may have more racks, or fewer.
  state.outRackFirst -= worked;
  state.outRackTimes -= state.outRackUnits * worked;
  state.outRackHere += shift.outRacks - racksBefore;
}

/** What was planned beyond the end of the last shift, planned in the same order from the new start. */
function replan(state: CellState, shift: Shift, worked: number): void {
  const planned = state.events;
  const events = state.planned;
  events.clear();
  state.events = events;
  state.planned = planned;
  state.now = 0;
  while (planned.end > planned.first) {
    const time = planned.nextTime();
    planned.take();
    const kind = planned.kind;
    const a = planned.a;
    const b = planned.b;
    if (kind === END_WAIT || kind === RELEASE) {
      const unit = state.units.at(a);
      if (unit.token !== b) continue;
      unit.ends = Math.max(0, time - shift.night);
      state.plan(unit.ends, kind === END_WAIT ? RANK_ENDS : RANK_RETURNS, kind, a, b);
    } else if (kind === RACK_BACK || (shift.sameGear && (kind === GEAR_BACK || kind === GEAR_FAILS))) {
      state.plan(time - worked, RANK_RETURNS, kind, a, b);
    }
  }
}

/**
 * The next shift may have more or fewer of a kind: what units hold is taken again by its numbers. What was
 * out of order is mended by then.
 */
function renumberGear(state: CellState): void {
  const inside = state.found;
  state.tooFew = null;
  for (let i = 0; i < state.allKinds.length; i++) state.allKinds[i]!.standingOver = 0;
  for (let i = 0; i < inside.count; i++) inside.at(i).held = 0;
  resetGear(state);
  for (let i = 0; i < inside.count; i++) {
    const unit = inside.at(i);
    takeAgain(state, unit, unit.place);
    takeAgain(state, unit, unit.taken);
  }
  for (let i = 0; i < state.kinds.length; i++) {
    const kind = state.kinds[i]!;
    for (let item = 0; item < kind.count; item++) planFailure(state, kind.items[item]!);
  }
}

function takeAgain(state: CellState, unit: Unit, items: List<GearItem | null>): void {
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!;
    if (item === null) continue;
    const kind = item.kind;
    kind.standingOver++;
    if (mayTake(kind)) {
      items[i] = takeItem(state, kind, unit);
    } else {
      items[i] = null;
      if (state.tooFew === null) state.tooFew = kind;
    }
  }
}

function mayTake(kind: GearKind): boolean {
  return kind.index !== NONE && kind.free > 0;
}

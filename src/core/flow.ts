/** How units get on: ends of steps and waits, outcomes, moving on, holds, the out-rack, leaving. */
import { gearAt, gearBefore, ON, REWORK, SCRAP } from './codes.ts';
import { drawVisit } from './draws.ts';
import type { Step } from './steps.ts';
import { ASIDE, IN_WAIT, NONE, type Unit } from './units.ts';
import {
  changePlace,
  freeAfter,
  freeAll,
  freeOnReturn,
  hasPlace,
  leavePlace,
  placeIsFree,
  tellGear,
} from './gear.ts';
import { block, joinLine } from './lines.ts';
import type { Integers } from './platform.ts';
import { uniform } from './random.ts';
import { ARRIVAL, END_WAIT, RACK_BACK, RANK_ARRIVALS, RANK_ENDS, RANK_RETURNS, RELEASE } from './ranks.ts';
import { type CellState, CONSTANT } from './state.ts';

/** The branch taken at the end of a step: its index, NONE for on, or -2 for scrap. */
const SCRAPPED: i32 = -2;
function branchOf(unit: Unit, step: Step, state: CellState): i32 {
  const branches = step.branches;
  const luck = uniform(unit.luck);
  let reached: number = 0;
  for (let i = 0; i < branches.length; i++) {
    const branch = branches[i]!;
    reached += branch.byPerson ? branch.share * reworkFactor(state, unit, branch.to) : branch.share;
    if (luck < reached) return i;
  }
  return luck < reached + step.scrap ? SCRAPPED : NONE;
}

/** Of whoever did the step on this unit last. */
function reworkFactor(state: CellState, unit: Unit, step: Step): number {
  const by: i32 = unit.lastBy[step.index]!;
  return by === NONE ? 1 : state.people[by]!.reworkFactor[step.index]!;
}

/**
 * A unit has ended a step or wait: frees what is freed there, decides the outcome, tells it and moves the
 * unit on.
 */
export function endStep(state: CellState, unit: Unit, step: Step): void {
  const branch = step.alwaysOn ? NONE : branchOf(unit, step, state);
  const outcome = branch === NONE ? ON : branch === SCRAPPED ? SCRAP : REWORK;
  const person: i32 = step.hands ? unit.person!.index : NONE;
  state.recorder.finish(state.now, unit, step, person, outcome, branch < 0 ? NONE : branch);
  if (step.frees.length > 0) freeAfter(state, unit, step);
  if (branch === NONE) moveOn(state, unit, step, step.tasks[unit.product]!.next);
  else turnAway(state, unit, step, branch);
}

/** Back to a step, or scrapped. */
function turnAway(state: CellState, unit: Unit, step: Step, branch: i32): void {
  if (branch === SCRAPPED) {
    state.recorder.scrap(state.now, unit);
    leaveCell(state, unit);
    return;
  }
  const to = step.branches[branch]!.to;
  freeOnReturn(state, unit, to);
  moveOn(state, unit, step, to);
}

/** The unit goes on to a step (or out): moves if it can, otherwise is blocked where it stands. */
function moveOn(state: CellState, unit: Unit, from: Step, to: Step): void {
  const staysWhereItIs = !from.hands && to !== state.out && to.position > from.position;
  if (unit.wantsPlace !== null && !(staysWhereItIs && to.hands)) stopWanting(state, unit);
  if (to === state.out) {
    if (!putOut(state, unit)) block(state, unit, from, to);
  } else if (state.shift.holds.length > 0 && standsAside(state, unit, to)) {
    if (unit.wantsPlace !== null) stopWanting(state, unit);
    leavePlace(state, unit);
  } else if (!to.hands) {
    startWait(state, unit, to, NONE);
  } else if (staysWhereItIs || to.rack === 0) {
    joinLine(state, unit, to, false);
    if (hasPlace(unit)) state.deadlockDue = true;
  } else if (to.hasSlot()) {
    leavePlace(state, unit);
    joinLine(state, unit, to, true);
  } else {
    block(state, unit, from, to);
  }
}

/**
 * A wait starts at once, wherever the unit stands; `duration` (or NONE) where part of it is over already.
 */
export function startWait(state: CellState, unit: Unit, step: Step, duration: number): void {
  const drawn = drawVisit(state, unit, step, 1);
  const whole = duration === NONE ? drawn : duration;
  unit.where = IN_WAIT;
  unit.since = state.now;
  unit.step = step;
  findPlace(state, unit, step);
  tellGear(state, unit, gearAt(step.index));
  state.recorder.waitStart(state.now, unit, step, whole);
  unit.ends = state.now + whole;
  state.plan(state.now + whole, RANK_ENDS, END_WAIT, unit.index, unit.token);
}

/**
 * A wait without gear leaves a bench free at once (but a slot of an earlier wait is kept); one with gear
 * takes its own, or queues for it.
 */
function findPlace(state: CellState, unit: Unit, step: Step): void {
  if (step.uses.length === 0) {
    if (hasPlace(unit) && !standsInWaitPlace(unit)) leavePlace(state, unit);
  } else if (state.wantingPlace.count === 0 && placeIsFree(unit, step)) {
    changePlace(state, unit, step);
  } else {
    // Behind those who want one already; the moves of this instant see to it.
    unit.wantsPlace = step;
    state.wantingPlace.push(unit);
    state.deadlockDue = true;
  }
}

/** Is the place of the unit the gear of a wait (a slot it cured in), rather than a bench? */
function standsInWaitPlace(unit: Unit): boolean {
  const place = unit.place;
  for (let i = 0; i < place.length; i++) {
    const item = place[i]!;
    if (item !== null && item.kind.holdsWaits) return true;
  }
  return false;
}

export function stopWanting(state: CellState, unit: Unit): void {
  unit.wantsPlace = null;
  state.wantingPlace.removeAt(state.wantingPlace.indexOf(unit));
}

/** Holds: does the unit stand aside before this step now? Then it does. */
export function standsAside(state: CellState, unit: Unit, step: Step): boolean {
  const holds = state.shift.holds;
  let until: number = -Infinity;
  for (let i = 0; i < holds.length; i++) {
    const hold = holds[i]!;
    if (hold.before !== step.index || hold.until <= state.now) continue;
    if (hold.product !== NONE && hold.product !== unit.product) continue;
    const names = hold.names;
    if (names !== null && !contains(names, unit.name)) continue;
    until = Math.max(until, hold.until);
  }
  if (until === -Infinity) return false;
  unit.where = ASIDE;
  unit.step = step;
  unit.to = step;
  unit.ends = until;
  state.aside.append(unit);
  tellGear(state, unit, gearBefore(step.index));
  state.recorder.standAside(state.now, unit, step);
  state.plan(until, RANK_RETURNS, RELEASE, unit.index, unit.token);
  return true;
}

function contains(array: Integers, value: i32): boolean {
  for (let i = 0; i < array.length; i++) if (array[i] === value) return true;
  return false;
}

export function release(state: CellState, unit: Unit): void {
  const step = unit.to!;
  state.aside.remove(unit);
  state.recorder.release(state.now, unit, step);
  if (!step.hands) startWait(state, unit, step, NONE);
  else if (step.rack === 0) joinLine(state, unit, step, false);
  else if (step.hasSlot()) joinLine(state, unit, step, true);
  else block(state, unit, step, step);
}

/** Onto the out-rack, if one is there. */
export function putOut(state: CellState, unit: Unit): boolean {
  const size = state.shift.outRackSize;
  const now = state.now;
  if (size > 0 && state.outRackHere === 0) return false;
  if (state.shift.returned[unit.product] !== 0) state.recorder.again(now, unit);
  else countGood(state, unit);
  if (size > 0) fillRack(state, size);
  leaveCell(state, unit);
  return true;
}

function countGood(state: CellState, unit: Unit): void {
  state.recorder.good(state.now, unit);
  state.goods++;
  if (state.goods !== state.shift.target) return;
  state.targetReached = true;
  state.recorder.targetMet(state.now);
}

function fillRack(state: CellState, size: i32): void {
  const now = state.now;
  if (state.outRackUnits === 0) state.outRackFirst = now;
  state.outRackUnits++;
  state.outRackTimes += now;
  if (state.outRackUnits < size) return;
  state.recorder.rackSent(now, now - state.outRackFirst, now * state.outRackUnits - state.outRackTimes);
  state.outRackUnits = 0;
  state.outRackTimes = 0;
  state.outRackHere--;
  state.plan(now + state.shift.outRackBack, RANK_RETURNS, RACK_BACK, 0, 0);
}

/** Good or scrap: everything it holds is free; with a constant number inside, the next one comes in. */
function leaveCell(state: CellState, unit: Unit): void {
  if (unit.wantsPlace !== null) stopWanting(state, unit);
  freeAll(state, unit);
  state.dropUnit(unit);
  state.inside--;
  if (state.shift.intake === CONSTANT) state.plan(state.now, RANK_ARRIVALS, ARRIVAL, 0, 0);
}

/** How units get on: ends of steps and waits, outcomes, moving on, holds, the out-rack, leaving. */
import { drawVisit } from './draws.ts';
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
import { block, hasSlot, joinLine } from './lines.ts';
import { uniform } from '../random/threefry.ts';
import { ARRIVAL, END_WAIT, RACK_BACK, RANK_ARRIVALS, RANK_ENDS, RANK_RETURNS, RELEASE } from './ranks.ts';
import { gearAt, gearBefore, ON, REWORK, SCRAP } from './recorder.ts';
import {
  append,
  ASIDE,
  dropUnit,
  IN_WAIT,
  NONE,
  remove,
  type CellState,
  type Step,
  type Unit,
} from './state.ts';

/** The branch taken at the end of a step: its index, NONE for on, or -2 for scrap. */
const SCRAPPED = -2;
const branchOf = (state: CellState, unit: Unit, step: Step): number => {
  const { branches } = step;
  const luck = uniform(unit.luck);
  let reached = 0;
  for (let branch = 0; branch < branches.length; branch++) {
    const { to, share, byPerson } = branches[branch]!;
    reached += byPerson ? share * reworkFactor(state, unit, to) : share;
    if (luck < reached) return branch;
  }
  return luck < reached + step.scrap ? SCRAPPED : NONE;
};

/** Of whoever did the step on this unit last. */
const reworkFactor = (state: CellState, unit: Unit, step: Step): number => {
  const by = unit.lastBy[step.index]!;
  return by === NONE ? 1 : state.cell.people.reworkFactor[by * state.steps.length + step.index]!;
};

/**
 * A unit has ended a step or wait: frees what is freed there, decides the outcome, tells it and moves the
 * unit on.
 */
export const endStep = (state: CellState, unit: Unit, step: Step): void => {
  const { recorder } = state;
  const branch = step.alwaysOn ? NONE : branchOf(state, unit, step);
  const outcome = branch === NONE ? ON : branch === SCRAPPED ? SCRAP : REWORK;
  const told = branch < 0 ? NONE : branch;
  if (step.hands) recorder.finish(state.now, unit.number, step.index, unit.person!.index, outcome, told);
  else recorder.waitEnd(state.now, unit.number, step.index, outcome, told);
  if (step.frees.length > 0) freeAfter(state, unit, step);
  if (branch === NONE) moveOn(state, unit, step, step.tasks[unit.product]!.next);
  else turnAway(state, unit, step, branch);
};

/** Back to a step, or scrapped. */
const turnAway = (state: CellState, unit: Unit, step: Step, branch: number): void => {
  if (branch === SCRAPPED) {
    state.recorder.scrap(state.now, unit.number);
    leaveCell(state, unit);
    return;
  }
  const { to } = step.branches[branch]!;
  freeOnReturn(state, unit, to);
  moveOn(state, unit, step, to);
};

/** The unit goes on to a step (or out): moves if it can, otherwise is blocked where it stands. */
const moveOn = (state: CellState, unit: Unit, from: Step, to: Step): void => {
  if (from.hands && to.hands && to !== state.out && to.rack !== 0 && !state.hasHolds) {
    // From hands to hands by way of a rack: nearly every move there is.
    if (to.rack < 0 || to.inSlots < to.rack) {
      leavePlace(state, unit);
      joinLine(state, unit, to, true);
    } else {
      block(state, unit, from, to);
    }
  } else {
    moveOnOtherwise(state, unit, from, to);
  }
};

const moveOnOtherwise = (state: CellState, unit: Unit, from: Step, to: Step): void => {
  const staysWhereItIs = !from.hands && to !== state.out && to.position > from.position;
  if (unit.wantsPlace !== null && !(staysWhereItIs && to.hands)) stopWanting(state, unit);
  if (to === state.out) {
    if (!putOut(state, unit)) block(state, unit, from, to);
  } else if (state.hasHolds && standsAside(state, unit, to)) {
    if (unit.wantsPlace !== null) stopWanting(state, unit);
    leavePlace(state, unit);
  } else if (!to.hands) {
    startWait(state, unit, to);
  } else if (staysWhereItIs || to.rack === 0) {
    joinLine(state, unit, to, false);
    if (hasPlace(unit)) state.circleDue = true;
  } else if (hasSlot(to)) {
    leavePlace(state, unit);
    joinLine(state, unit, to, true);
  } else {
    block(state, unit, from, to);
  }
};

/** A wait starts at once, wherever the unit stands; `duration` where part of it is over already. */
export const startWait = (state: CellState, unit: Unit, step: Step, duration = NONE): void => {
  const { index } = step;
  const drawn = drawVisit(state, unit, step, 1);
  const whole = duration === NONE ? drawn : duration;
  unit.where = IN_WAIT;
  unit.since = state.now;
  unit.step = step;
  findPlace(state, unit, step);
  tellGear(state, unit, gearAt(index));
  state.recorder.waitStart(state.now, unit.number, index, whole);
  unit.ends = state.now + whole;
  state.plan(state.now + whole, RANK_ENDS, END_WAIT, unit.index, unit.token);
};

/**
 * A wait without gear leaves a bench free at once (but a slot of an earlier wait is kept); one with gear
 * takes its own, or queues for it.
 */
const findPlace = (state: CellState, unit: Unit, step: Step): void => {
  if (step.uses.length === 0) {
    if (hasPlace(unit) && !standsInWaitPlace(unit)) leavePlace(state, unit);
  } else if (state.wantingPlace.length === 0 && placeIsFree(unit, step)) {
    changePlace(state, unit, step);
  } else {
    // Behind those who want one already; the moves of this instant see to it.
    unit.wantsPlace = step;
    state.wantingPlace.push(unit);
    state.circleDue = true;
  }
};

/** Is the place of the unit the gear of a wait (a slot it cured in), rather than a bench? */
const standsInWaitPlace = (unit: Unit): boolean => {
  const { place } = unit;
  for (let i = 0; i < place.length; i++) if (place[i] !== null && place[i]!.kind.holdsWaits) return true;
  return false;
};

export const endWait = (state: CellState, unit: Unit): void => {
  endStep(state, unit, unit.step!);
};

export const stopWanting = (state: CellState, unit: Unit): void => {
  const wanting = state.wantingPlace;
  unit.wantsPlace = null;
  for (let i = wanting.indexOf(unit); i + 1 < wanting.length; i++) wanting[i] = wanting[i + 1]!;
  wanting.pop();
};

/** Holds: does the unit stand aside before this step now? Then it does. */
export const standsAside = (state: CellState, unit: Unit, step: Step): boolean => {
  const { holds } = state.cell;
  let until = -Infinity;
  for (let hold = 0; hold < holds.count; hold++) {
    if (holds.before[hold] !== step.index || holds.until[hold]! <= state.now) continue;
    if (holds.product[hold] !== NONE && holds.product[hold] !== unit.product) continue;
    const names = holds.names[hold]!;
    if (names !== null && !names.has(unit.name ?? '')) continue;
    until = Math.max(until, holds.until[hold]!);
  }
  if (until === -Infinity) return false;
  unit.where = ASIDE;
  unit.step = step;
  unit.to = step;
  unit.ends = until;
  append(state.aside, unit);
  tellGear(state, unit, gearBefore(step.index));
  state.recorder.standAside(state.now, unit.number, step.index);
  state.plan(until, RANK_RETURNS, RELEASE, unit.index, unit.token);
  return true;
};

export const release = (state: CellState, unit: Unit): void => {
  const step = unit.to!;
  remove(state.aside, unit);
  state.recorder.release(state.now, unit.number, step.index);
  if (!step.hands) startWait(state, unit, step);
  else if (step.rack === 0) joinLine(state, unit, step, false);
  else if (hasSlot(step)) joinLine(state, unit, step, true);
  else block(state, unit, step, step);
};

/** Onto the out-rack, if one is there. */
export const putOut = (state: CellState, unit: Unit): boolean => {
  const { outRack } = state.cell.shift;
  const { now, recorder } = state;
  if (outRack !== null && state.outRackHere === 0) return false;
  recorder.good(now, unit.number, now - unit.arrival, now - unit.firstStart, unit.repeats);
  state.goods++;
  if (state.goods === state.cell.target) {
    state.targetReached = true;
    recorder.targetMet(now);
  }
  if (outRack !== null) fillRack(state, outRack.size, outRack.back);
  leaveCell(state, unit);
  return true;
};

const fillRack = (state: CellState, size: number, back: number): void => {
  if (state.outRackUnits === 0) state.outRackFirst = state.now;
  state.outRackUnits++;
  state.outRackTimes += state.now;
  if (state.outRackUnits < size) return;
  state.recorder.rackSent(
    state.now,
    state.now - state.outRackFirst,
    state.now * state.outRackUnits - state.outRackTimes,
  );
  state.outRackUnits = 0;
  state.outRackTimes = 0;
  state.outRackHere--;
  state.plan(state.now + Math.floor(back * 60_000 + 0.5), RANK_RETURNS, RACK_BACK, 0, 0);
};

/** Good or scrap: everything it holds is free; with a constant number inside, the next one comes in. */
const leaveCell = (state: CellState, unit: Unit): void => {
  if (unit.wantsPlace !== null) stopWanting(state, unit);
  freeAll(state, unit);
  dropUnit(state, unit);
  state.inside--;
  if (state.cell.shift.intake.kind === 'constant') state.plan(state.now, RANK_ARRIVALS, ARRIVAL, 0, 0);
};

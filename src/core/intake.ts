/** Arrivals: how units come in, one after another, each with its product. */
import { sample } from './curves.ts';
import { draw, toMilliseconds } from './draws.ts';
import type { Step } from './steps.ts';
import { NONE, type Unit } from './units.ts';
import { standsAside, startWait } from './flow.ts';
import { joinLine, keepOutside, leaveOutside } from './lines.ts';
import { GAP, PRODUCT, uniform } from './random.ts';
import { ARRIVAL, RANK_ARRIVALS } from './ranks.ts';
import { AT_START, BEAT, type CellState, CONSTANT, LIST, type Listed, RANDOM } from './state.ts';

/** Plans the first arrival of a shift. */
export function openIntake(state: CellState): void {
  const shift = state.shift;
  const intake = shift.intake;
  const late = toMilliseconds(shift.late);
  state.arrivalCount = 0;
  state.nextArrival = Infinity;
  if (intake === LIST) {
    if (shift.listed.length > 0) planArrival(state, shift.listed[0]!.time);
  } else if (intake === RANDOM) {
    if (shift.units !== 0) planArrival(state, late + gapOf(state));
  } else if (intake === CONSTANT) {
    // What is carried over is inside already.
    const missing: i32 = shift.inside - state.inside - state.outside.length;
    for (let i = 0; i < missing; i++) state.plan(late, RANK_ARRIVALS, ARRIVAL, 0, 0);
  } else if (shift.units !== 0) {
    planArrival(state, late);
  }
}

function gapOf(state: CellState): number {
  return toMilliseconds(sample(state.shift.gap!, draw(state, GAP, state.nextNumber, 0, 0)));
}

function planArrival(state: CellState, time: number): void {
  state.nextArrival = time;
  state.plan(time, RANK_ARRIVALS, ARRIVAL, 0, 0);
}

/** One arrival (at the start: all of them), and the next one planned. */
export function arrival(state: CellState): void {
  const shift = state.shift;
  const intake = shift.intake;
  const count: i32 = state.arrivalCount++;
  const goesOn = shift.units === NONE || count + 1 < shift.units;
  state.nextArrival = Infinity;
  if (intake === LIST) {
    const listed = shift.listed;
    enter(state, listed[count]!);
    if (count + 1 < listed.length) planArrival(state, listed[count + 1]!.time);
  } else if (intake === AT_START) {
    // All at once: nothing of a lower rank can come between them.
    for (let i = 0; i < shift.units; i++) enter(state, null);
  } else {
    enter(state, null);
    if (intake === BEAT && goesOn) planArrival(state, toMilliseconds(shift.late + (count + 1) * shift.every));
    else if (intake === RANDOM && goesOn) planArrival(state, state.now + gapOf(state));
  }
}

export function drawProduct(state: CellState): i32 {
  const shares = state.shift.shares;
  if (shares.length === 1) return 0;
  const luck = uniform(draw(state, PRODUCT, state.nextNumber, 0, 0));
  let product: i32 = 0;
  while (luck >= shares[product]!) product++;
  return product;
}

function enter(state: CellState, listed: Listed | null): void {
  const product = listed === null || listed.product === NONE ? drawProduct(state) : listed.product;
  const unit = state.newUnit(product, state.now);
  if (listed !== null) {
    unit.due = listed.due;
    unit.rush = listed.rush;
    unit.name = listed.name;
  } else {
    unit.due = state.now + state.shift.dueAfter;
  }
  state.recorder.arrive(state.now, unit);
  placeArrival(state, unit, state.shift.enters[product]!);
}

/** Into the first line; or aside, outside, or elsewhere. */
export function placeArrival(state: CellState, unit: Unit, step: Step): void {
  if (state.shift.holds.length > 0 && standsAside(state, unit, step)) {
    state.inside++;
  } else if (!step.hands) {
    state.inside++;
    startWait(state, unit, step, NONE);
  } else if (step.rack !== 0 && step.hasSlot() && step.outside === 0) {
    state.inside++;
    joinLine(state, unit, step, true);
  } else if (state.shift.divert && step.rack !== 0) {
    state.recorder.divert(state.now, unit);
    state.dropUnit(unit);
  } else {
    keepOutside(state, unit, step);
  }
}

/**
 * Before a rack of 0 an arrival that could not start at this instant goes elsewhere, where the intake says
 * so.
 */
export function divertLeft(state: CellState): void {
  let unit = state.outside.first;
  while (unit !== null) {
    leaveOutside(state, unit);
    state.recorder.divert(state.now, unit);
    state.dropUnit(unit);
    unit = state.outside.first;
  }
}

/**
 * The opening of a shift: fresh memory or what the last shift left, people and gear as they start the day.
 */
import { createCarried } from './carried.ts';
import { gearAt, gearBefore, gearPutDown, NOT_IN, OUT_OF_ORDER } from './codes.ts';
import { OUT } from './resources.ts';
import { ASIDE, BLOCKED, IN_LINE, IN_WAIT, NONE, NOWHERE, PUT_DOWN, type Unit } from './units.ts';
import { planFailure, resetGear, tellGear } from './gear.ts';
import { integers } from './platform.ts';
import { OUTAGE, RACK_BACK, RANK_RETURNS } from './ranks.ts';
import type { CellState, Shift } from './state.ts';

/** Hands the steps, gear and people what a shift says of them. */
export function enterShift(state: CellState, shift: Shift): void {
  state.shift = shift;
  state.people = shift.people;
  state.kinds = shift.kinds;
  state.words = (shift.people.length + 31) >> 5;
  if (state.idle.length < state.words) state.idle = integers(state.words);
  for (let step = 0; step < state.steps.length; step++) state.steps[step]!.follow(shift.rules[step]!);
  for (let kind = 0; kind < state.allKinds.length; kind++) state.allKinds[kind]!.index = NONE;
  for (let i = 0; i < shift.kinds.length; i++) {
    const kind = shift.kinds[i]!;
    kind.index = i;
    kind.count = shift.counts[i]!;
    kind.needing = shift.needing[i]!;
    kind.fails = shift.fails[i]!;
    kind.repair = shift.repairs[i]!;
    kind.holdsWaits = false;
  }
  for (let i = 0; i < state.steps.length; i++) {
    const step = state.steps[i]!;
    for (let use = 0; !step.hands && use < step.uses.length; use++) step.uses[use]!.holdsWaits = true;
  }
}

/**
 * Opens a shift at time 0: the first of a replication on an empty cell with the file's carry-over, a later
 * one on what stands there.
 */
export function openShift(state: CellState, first: boolean): void {
  if (first) empty(state);
  state.now = 0;
  state.goods = 0;
  state.targetReached = false;
  state.toCalendar(0);
  state.anyEnded = false;
  state.nothingNew = false;
  openPeople(state);
  state.ownPlaceMask = state.shift.ownPlaceMask;
  if (first) {
    resetGear(state);
    createCarried(state);
  } else {
    tellStanding(state);
  }
  openGear(state, first);
}

function empty(state: CellState): void {
  const steps = state.steps;
  state.events.clear();
  for (let i = 0; i < state.top; i++) {
    const unit = state.units.at(i);
    if (unit.where !== NOWHERE) state.dropUnit(unit);
  }
  state.top = 0;
  state.sequence = 0;
  state.nextNumber = 0;
  state.inside = 0;
  state.lineMask = 0;
  state.leftMask = 0;
  state.deadlockDue = false;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    step.inSlots = 0;
    step.outside = 0;
    step.line.clear();
    step.left.clear();
  }
  state.blocked.clear();
  state.outside.clear();
  state.wantingPlace.count = 0;
  state.aside.clear();
  openOutRacks(state);
}

/** What stands on a part-filled rack has waited there from 0; what is away comes back when the file says. */
function openOutRacks(state: CellState): void {
  const away = state.shift.outRacksAway;
  state.outRackHere = state.shift.outRacks - away.length;
  state.outRackUnits = state.shift.outRackStanding;
  state.outRackFirst = 0;
  state.outRackTimes = 0;
  for (let i = 0; i < away.length; i++) state.plan(away[i]!, RANK_RETURNS, RACK_BACK, 0, 0);
}

function openPeople(state: CellState): void {
  const people = state.people;
  state.present = 0;
  for (let word = 0; word < state.idle.length; word++) state.idle[word] = 0;
  for (let i = 0; i < people.length; i++) {
    const person = people[i]!;
    person.at = OUT;
    person.told = NOT_IN;
    person.piece = null;
    person.ended = 0;
    person.owedFrom = 0;
    person.owedTo = 0;
    person.lastPiece = -Infinity;
    person.finishing = -1;
    person.nextOff = 0;
    person.coverNow(person.covers[0]!);
  }
}

/** Plans the times out of order of the shift; kinds that fail at random get their first failure. */
function openGear(state: CellState, first: boolean): void {
  const outages = state.shift.outages;
  let next: i32 = 0;
  for (let i = 0; i < state.kinds.length; i++) {
    const kind = state.kinds[i]!;
    for (; next < outages.length && outages[next]!.kind === kind; next++)
      state.plan(outages[next]!.time, RANK_RETURNS, OUTAGE, next, 0);
    if (!first || kind.fails === null) continue;
    for (let item = 0; item < kind.count; item++) planFailure(state, kind.items[item]!);
  }
}

/** What stands in the cell counts as arrived in this shift's report too. */
function tellStanding(state: CellState): void {
  const recorder = state.recorder;
  const order = state.unitsInside();
  for (let i = 0; i < order.count; i++) recorder.arrive(0, order.at(i));
  for (let i = 0; i < state.steps.length; i++) {
    const step = state.steps[i]!;
    let length: i32 = 0;
    let unit = step.line.first;
    while (unit !== null) {
      length++;
      recorder.join(0, unit, step, length);
      unit = unit.after;
    }
  }
  let outside: i32 = 0;
  let unit = state.outside.first;
  while (unit !== null) {
    outside++;
    recorder.keepOutside(0, unit, outside);
    unit = unit.after;
  }
  for (let i = 0; i < order.count; i++) tellUnit(state, order.at(i));
  for (let i = 0; i < state.items.length; i++) {
    const item = state.items[i]!;
    if (item.out) recorder.gear(0, item, OUT_OF_ORDER, NONE);
  }
}

function tellUnit(state: CellState, unit: Unit): void {
  const recorder = state.recorder;
  const where = unit.where;
  if (where === IN_LINE || where === ASIDE) {
    tellGear(state, unit, gearBefore(unit.step!.index));
    if (where === ASIDE) recorder.standAside(0, unit, unit.step!);
  } else if (where === IN_WAIT) {
    tellGear(state, unit, gearAt(unit.step!.index));
    recorder.waitStart(0, unit, unit.step!, unit.ends);
  } else if (where === BLOCKED) {
    tellGear(state, unit, gearBefore(unit.to!.index));
    recorder.block(0, unit);
  } else if (where === PUT_DOWN) {
    tellGear(state, unit, gearPutDown(unit.step!.index));
    recorder.putDown(0, unit, unit.step!, NONE);
  }
}

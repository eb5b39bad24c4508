/**
 * The carry-over of a file: units with their step and state, made before anything else of the first shift
 * happens.
 */
import { gearBefore, gearPutDown } from './codes.ts';
import { sampleAfter } from './curves.ts';
import { draw } from './draws.ts';
import type { Person } from './resources.ts';
import type { Taking, Step } from './steps.ts';
import { IN_LINE, NONE, PUT_DOWN, type Unit } from './units.ts';
import { standsAside, startWait } from './flow.ts';
import { freeOnReturn, hasPlace, placeIsFree, takeItem, takePlace, tellGear } from './gear.ts';
import { drawProduct, placeArrival } from './intake.ts';
import { block, joinLine } from './lines.ts';
import { leaveDown } from './left-pieces.ts';
import type { Integers } from './platform.ts';
import { isNew } from './may-start.ts';
import { secondWord, TASK } from './random.ts';
import { type Carried, type CellState, CURES, IS_BLOCKED, IS_PUT_DOWN, WAITS } from './state.ts';

export function createCarried(state: CellState): void {
  const carried = state.shift.carried;
  for (let i = 0; i < carried.length; i++) {
    const entry = carried[i]!;
    for (let unit = 0; unit < entry.units; unit++) create(state, entry);
  }
  if (carried.length > 0) putInCurePlaces(state);
}

/**
 * Cured units that wait for the next step stand in the places they cured in, as far as those that still cure
 * leave any.
 */
function putInCurePlaces(state: CellState): void {
  const inside = state.unitsInside();
  for (let i = 0; i < inside.count; i++) {
    const unit = inside.at(i);
    if (unit.where !== IN_LINE || unit.slotted || hasPlace(unit)) continue;
    const wait = waitBefore(state, unit.product, unit.step!);
    if (wait === null || wait.uses.length === 0 || !placeIsFree(unit, wait)) continue;
    takePlace(state, unit, wait);
    tellGear(state, unit, gearBefore(unit.step!.index));
  }
}

function create(state: CellState, carried: Carried): void {
  const product = carried.product === NONE ? drawProduct(state) : carried.product;
  const unit = state.newUnit(product, carried.arrival);
  unit.due = carried.due;
  unit.rush = carried.rush;
  unit.name = carried.name;
  unit.stoodHere = true;
  state.recorder.arrive(0, unit);
  if (countVisits(state, unit, carried)) unit.firstStart = unit.arrival;
  takeHeld(state, unit, carried);
  state.earlier = carried.waited;
  settle(state, unit, carried);
  state.earlier = 0;
}

/**
 * One visit at every step of its path before this one, unless the file counts them. Has it been through any?
 */
function countVisits(state: CellState, unit: Unit, carried: Carried): boolean {
  const product = unit.product;
  const at = carried.step;
  let any = false;
  unit.begun = true;
  let step = state.shift.enters[product]!;
  while (step !== state.out) {
    if (step.position > at.position || (step === at && carried.state !== IS_BLOCKED)) break;
    unit.visits[step.index] = 1;
    any = true;
    step = step.tasks[product]!.next;
  }
  if (carried.state === IS_BLOCKED) unit.visits[at.index] = 1;
  for (let index = 0; index < state.steps.length; index++) {
    const visits: i32 = carried.visits[index]!;
    if (visits !== NONE) unit.visits[index] = visits;
  }
  return any;
}

/**
 * Gear taken on the way here and not yet freed: by the path, or as the file lists it. Of a kind that is taken
 * twice on the way a unit has as many pieces as the file names it times, those that the path would say first.
 */
function takeHeld(state: CellState, unit: Unit, carried: Carried): void {
  const takings = state.shift.takings;
  const at = carried.step;
  const here = at.position;
  const isBlocked = carried.state === IS_BLOCKED;
  const gear = carried.gear;
  for (let rule = 0; rule < takings.length; rule++) {
    const taking = takings[rule]!;
    const from = taking.step.position;
    const until = taking.until.position;
    const onPath =
      (carried.state === WAITS ? from < here : from <= here) && (isBlocked ? here < until : here <= until);
    const went = unit.visits[taking.step.index]! > 0 || taking.step === at;
    // At a step aside the path says nothing: a unit there holds what the file lists.
    if (onPath && went && !at.aside) takeUpTo(state, unit, taking, gear);
  }
  if (gear === null) return;
  for (let rule = 0; rule < takings.length; rule++) takeUpTo(state, unit, takings[rule]!, gear);
}

/** One piece for a taking that has none, as long as the unit has fewer of the kind than are listed. */
function takeUpTo(state: CellState, unit: Unit, taking: Taking, listed: Integers | null): void {
  const kind = taking.kind;
  const taken = unit.taken;
  if (taken[taking.index] !== null || kind.free === 0) return;
  if (listed !== null) {
    let count: i32 = 0;
    for (let i = 0; i < taken.length; i++) {
      const item = taken[i]!;
      if (item !== null && item.kind === kind) count++;
    }
    if (count >= listed[kind.index]!) return;
  }
  taken[taking.index] = takeItem(state, kind, unit);
}

function settle(state: CellState, unit: Unit, carried: Carried): void {
  const step = carried.step;
  if (carried.state === WAITS) {
    wait(state, unit, step);
    return;
  }
  state.inside++;
  if (carried.state === CURES) {
    startWait(state, unit, step, carried.time);
  } else if (carried.state === IS_BLOCKED) {
    const named = carried.to;
    const to = named === null ? step.tasks[unit.product]!.next : named;
    if (to !== state.out) freeOnReturn(state, unit, to);
    // Blocked units move in the first instant, after all that is carried over has its slot.
    if (to !== state.out && standsAside(state, unit, to)) return;
    if (placeIsFree(unit, step)) takePlace(state, unit, step);
    if (to !== state.out && !to.hands) startWait(state, unit, to, NONE);
    else if (to !== state.out && to.rack === 0) joinLine(state, unit, to, false);
    else block(state, unit, step, to);
  } else {
    begun(state, unit, step, carried);
  }
}

/**
 * In the line: after a cure in its clamps, in no slot (in the slot it cured in, where there are such);
 * otherwise in a slot, if one is left.
 */
function wait(state: CellState, unit: Unit, step: Step): void {
  if (isNew(state, unit, step)) {
    placeArrival(state, unit, step);
    return;
  }
  state.inside++;
  if (standsAside(state, unit, step)) return;
  if (waitBefore(state, unit.product, step) !== null || step.rack === 0) {
    joinLine(state, unit, step, false);
  } else if (step.hasSlot()) {
    joinLine(state, unit, step, true);
  } else {
    block(state, unit, step, step);
  }
}

/** The wait step that leads to this one for a product; null where hands do. */
function waitBefore(state: CellState, product: i32, at: Step): Step | null {
  for (let i = 0; i < state.steps.length; i++) {
    const step = state.steps[i]!;
    const task = step.tasks[product]!;
    if (!step.hands && task.next === at && !task.skipped) return step;
  }
  return null;
}

/**
 * In hand or put down: a piece of its person, who takes it up on coming in; of nobody, where none is named.
 */
function begun(state: CellState, unit: Unit, step: Step, carried: Carried): void {
  const person: Person | null = carried.person === NONE ? null : state.people[carried.person]!;
  const task = step.tasks[unit.product]!;
  const visit: i32 = unit.visits[step.index]!;
  const word = draw(state, TASK, unit.number, step.index, visit);
  unit.luck = secondWord();
  unit.visits[step.index] = visit + 1;
  if (unit.firstStart !== unit.firstStart) unit.firstStart = unit.arrival;
  const own: number = visit === 0 ? task.scale : task.repeatScale;
  const scale: number = own * (person === null ? 1 : person.factor[step.index]!);
  const time = visit === 0 ? task.time : task.repeat;
  const given: number = carried.time === NONE ? 0 : carried.time;
  const isLeft = carried.state === IS_PUT_DOWN && carried.time !== NONE;
  if (isLeft) {
    unit.ends = given;
  } else {
    const whole = sampleAfter(time, word, given / scale);
    unit.ends = Math.max(0, Math.floor(whole * scale + 0.5) - given);
  }
  if (placeIsFree(unit, step)) takePlace(state, unit, step);
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.step = step;
  state.recorder.putDown(0, unit, step, carried.person);
  tellGear(state, unit, gearPutDown(step.index));
  if (person === null) {
    leaveDown(state, unit);
  } else {
    unit.person = person;
    person.piece = unit;
  }
}

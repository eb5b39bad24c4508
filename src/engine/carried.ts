/**
 * The carry-over of a file: units with their step and state, made before anything else of the first shift
 * happens.
 */
import { isNew } from './may-start.ts';
import { leaveDown } from './left-pieces.ts';
import type { ResolvedCarried } from '../scenario/resolve.ts';
import { sampleBeyond } from '../duration/compile.ts';
import { toMilliseconds } from './compile.ts';
import { draw, secondWord } from './draws.ts';
import { startWait, standsAside } from './flow.ts';
import { freeOnReturn, hasPlace, placeIsFree, takeItem, takePlace, tellGear } from './gear.ts';
import { placeArrival } from './intake.ts';
import { block, hasSlot, joinLine } from './lines.ts';
import { PURPOSE } from '../random/keys.ts';
import { gearBefore, gearPutDown } from './recorder.ts';
import {
  unitsInside,
  IN_LINE,
  newUnit,
  NONE,
  PUT_DOWN,
  type CellState,
  type Step,
  type Unit,
} from './state.ts';

export function createCarried(state: CellState): void {
  for (const carried of state.cell.shift.carryOver) {
    for (let i = 0; i < carried.units; i++) create(state, carried);
  }
  if (state.cell.shift.carryOver.length > 0) putInCurePlaces(state);
}

/**
 * Cured units that wait for the next step stand in the places they cured in, as far as those that still cure
 * leave any.
 */
function putInCurePlaces(state: CellState): void {
  for (const unit of unitsInside(state)) {
    if (unit.where !== IN_LINE || unit.slotted || hasPlace(unit)) continue;
    const wait = waitBefore(state, unit.product, unit.step!);
    if (wait === undefined || wait.uses.length === 0 || !placeIsFree(unit, wait)) continue;
    takePlace(state, unit, wait);
    tellGear(state, unit, gearBefore(unit.step!.index));
  }
}

function create(state: CellState, carried: ResolvedCarried): void {
  const { cell, recorder } = state;
  const step = stepOf(state, carried.at);
  const product =
    carried.product === null
      ? drawnProduct(state)
      : cell.shift.products.findIndex((one) => one.id === carried.product);
  const unit = newUnit(state, product, -toMilliseconds(carried.arrived));
  if (carried.due !== null) unit.due = toMilliseconds(carried.due);
  unit.rush = carried.rush ? 1 : 0;
  unit.name = carried.name;
  recorder.arrive(0, unit.number, product);
  const before = countVisits(state, unit, step, carried);
  if (before > 0) unit.firstStart = unit.arrival;
  takeHeld(state, unit, step, carried);
  settle(state, unit, step, carried);
}

const stepOf = (state: CellState, id: string): Step => state.steps[state.cell.stepIds.indexOf(id)]!;

function drawnProduct(state: CellState): number {
  const { products } = state.cell;
  const luck = ((draw(state, PURPOSE.PRODUCT, state.nextNumber, 0, 0) >>> 0) + 0.5) / 4294967296;
  return products.cumulative.findIndex((reached) => luck < reached);
}

/**
 * One visit at every step of its path before this one, unless the file counts them. Returns how many steps it
 * has been through.
 */
function countVisits(state: CellState, unit: Unit, at: Step, carried: ResolvedCarried): number {
  const { cell } = state;
  const { product } = unit;
  let count = 0;
  unit.begun = true;
  for (
    let step = state.steps[cell.products.enters[product]!]!;
    step !== state.out;
    step = step.tasks[product]!.next
  ) {
    if (step.position > at.position || (step === at && carried.state !== 'blocked')) break;
    unit.visits[step.index] = 1;
    count++;
  }
  if (carried.state === 'blocked') unit.visits[at.index] = 1;
  if (carried.visits === null) return count;
  for (const [id, visits] of Object.entries(carried.visits)) unit.visits[cell.stepIds.indexOf(id)] = visits;
  return count;
}

/** Gear taken on the way here and not yet freed: by the path, or as the file lists it. */
function takeHeld(state: CellState, unit: Unit, at: Step, carried: ResolvedCarried): void {
  const { takes } = state.cell;
  const here = at.position;
  for (let rule = 0; rule < takes.count; rule++) {
    const kind = state.kinds[takes.gear[rule]!]!;
    const taker = state.steps[takes.step[rule]!]!;
    const from = taker.position;
    const until = state.steps[takes.until[rule]!]!.position;
    const begun =
      carried.state === 'blocked' ||
      carried.state === 'in hand' ||
      carried.state === 'put down' ||
      carried.state === 'curing';
    const onPath =
      (begun ? from <= here : from < here) && (carried.state === 'blocked' ? here < until : here <= until);
    const went = unit.visits[taker.index]! > 0 || taker === at;
    // At a step aside the path says nothing: a unit there holds what the file lists.
    const holds =
      carried.gear === null
        ? onPath && went && !state.cell.shift.steps[at.index]!.aside
        : carried.gear.includes(kind.id);
    if (holds && kind.free > 0) unit.taken[rule] = takeItem(state, kind, unit);
  }
}

function settle(state: CellState, unit: Unit, step: Step, carried: ResolvedCarried): void {
  if (carried.state === 'waiting') {
    wait(state, unit, step);
    return;
  }
  state.inside++;
  if (carried.state === 'curing') {
    startWait(state, unit, step, carried.minutes === null ? NONE : toMilliseconds(carried.minutes));
  } else if (carried.state === 'blocked') {
    const to = carried.to === null ? step.tasks[unit.product]!.next : stepOf(state, carried.to);
    if (to !== state.out) freeOnReturn(state, unit, to);
    // Blocked units move in the first instant, after all that is carried over has its slot.
    if (to !== state.out && standsAside(state, unit, to)) return;
    if (placeIsFree(unit, step)) takePlace(state, unit, step);
    if (to !== state.out && !to.hands) startWait(state, unit, to);
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
  if (waitBefore(state, unit.product, step) !== undefined || step.rack === 0) {
    joinLine(state, unit, step, false);
  } else if (hasSlot(step)) {
    joinLine(state, unit, step, true);
  } else {
    block(state, unit, step, step);
  }
}

/** The wait step that leads to this one for a product; none where hands do. */
function waitBefore(state: CellState, product: number, at: Step): Step | undefined {
  const { skips } = state.cell.shift.products[product]!;
  return state.steps.find(
    (step) =>
      !step.hands && step.tasks[product]!.next === at && !skips.includes(state.cell.stepIds[step.index]!),
  );
}

/**
 * In hand or put down: a piece of its person, who takes it up on coming in; of nobody, where none is named.
 */
function begun(state: CellState, unit: Unit, step: Step, carried: ResolvedCarried): void {
  const person = carried.person === null ? null : state.people[state.cell.personIds.indexOf(carried.person)]!;
  const task = step.tasks[unit.product]!;
  const visit = unit.visits[step.index]!;
  const word = draw(state, PURPOSE.TASK, unit.number, step.index, visit);
  unit.luck = secondWord();
  unit.visits[step.index] = visit + 1;
  if (unit.firstStart !== unit.firstStart) unit.firstStart = unit.arrival;
  const scale =
    (visit === 0 ? task.scale : task.repeatScale) * (person === null ? 1 : person.factor[step.index]!);
  const time = visit === 0 ? task.time : task.repeat;
  const given = carried.minutes === null ? 0 : toMilliseconds(carried.minutes);
  const putDown = carried.state === 'put down' && carried.minutes !== null;
  const whole = sampleBeyond(time, word, putDown ? 0 : given / scale);
  unit.ends = putDown ? given : Math.max(0, Math.floor(whole * scale + 0.5) - given);
  if (placeIsFree(unit, step)) takePlace(state, unit, step);
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.step = step;
  state.recorder.putDown(0, unit.number, step.index, person === null ? NONE : person.index, unit.ends);
  tellGear(state, unit, gearPutDown(step.index));
  if (person === null) {
    leaveDown(state, unit);
  } else {
    unit.person = person;
    person.piece = unit;
  }
}

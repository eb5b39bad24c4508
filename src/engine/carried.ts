/** The carry-over of a file: units with their step and state, made before anything else of the first shift happens. */
import type { CarryOver } from '../scenario/schema.ts';
import { minutesAfter } from '../scenario/clock.ts';
import { sampleBeyond } from './distributions/compile.ts';
import { toMilliseconds } from './compile.ts';
import { draw, secondWord } from './draws.ts';
import { unitsInside } from './carry.ts';
import { startWait, standsAside } from './flow.ts';
import { hasPlace, placeIsFree, takeItem, takePlace, tellGear } from './gear.ts';
import { placeArrival } from './intake.ts';
import { block, hasSlot, joinLine } from './lines.ts';
import { leaveDown } from './people.ts';
import { PURPOSE } from './random/keys.ts';
import { gearBefore, gearPutDown } from './recorder.ts';
import { IN_LINE, newUnit, NONE, PUT_DOWN, type CellState, type Unit } from './state.ts';

export function createCarried(state: CellState): void {
  for (const carried of state.cell.shift.carryOver) {
    for (let i = 0; i < (carried.units ?? 1); i++) create(state, carried);
  }
  if (state.cell.shift.carryOver.length > 0) putInCurePlaces(state);
}

/** Cured units that wait for the next step stand in the places they cured in, as far as those that still cure leave any. */
function putInCurePlaces(state: CellState): void {
  const { steps } = state.cell;
  for (const unit of unitsInside(state)) {
    if (unit.where !== IN_LINE || unit.slotted !== 0 || hasPlace(unit)) continue;
    const wait = waitBefore(state, unit.product, unit.step);
    if (wait === NONE || steps.usesFrom[wait] === steps.usesFrom[wait + 1] || !placeIsFree(state, unit, wait)) continue;
    takePlace(state, unit, wait);
    tellGear(state, unit, gearBefore(unit.step));
  }
}

function create(state: CellState, carried: CarryOver): void {
  const { cell, recorder } = state;
  const step = cell.stepIds.indexOf(carried.at);
  const product = carried.product === undefined ? drawnProduct(state) : cell.shift.products.findIndex((one) => one.id === carried.product);
  const unit = newUnit(state, product, -toMilliseconds(carried.arrived ?? 0));
  if (carried.due !== undefined) unit.due = toMilliseconds(minutesAfter(cell.shift.start, carried.due));
  unit.rush = carried.rush === true ? 1 : 0;
  unit.name = carried.name ?? null;
  recorder.arrive(0, unit.number, product);
  const before = countVisits(state, unit, step, carried);
  if (before > 0) unit.firstStart = unit.arrival;
  takeHeld(state, unit, step, carried);
  settle(state, unit, step, carried);
}

function drawnProduct(state: CellState): number {
  const { products } = state.cell;
  const luck = ((draw(state, PURPOSE.PRODUCT, state.nextNumber, 0, 0) >>> 0) + 0.5) / 4294967296;
  return products.cumulative.findIndex((reached) => luck < reached);
}

/** One visit at every step of its path before this one, unless the file counts them. Returns how many steps it has been through. */
function countVisits(state: CellState, unit: Unit, at: number, carried: CarryOver): number {
  const { cell } = state;
  const { steps, products } = cell;
  const product = unit.product;
  let count = 0;
  for (let step = products.enters[product]!; step < steps.count; step = products.next[product * steps.count + step]!) {
    if (steps.position[step]! > steps.position[at]! || (step === at && carried.state !== 'blocked')) break;
    unit.visits[step] = 1;
    count++;
  }
  if (carried.state === 'blocked') unit.visits[at] = 1;
  for (const [id, visits] of Object.entries(carried.visits ?? {})) unit.visits[cell.stepIds.indexOf(id)] = visits;
  return count;
}

/** Gear taken on the way here and not yet freed: by the path, or as the file lists it. */
function takeHeld(state: CellState, unit: Unit, at: number, carried: CarryOver): void {
  const { steps, takes } = state.cell;
  const here = steps.position[at]!;
  for (let rule = 0; rule < takes.count; rule++) {
    const kind = takes.gear[rule]!;
    const from = steps.position[takes.step[rule]!]!;
    const until = steps.position[takes.until[rule]!]!;
    const begun = carried.state === 'blocked' || carried.state === 'in hand' || carried.state === 'put down' || carried.state === 'curing';
    const onPath = (begun ? from <= here : from < here) && (carried.state === 'blocked' ? here < until : here <= until);
    const went = unit.visits[takes.step[rule]!]! > 0 || takes.step[rule] === at;
    // At a step aside the path says nothing: a unit there holds what the file lists.
    const holds = carried.gear === undefined ? onPath && went && !state.cell.shift.steps[at]!.aside : carried.gear.includes(state.cell.gearIds[kind]!);
    if (holds && state.freeGear[kind]! > 0) unit.taken[rule] = takeItem(state, kind, unit);
  }
}

function settle(state: CellState, unit: Unit, step: number, carried: CarryOver): void {
  const { steps, products } = state.cell;
  if (carried.state === undefined || carried.state === 'waiting') {
    wait(state, unit, step);
    return;
  }
  state.inside++;
  if (carried.state === 'curing') {
    startWait(state, unit, step, carried.minutes === undefined ? NONE : toMilliseconds(carried.minutes));
  } else if (carried.state === 'blocked') {
    const next = products.next[unit.product * steps.count + step]!;
    const to = carried.to === undefined ? next : state.cell.stepIds.indexOf(carried.to);
    // Blocked units move in the first instant, after all that is carried over has its slot.
    if (to < steps.count && standsAside(state, unit, to)) return;
    if (placeIsFree(state, unit, step)) takePlace(state, unit, step);
    if (to < steps.count && steps.hands[to] === 0) startWait(state, unit, to);
    else if (to < steps.count && steps.rack[to] === 0) joinLine(state, unit, to, false);
    else block(state, unit, step, to);
  } else {
    begun(state, unit, step, carried);
  }
}

/** In the line: after a cure in its clamps, in no slot (in the slot it cured in, where there are such); otherwise in a slot, if one is left. */
function wait(state: CellState, unit: Unit, step: number): void {
  const { steps, products } = state.cell;
  const product = unit.product;
  if (step === products.enters[product] && unit.visits[step] === 0) {
    placeArrival(state, unit, step);
    return;
  }
  state.inside++;
  if (standsAside(state, unit, step)) return;
  if (waitBefore(state, product, step) !== NONE || steps.rack[step] === 0) {
    joinLine(state, unit, step, false);
  } else if (hasSlot(state, step)) {
    joinLine(state, unit, step, true);
  } else {
    block(state, unit, step, step);
  }
}

/** The wait step that leads to this one for a product; NONE where hands do. */
function waitBefore(state: CellState, product: number, at: number): number {
  const { steps, products } = state.cell;
  for (let step = 0; step < steps.count; step++) {
    if (steps.hands[step] === 0 && products.next[product * steps.count + step] === at) return step;
  }
  return NONE;
}

/** In hand or put down: a piece of its person, who takes it up on coming in; of nobody, where none is named. */
function begun(state: CellState, unit: Unit, step: number, carried: CarryOver): void {
  const { cell } = state;
  const { steps, products, people } = cell;
  const person = carried.person === undefined ? NONE : cell.personIds.indexOf(carried.person);
  const at = unit.product * steps.count + step;
  const visit = unit.visits[step]!;
  const word = draw(state, PURPOSE.TASK, unit.number, step, visit);
  unit.luck = secondWord();
  unit.visits[step] = visit + 1;
  if (unit.firstStart !== unit.firstStart) unit.firstStart = unit.arrival;
  const scale = products.scale[at]! * (person === NONE ? 1 : people.factor[person * steps.count + step]!);
  const time = visit === 0 ? products.time[at]! : products.repeat[at]!;
  const given = toMilliseconds(carried.minutes ?? 0);
  const putDown = carried.state === 'put down' && carried.minutes !== undefined;
  const whole = sampleBeyond(time, word, putDown ? 0 : given / scale);
  unit.ends = putDown ? given : Math.max(0, Math.floor(whole * scale + 0.5) - given);
  if (placeIsFree(state, unit, step)) takePlace(state, unit, step);
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.step = step;
  state.recorder.putDown(0, unit.number, step, person, unit.ends);
  tellGear(state, unit, gearPutDown(step));
  if (person === NONE) {
    leaveDown(state, unit);
  } else {
    unit.person = person;
    state.piece[person] = unit;
  }
}


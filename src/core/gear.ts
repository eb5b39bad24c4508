/** Gear: taking, giving back, going out of order, and telling what each piece of it is doing. */
import { FREE, OUT_OF_ORDER } from './codes.ts';
import { sample } from './curves.ts';
import { draw, toMilliseconds } from './draws.ts';
import type { GearItem, GearKind } from './resources.ts';
import type { Step } from './steps.ts';
import { NONE, type Unit } from './units.ts';
import { GEAR_FAILURE, secondWord } from './random.ts';
import { GEAR_BACK, GEAR_FAILS, RANK_RETURNS } from './ranks.ts';
import type { CellState } from './state.ts';

/** One more of a kind is free. */
// @inline
export function addFree(state: CellState, kind: GearKind): void {
  kind.free++;
  if (kind.free !== 1) return;
  const needing = kind.needing;
  for (let i = 0; i < needing.length; i++) {
    const step = needing[i]!;
    step.gearShort--;
    if (step.gearShort === 0) state.gearMask |= step.bit;
  }
}

/** One less of a kind is free: once none is, all that need it have to wait. */
// @inline
function takeFree(state: CellState, kind: GearKind): void {
  kind.free--;
  if (kind.free !== 0) return;
  const needing = kind.needing;
  for (let i = 0; i < needing.length; i++) {
    const step = needing[i]!;
    step.gearShort++;
    state.gearMask &= ~step.bit;
  }
}

/** Takes the lowest-numbered free item of a kind for a unit; the caller knows that one is free. */
// @inline
export function takeItem(state: CellState, kind: GearKind, unit: Unit): GearItem {
  const items = kind.items;
  let i: i32 = 0;
  let item = items[0]!;
  while (item.unit !== null || item.out) item = items[++i]!;
  item.unit = unit;
  unit.held++;
  takeFree(state, kind);
  return item;
}

// @inline
export function giveBack(state: CellState, item: GearItem): void {
  item.unit!.held--;
  item.unit = null;
  if (item.repair >= 0) {
    goOutAfterPiece(state, item);
    return;
  }
  addFree(state, item.kind);
  state.recorder.gear(state.now, item, FREE, NONE);
}

/** Gives the place of a unit back: the bench it stands on, or the slot it cured in. */
// @inline
export function leavePlace(state: CellState, unit: Unit): void {
  if (unit.held === 0) return;
  const place = unit.place;
  for (let i = 0; i < place.length; i++) {
    const item = place[i]!;
    if (item === null) continue;
    place[i] = null;
    giveBack(state, item);
  }
}

/** The piece of a kind the unit stands on; null where it has none. */
export function ownItem(unit: Unit, kind: GearKind): GearItem | null {
  const place = unit.place;
  for (let i = 0; i < place.length; i++) {
    const item = place[i]!;
    if (item !== null && item.kind === kind) return item;
  }
  return null;
}

/**
 * From where the unit stands onto the gear of a step. What it stands on and needs again it keeps, even if
 * that is to go out of order.
 */
export function changePlace(state: CellState, unit: Unit, step: Step): void {
  if (step.ownPlace && hasPlace(unit)) {
    keepOwn(state, unit, step);
  } else {
    leavePlace(state, unit);
    takePlace(state, unit, step);
  }
}

function keepOwn(state: CellState, unit: Unit, step: Step): void {
  const kept = state.kept;
  const uses = step.uses;
  const place = unit.place;
  for (let i = 0; i < uses.length; i++) {
    const item = ownItem(unit, uses[i]!);
    kept[i] = item;
    for (let at = 0; item !== null && at < place.length; at++) if (place[at] === item) place[at] = null;
  }
  leavePlace(state, unit);
  for (let i = 0; i < uses.length; i++) {
    const item = kept[i]!;
    place[i] = item === null ? takeItem(state, uses[i]!, unit) : item;
  }
}

// @inline
export function hasPlace(unit: Unit): boolean {
  if (unit.held === 0) return false;
  const place = unit.place;
  for (let i = 0; i < place.length; i++) if (place[i] !== null) return true;
  return false;
}

/** Takes all the gear a step uses, as the unit's place. */
// @inline
export function takePlace(state: CellState, unit: Unit, step: Step): void {
  const uses = step.uses;
  for (let i = 0; i < uses.length; i++) unit.place[i] = takeItem(state, uses[i]!, unit);
}

/** Is all the gear of a step free for this unit? What it stands on is. */
export function placeIsFree(unit: Unit, step: Step): boolean {
  const uses = step.uses;
  for (let i = 0; i < uses.length; i++)
    if (uses[i]!.free <= 0 && ownItem(unit, uses[i]!) === null) return false;
  return true;
}

/** Takes the gear that stays with the unit from this step on, unless it has it already. */
export function takeAlong(state: CellState, unit: Unit, step: Step): void {
  const takes = step.takes;
  for (let i = 0; i < takes.length; i++) {
    const taking = takes[i]!;
    if (unit.taken[taking.index] === null) unit.taken[taking.index] = takeItem(state, taking.kind, unit);
  }
}

// @inline
function freeTaken(state: CellState, unit: Unit, index: i32): void {
  const item = unit.taken[index]!;
  if (item === null) return;
  unit.taken[index] = null;
  giveBack(state, item);
}

/** Frees what this step frees. */
export function freeAfter(state: CellState, unit: Unit, step: Step): void {
  const frees = step.frees;
  for (let i = 0; i < frees.length; i++) freeTaken(state, unit, frees[i]!.index);
}

/** Going back to or before the taking step frees what was taken there. */
export function freeOnReturn(state: CellState, unit: Unit, to: Step): void {
  const takings = state.shift.takings;
  for (let index = 0; index < takings.length; index++) {
    if (to.position <= takings[index]!.step.position) freeTaken(state, unit, index);
  }
}

export function freeAll(state: CellState, unit: Unit): void {
  if (unit.held === 0) return;
  for (let index = 0; index < unit.taken.length; index++) freeTaken(state, unit, index);
  leavePlace(state, unit);
}

/** Tells what all the gear of a unit is doing now. */
// @inline
export function tellGear(state: CellState, unit: Unit, code: i32): void {
  const place = unit.place;
  const taken = unit.taken;
  let left = unit.held;
  for (let i = 0; left > 0 && i < place.length; i++) left -= tellItem(state, unit, place[i]!, code);
  for (let i = 0; left > 0; i++) left -= tellItem(state, unit, taken[i]!, code);
}

/** How many pieces of gear that was: 1 or 0. */
// @inline
function tellItem(state: CellState, unit: Unit, item: GearItem | null, code: i32): i32 {
  if (item === null) return 0;
  state.recorder.gear(state.now, item, code, unit.number);
  return 1;
}

/** Planned or drawn: the item goes out of order for `repair` ms, once the piece in it is finished. */
export function failItem(state: CellState, item: GearItem, repair: number): void {
  if (item.out || item.repair >= 0) return;
  if (item.unit !== null) {
    item.repair = repair;
    return;
  }
  takeFree(state, item.kind);
  goOut(state, item, repair);
}

function goOutAfterPiece(state: CellState, item: GearItem): void {
  const repair = item.repair;
  item.repair = -1;
  goOut(state, item, repair);
}

function goOut(state: CellState, item: GearItem, repair: number): void {
  item.out = true;
  state.recorder.gear(state.now, item, OUT_OF_ORDER, NONE);
  state.plan(state.now + repair, RANK_RETURNS, GEAR_BACK, item.index, 0);
}

export function gearBack(state: CellState, item: GearItem): void {
  item.out = false;
  addFree(state, item.kind);
  state.recorder.gear(state.now, item, FREE, NONE);
  if (!item.failed) return;
  item.failed = false;
  planFailure(state, item);
}

function drawFailure(state: CellState, item: GearItem): i32 {
  return draw(state, GEAR_FAILURE, item.number, item.kind.index, item.failures);
}

/** Plans the next failure of an item whose kind fails at random. */
export function planFailure(state: CellState, item: GearItem): void {
  const fails = item.kind.fails;
  if (fails === null) return;
  const after = toMilliseconds(sample(fails, drawFailure(state, item)));
  state.plan(state.now + after, RANK_RETURNS, GEAR_FAILS, item.index, 0);
}

/** A drawn failure. One that falls into another repair is had with it. */
export function gearFails(state: CellState, item: GearItem): void {
  drawFailure(state, item);
  const luck = secondWord();
  item.failures++;
  if (item.out || item.repair >= 0) {
    planFailure(state, item);
    return;
  }
  item.failed = true;
  failItem(state, item, toMilliseconds(sample(item.kind.repair!, luck)));
}

/** Every item of the shift free and in order. */
export function resetGear(state: CellState): void {
  const steps = state.steps;
  const kinds = state.kinds;
  for (let i = 0; i < steps.length; i++) steps[i]!.gearShort = 0;
  state.gearMask = (1 << steps.length) - 1;
  for (let i = 0; i < kinds.length; i++) resetKind(state, kinds[i]!);
}

function resetKind(state: CellState, kind: GearKind): void {
  const items = kind.items;
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!;
    item.unit = null;
    item.out = false;
    item.repair = -1;
    item.failures = 0;
    item.failed = false;
  }
  kind.free = kind.count;
  if (kind.count > 0) return;
  kind.free = 1;
  takeFree(state, kind);
}

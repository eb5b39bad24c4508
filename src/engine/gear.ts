/** Gear: taking, giving back, going out of order, and telling the recorder what each piece of it is doing. */
import { sample } from '../duration/compile.ts';
import { toMilliseconds } from './compile.ts';
import { GEAR_BACK, GEAR_FAILS, RANK_RETURNS } from './ranks.ts';
import { FREE, OUT_OF_ORDER } from './recorder.ts';
import { PURPOSE } from '../random/keys.ts';
import { draw, secondWord } from './draws.ts';
import { NONE, type CellState, type GearItem, type GearKind, type Step, type Unit } from './state.ts';

/** One more of a kind is free. */
export const addFree = (state: CellState, kind: GearKind): void => {
  if (++kind.free !== 1) return;
  const { needing } = kind;
  for (let i = 0; i < needing.length; i++) {
    const step = needing[i]!;
    if (--step.gearShort === 0) state.gearMask |= step.bit;
  }
};

/** One less of a kind is free: once none is, all that need it have to wait. */
const takeFree = (state: CellState, kind: GearKind): void => {
  if (--kind.free !== 0) return;
  const { needing } = kind;
  for (let i = 0; i < needing.length; i++) {
    const step = needing[i]!;
    step.gearShort++;
    state.gearMask &= ~step.bit;
  }
};

/** Takes the lowest-numbered free item of a kind for a unit; the caller knows that one is free. */
export const takeItem = (state: CellState, kind: GearKind, unit: Unit): GearItem => {
  const { items } = kind;
  let i = 0;
  let item = items[0]!;
  while (item.unit !== null || item.out) item = items[++i]!;
  item.unit = unit;
  unit.held++;
  takeFree(state, kind);
  return item;
};

export const giveBack = (state: CellState, item: GearItem): void => {
  const { kind } = item;
  item.unit!.held--;
  item.unit = null;
  if (item.repair >= 0) {
    goOutAfterPiece(state, item);
    return;
  }
  addFree(state, kind);
  state.recorder.gear(state.now, kind.index, item.number, FREE, NONE);
};

/** Gives the place of a unit back: the bench it stands on, or the slot it cured in. */
export const leavePlace = (state: CellState, unit: Unit): void => {
  if (unit.held === 0) return;
  const { place } = unit;
  for (let i = 0; i < place.length; i++) {
    const item = place[i]!;
    if (item === null) continue;
    place[i] = null;
    giveBack(state, item);
  }
};

/** The piece of a kind the unit stands on; null where it has none. */
export const ownItem = (unit: Unit, kind: GearKind): GearItem | null => {
  for (const item of unit.place) if (item !== null && item.kind === kind) return item;
  return null;
};

/**
 * From where the unit stands onto the gear of a step. What it stands on and needs again it keeps, even if
 * that is to go out of order.
 */
export const changePlace = (state: CellState, unit: Unit, step: Step): void => {
  if (step.ownPlace && hasPlace(unit)) {
    keepOwn(state, unit, step);
  } else {
    leavePlace(state, unit);
    takePlace(state, unit, step);
  }
};

const keepOwn = (state: CellState, unit: Unit, step: Step): void => {
  const { place } = unit;
  const kept = step.uses.map((kind) => {
    const item = ownItem(unit, kind);
    if (item !== null) place[place.indexOf(item)] = null;
    return item;
  });
  leavePlace(state, unit);
  step.uses.forEach((kind, i) => (place[i] = kept[i] ?? takeItem(state, kind, unit)));
};

export const hasPlace = (unit: Unit): boolean => {
  if (unit.held === 0) return false;
  const { place } = unit;
  for (let i = 0; i < place.length; i++) if (place[i] !== null) return true;
  return false;
};

/** Takes all the gear a step uses, as the unit's place. */
export const takePlace = (state: CellState, unit: Unit, step: Step): void => {
  const { uses } = step;
  for (let i = 0; i < uses.length; i++) unit.place[i] = takeItem(state, uses[i]!, unit);
};

/** Is all the gear of a step free for this unit? What it stands on is. */
export const placeIsFree = (unit: Unit, step: Step): boolean => {
  const { uses } = step;
  for (let i = 0; i < uses.length; i++)
    if (uses[i]!.free <= 0 && ownItem(unit, uses[i]!) === null) return false;
  return true;
};

/** Takes the gear that stays with the unit from this step on, unless it has it already. */
export const takeAlong = (state: CellState, unit: Unit, step: Step): void => {
  const { takes } = step;
  for (let i = 0; i < takes.length; i++) {
    const { index, kind } = takes[i]!;
    if (unit.taken[index] === null) unit.taken[index] = takeItem(state, kind, unit);
  }
};

const freeTaken = (state: CellState, unit: Unit, index: number): void => {
  const item = unit.taken[index]!;
  if (item === null) return;
  unit.taken[index] = null;
  giveBack(state, item);
};

/** Frees what this step frees. */
export const freeAfter = (state: CellState, unit: Unit, step: Step): void => {
  const { frees } = step;
  for (let i = 0; i < frees.length; i++) freeTaken(state, unit, frees[i]!.index);
};

/** Going back to or before the taking step frees what was taken there. */
export const freeOnReturn = (state: CellState, unit: Unit, to: Step): void => {
  const { takes } = state.cell;
  for (let index = 0; index < takes.count; index++) {
    if (to.position <= state.steps[takes.step[index]!]!.position) freeTaken(state, unit, index);
  }
};

export const freeAll = (state: CellState, unit: Unit): void => {
  if (unit.held === 0) return;
  for (let index = 0; index < unit.taken.length; index++) freeTaken(state, unit, index);
  leavePlace(state, unit);
};

/** Tells what all the gear of a unit is doing now. */
export const tellGear = (state: CellState, unit: Unit, code: number): void => {
  const { place, taken } = unit;
  let left = unit.held;
  for (let i = 0; left > 0 && i < place.length; i++) left -= tellItem(state, unit, place[i]!, code);
  for (let i = 0; left > 0; i++) left -= tellItem(state, unit, taken[i]!, code);
};

/** How many pieces of gear that was: 1 or 0. */
const tellItem = (state: CellState, unit: Unit, item: GearItem | null, code: number): number => {
  if (item === null) return 0;
  state.recorder.gear(state.now, item.kind.index, item.number, code, unit.number);
  return 1;
};

/**
 * Planned or drawn: the item goes out of order for `repair` ms, once the piece in it is finished. A planned
 * time that falls into another repair is had with it.
 */
export const failItem = (state: CellState, item: GearItem, repair: number): void => {
  if (item.out || item.repair >= 0) return;
  if (item.unit !== null) {
    item.repair = repair;
    return;
  }
  takeFree(state, item.kind);
  goOut(state, item, repair);
};

const goOutAfterPiece = (state: CellState, item: GearItem): void => {
  const { repair } = item;
  item.repair = -1;
  goOut(state, item, repair);
};

const goOut = (state: CellState, item: GearItem, repair: number): void => {
  item.out = true;
  state.recorder.gear(state.now, item.kind.index, item.number, OUT_OF_ORDER, NONE);
  state.plan(state.now + repair, RANK_RETURNS, GEAR_BACK, item.index, 0);
};

export const gearBack = (state: CellState, item: GearItem): void => {
  item.out = false;
  addFree(state, item.kind);
  state.recorder.gear(state.now, item.kind.index, item.number, FREE, NONE);
  if (!item.failed) return;
  item.failed = false;
  planFailure(state, item);
};

const drawFailure = (state: CellState, item: GearItem): number =>
  draw(state, PURPOSE.GEAR_FAILURE, item.number, item.kind.index, item.failures);

/** Plans the next failure of an item whose kind fails at random. */
export const planFailure = (state: CellState, item: GearItem): void => {
  const { fails } = item.kind;
  if (fails === null) return;
  const after = toMilliseconds(sample(fails, drawFailure(state, item)));
  state.plan(state.now + after, RANK_RETURNS, GEAR_FAILS, item.index, NONE);
};

/** A drawn failure (`planned` < 0) or a planned time out of order of so many ms. */
export const gearFails = (state: CellState, item: GearItem, planned: number): void => {
  if (planned >= 0) {
    failItem(state, item, planned);
    return;
  }
  drawFailure(state, item);
  const luck = secondWord();
  item.failures++;
  if (item.out || item.repair >= 0) {
    planFailure(state, item);
    return;
  }
  item.failed = true;
  failItem(state, item, toMilliseconds(sample(item.kind.repair!, luck)));
};

/** Every item of the shift free and in order. */
export const resetGear = (state: CellState): void => {
  const { steps, kinds } = state;
  for (let i = 0; i < steps.length; i++) steps[i]!.gearShort = 0;
  state.gearMask = (1 << steps.length) - 1;
  for (let i = 0; i < kinds.length; i++) resetKind(state, kinds[i]!);
};

const resetKind = (state: CellState, kind: GearKind): void => {
  const { items, count } = kind;
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!;
    item.unit = null;
    item.out = false;
    item.repair = -1;
    item.failures = 0;
    item.failed = false;
  }
  kind.free = count;
  if (count > 0) return;
  kind.free = 1;
  takeFree(state, kind);
};

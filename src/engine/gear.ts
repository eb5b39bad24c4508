/** Gear: taking, giving back, going out of order, and telling the recorder what each piece of it is doing. */
import { sample } from './distributions/compile.ts';
import { toMilliseconds } from './compile.ts';
import { GEAR_BACK, GEAR_FAILS, RANK_RETURNS } from './ranks.ts';
import { FREE, OUT_OF_ORDER } from './recorder.ts';
import { PURPOSE } from './random/keys.ts';
import { draw, secondWord } from './draws.ts';
import { NONE, type CellState, type Unit } from './state.ts';

function tell(state: CellState, item: number, code: number, unit: Unit | null): void {
  const kind = state.itemKind[item]!;
  const number = unit === null ? NONE : unit.number;
  state.recorder.gear(state.now, kind, item - state.cell.gear.firstItem[kind]!, code, number);
}

/** One more (or less) of a kind is free: which steps now have all they need? */
function changeFree(state: CellState, kind: number, by: number): void {
  const before = state.freeGear[kind]!;
  const after = before + by;
  state.freeGear[kind] = after;
  if (before > 0 === after > 0) return;
  const { neededBy } = state.cell.gear;
  const { gearShort } = state;
  for (let mask = neededBy[kind]!; mask !== 0; mask &= mask - 1) {
    const step = 31 - Math.clz32(mask & -mask);
    const short = gearShort[step]! + (after > 0 ? -1 : 1);
    gearShort[step] = short;
    if (short === 0) state.gearMask |= 1 << step;
    else state.gearMask &= ~(1 << step);
  }
}

/** Takes the lowest-numbered free item of a kind for a unit; the caller knows that one is free. */
export function takeItem(state: CellState, kind: number, unit: Unit): number {
  let item = state.cell.gear.firstItem[kind]!;
  while (state.itemUnit[item] !== null || state.itemOut[item] !== 0) item++;
  state.itemUnit[item] = unit;
  changeFree(state, kind, -1);
  return item;
}

export function giveBack(state: CellState, item: number): void {
  state.itemUnit[item] = null;
  const repair = state.itemRepair[item]!;
  if (repair >= 0) {
    state.itemRepair[item] = -1;
    goOut(state, item, repair);
    return;
  }
  changeFree(state, state.itemKind[item]!, 1);
  tell(state, item, FREE, null);
}

/** Gives the place of a unit back: the bench it stands on, or the slot it cured in. */
export function leavePlace(state: CellState, unit: Unit): void {
  const { place } = unit;
  for (let i = 0; i < place.length; i++) {
    const item = place[i]!;
    if (item === NONE) continue;
    place[i] = NONE;
    giveBack(state, item);
  }
}

/** The piece of a kind the unit stands on; NONE where it has none. */
export function ownItem(state: CellState, unit: Unit, kind: number): number {
  for (const item of unit.place) if (item !== NONE && state.itemKind[item] === kind) return item;
  return NONE;
}

/** From where the unit stands onto the gear of a step. What it stands on and needs again it keeps, even if that is to go out of order. */
export function changePlace(state: CellState, unit: Unit, step: number): void {
  const { uses, usesFrom, ownPlace } = state.cell.steps;
  if (ownPlace[step] === 0 || !hasPlace(unit)) {
    leavePlace(state, unit);
    takePlace(state, unit, step);
    return;
  }
  const { place } = unit;
  const { kept } = state;
  const from = usesFrom[step]!;
  const count = usesFrom[step + 1]! - from;
  for (let i = 0; i < count; i++) {
    kept[i] = ownItem(state, unit, uses[from + i]!);
    if (kept[i] !== NONE) place[place.indexOf(kept[i]!)] = NONE;
  }
  leavePlace(state, unit);
  for (let i = 0; i < count; i++) place[i] = kept[i] === NONE ? takeItem(state, uses[from + i]!, unit) : kept[i]!;
}

export function hasPlace(unit: Unit): boolean {
  for (const item of unit.place) if (item !== NONE) return true;
  return false;
}

/** Takes all the gear a step uses, as the unit's place. */
export function takePlace(state: CellState, unit: Unit, step: number): void {
  const { uses, usesFrom } = state.cell.steps;
  let at = 0;
  for (let i = usesFrom[step]!; i < usesFrom[step + 1]!; i++) unit.place[at++] = takeItem(state, uses[i]!, unit);
}

/** Is all the gear of a step free for this unit? What it stands on is. */
export function placeIsFree(state: CellState, unit: Unit, step: number): boolean {
  const { uses, usesFrom } = state.cell.steps;
  for (let i = usesFrom[step]!; i < usesFrom[step + 1]!; i++) {
    if (state.freeGear[uses[i]!]! <= 0 && ownItem(state, unit, uses[i]!) === NONE) return false;
  }
  return true;
}

/** Takes the gear that stays with the unit from this step on, unless it has it already. */
export function takeAlong(state: CellState, unit: Unit, step: number): void {
  const { takes, takesFrom } = state.cell.steps;
  for (let i = takesFrom[step]!; i < takesFrom[step + 1]!; i++) {
    const rule = takes[i]!;
    if (unit.taken[rule] === NONE) unit.taken[rule] = takeItem(state, state.cell.takes.gear[rule]!, unit);
  }
}

function freeRule(state: CellState, unit: Unit, rule: number): void {
  const item = unit.taken[rule]!;
  if (item === NONE) return;
  unit.taken[rule] = NONE;
  giveBack(state, item);
}

/** Frees what this step frees. */
export function freeAfter(state: CellState, unit: Unit, step: number): void {
  const { frees, freesFrom } = state.cell.steps;
  for (let i = freesFrom[step]!; i < freesFrom[step + 1]!; i++) freeRule(state, unit, frees[i]!);
}

/** Going back to or before the taking step frees what was taken there. */
export function freeOnReturn(state: CellState, unit: Unit, to: number): void {
  const { takes, steps } = state.cell;
  for (let rule = 0; rule < takes.count; rule++) {
    if (steps.position[to]! <= steps.position[takes.step[rule]!]!) freeRule(state, unit, rule);
  }
}

export function freeAll(state: CellState, unit: Unit): void {
  for (let rule = 0; rule < state.cell.takes.count; rule++) freeRule(state, unit, rule);
  leavePlace(state, unit);
}

/** Tells what all the gear of a unit is doing now. */
export function tellGear(state: CellState, unit: Unit, code: number): void {
  const { place, taken } = unit;
  for (let i = 0; i < place.length; i++) if (place[i] !== NONE) tell(state, place[i]!, code, unit);
  for (let i = 0; i < taken.length; i++) if (taken[i] !== NONE) tell(state, taken[i]!, code, unit);
}

/** Planned or drawn: the item goes out of order for `repair` ms, once the piece in it is finished. A planned time that falls into another repair is had with it. */
export function failItem(state: CellState, item: number, repair: number): void {
  if (state.itemOut[item] !== 0 || state.itemRepair[item]! >= 0) return;
  if (state.itemUnit[item] !== null) {
    state.itemRepair[item] = repair;
    return;
  }
  changeFree(state, state.itemKind[item]!, -1);
  goOut(state, item, repair);
}

function goOut(state: CellState, item: number, repair: number): void {
  state.itemOut[item] = 1;
  tell(state, item, OUT_OF_ORDER, null);
  state.plan(state.now + repair, RANK_RETURNS, GEAR_BACK, item, 0);
}

export function gearBack(state: CellState, item: number): void {
  state.itemOut[item] = 0;
  changeFree(state, state.itemKind[item]!, 1);
  tell(state, item, FREE, null);
  if (state.itemFailed[item] === 0) return;
  state.itemFailed[item] = 0;
  planFailure(state, item);
}

function drawFailure(state: CellState, item: number): number {
  const kind = state.itemKind[item]!;
  return draw(state, PURPOSE.GEAR_FAILURE, item - state.cell.gear.firstItem[kind]!, kind, state.itemFailures[item]!);
}

/** Plans the next failure of an item whose kind fails at random. */
export function planFailure(state: CellState, item: number): void {
  const fails = state.cell.gear.fails[state.itemKind[item]!];
  if (!fails) return;
  const after = toMilliseconds(sample(fails, drawFailure(state, item)));
  state.plan(state.now + after, RANK_RETURNS, GEAR_FAILS, item, NONE);
}

/** A drawn failure (`planned` < 0) or a planned time out of order of so many ms. */
export function gearFails(state: CellState, item: number, planned: number): void {
  if (planned >= 0) {
    failItem(state, item, planned);
    return;
  }
  drawFailure(state, item);
  const luck = secondWord();
  state.itemFailures[item] = state.itemFailures[item]! + 1;
  const repair = state.cell.gear.repair[state.itemKind[item]!]!;
  if (state.itemOut[item] !== 0 || state.itemRepair[item]! >= 0) {
    planFailure(state, item);
    return;
  }
  state.itemFailed[item] = 1;
  failItem(state, item, toMilliseconds(sample(repair, luck)));
}

/** Every item free and in order; `counts` items of each kind. */
export function resetGear(state: CellState): void {
  const { gear, steps } = state.cell;
  state.gearShort.fill(0);
  state.gearMask = (1 << steps.count) - 1;
  for (let kind = 0; kind < gear.count; kind++) {
    state.freeGear[kind] = 1;
    changeFree(state, kind, gear.items[kind]! - 1);
  }
  state.itemUnit.fill(null);
  state.itemOut.fill(0);
  state.itemRepair.fill(-1);
  state.itemFailures.fill(0);
  state.itemFailed.fill(0);
  for (let kind = 0; kind < gear.count; kind++) {
    for (let item = gear.firstItem[kind]!; item < gear.firstItem[kind + 1]!; item++) state.itemKind[item] = kind;
  }
}

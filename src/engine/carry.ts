/**
 * The opening of a shift: fresh memory or what the last shift left, people and gear as they start the day.
 */
import { leaveDown } from './left-pieces.ts';
import { createCarried } from './carried.ts';
import { HandoverError } from './handover-error.ts';
import { resetGear, failItem, planFailure, takeItem, tellGear } from './gear.ts';
import { toMilliseconds } from './compile.ts';
import { END_WAIT, GEAR_BACK, GEAR_FAILS, RACK_BACK, RANK_ENDS, RANK_RETURNS, RELEASE } from './ranks.ts';
import { gearAt, gearBefore, gearPutDown, NOT_IN, OUT_OF_ORDER } from './recorder.ts';
import {
  ASIDE,
  BLOCKED,
  dropUnit,
  IN_LINE,
  IN_WAIT,
  NONE,
  OUT,
  PUT_DOWN,
  type CellState,
  type GearItem,
  type UnitList,
  type Unit,
  unitsInside,
} from './state.ts';
import type { CompiledCell } from './tables.ts';

/**
 * Opens a shift at time 0: the first of a replication on an empty cell with the file's carry-over, a later
 * one on what stands there.
 */
export const openShift = (state: CellState, first: boolean): void => {
  if (first) empty(state);
  state.now = 0;
  state.goods = 0;
  state.targetReached = false;
  state.toCalendar(0);
  state.anyEnded = false;
  state.nothingNew = false;
  openPeople(state);
  state.ownPlaceMask = state.cell.steps.ownPlace.reduce(
    (mask, own, step) => (own !== 0 ? mask | (1 << step) : mask),
    0,
  );
  if (first) {
    resetGear(state);
    createCarried(state);
  } else {
    tellStanding(state);
  }
  openGear(state, first);
};

const empty = (state: CellState): void => {
  state.events.clear();
  for (let i = 0; i < state.top; i++) if (state.units[i]!.where !== 0) dropUnit(state, state.units[i]!);
  state.top = 0;
  state.sequence = 0;
  state.nextNumber = 0;
  state.inside = 0;
  state.lineMask = 0;
  state.leftMask = 0;
  state.circleDue = false;
  const { steps } = state;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    step.inSlots = 0;
    step.outside = 0;
    clear(step.line);
    clear(step.left);
  }
  clear(state.blocked);
  clear(state.outside);
  state.wantingPlace.length = 0;
  clear(state.aside);
  state.outRackHere = state.cell.shift.outRack?.racks ?? 0;
  state.outRackUnits = 0;
  state.outRackTimes = 0;
};

const clear = (list: UnitList): void => {
  list.first = null;
  list.last = null;
  list.length = 0;
};

const openPeople = (state: CellState): void => {
  const { people } = state.cell;
  state.present = 0;
  state.idleMask = 0;
  for (const person of state.people) {
    person.at = OUT;
    person.told = NOT_IN;
    person.piece = null;
    person.ended = 0;
    person.owedFrom = 0;
    person.owedTo = 0;
    person.lastPiece = -Infinity;
    person.nextOff = people.offFrom[person.index]!;
    person.coverNow(person.covers[0]!);
  }
};

/**
 * Planned times out of order take the lowest-numbered items; kinds that fail at random get their first
 * failure.
 */
const openGear = (state: CellState, first: boolean): void => {
  const { gear } = state.cell.shift;
  for (let i = 0; i < gear.length; i++) {
    const { items, count, fails } = state.kinds[i]!;
    for (const out of gear[i]!.out) {
      const last = Math.min(out.items, count);
      for (let item = 0; item < last; item++)
        planOut(state, items[item]!, toMilliseconds(out.from), toMilliseconds(out.minutes));
    }
    if (!first || fails === null) continue;
    for (let item = 0; item < count; item++) planFailure(state, items[item]!);
  }
};

const planOut = (state: CellState, item: GearItem, time: number, length: number): void => {
  if (time === 0) failItem(state, item, length);
  else state.plan(time, RANK_RETURNS, GEAR_FAILS, item.index, length);
};

/**
 * From the end of one shift to the start of the next: waits and holds run on by the clock on the wall,
 * everything else stands where it stood. Times of units are moved so that 0 is the new start and the night
 * counts in none of them.
 */
export const carryOn = (state: CellState, before: CompiledCell, cell: CompiledCell): void => {
  const { events } = state;
  const worked = state.now;
  const night = toMilliseconds(cell.shift.startsAfter - before.shift.startsAfter);
  const sameGear =
    before.gearIds.join() === cell.gearIds.join() &&
    before.gear.items.every((count, kind) => count === cell.gear.items[kind]);
  const planned: { time: number; order: number; kind: number; a: number; b: number }[] = [];
  events.forEach((time, order, kind, a, b) => planned.push({ time, order, kind, a, b }));
  planned.sort((a, b) => a.time - b.time || a.order - b.order);
  events.clear();
  state.now = 0;
  for (const { time, kind, a, b } of planned) {
    const unit = state.units[a]!;
    if ((kind === END_WAIT || kind === RELEASE) && unit.token === b) {
      unit.ends = Math.max(0, time - night);
      state.plan(unit.ends, kind === END_WAIT ? RANK_ENDS : RANK_RETURNS, kind, a, b);
    } else if (kind === RACK_BACK || (sameGear && (kind === GEAR_BACK || (kind === GEAR_FAILS && b < 0)))) {
      state.plan(time - worked, RANK_RETURNS, kind, a, b);
    }
  }
  for (const unit of unitsInside(state)) {
    unit.arrival = unit.arrival - worked;
    unit.firstStart = unit.firstStart - worked;
    unit.since = unit.since - worked;
    unit.due = unit.due - night;
    if (unit.where === PUT_DOWN && unit.person !== null) leaveDown(state, unit);
    // People are numbered by each shift's own crew.
    unit.lastBy.forEach((by, step) => {
      if (by !== NONE) unit.lastBy[step] = cell.personIds.indexOf(before.personIds[by]!);
    });
  }
  if (!sameGear) renumberGear(state, cell);
  // A part-filled out-rack has waited what it has waited; this shift may have more racks, or fewer.
  state.outRackFirst -= worked;
  state.outRackTimes -= state.outRackUnits * worked;
  state.outRackHere += (cell.shift.outRack?.racks ?? 0) - (before.shift.outRack?.racks ?? 0);
};

/**
 * The next shift may have more or fewer of a kind: what units hold is taken again by its numbers. What was
 * out of order is mended by then. Throws HandoverError where units hold more than there are.
 */
const renumberGear = (state: CellState, cell: CompiledCell): void => {
  const held: { list: (GearItem | null)[]; at: number; item: GearItem; unit: Unit }[] = [];
  for (const unit of unitsInside(state)) {
    unit.held = 0;
    for (const list of [unit.place, unit.taken]) {
      list.forEach((item, at) => {
        if (item !== null) held.push({ list, at, item, unit });
      });
    }
  }
  resetGear(state);
  for (const { list, at, item, unit } of held) {
    const { kind } = item;
    if (!state.kinds.includes(kind) || kind.free === 0)
      throw tooFew(state, cell, kind.id, held.filter((one) => one.item.kind === kind).length);
    list[at] = takeItem(state, kind, unit);
  }
  for (const kind of state.kinds)
    for (const item of kind.items.slice(0, kind.count)) planFailure(state, item);
};

const tooFew = (state: CellState, cell: CompiledCell, id: string, holding: number): HandoverError => {
  const { name, gear } = cell.shift;
  const kind = gear.find((one) => one.id === id);
  const there = kind === undefined || kind.count === 0 ? 'none' : `only ${kind.count}`;
  return new HandoverError(
    `pieces left over by the shift before “${name}” hold ${holding} of “${kind?.name ?? id}”, but “${name}” has ${there} (run ${state.replication + 1}); give it at least ${holding}, or have fewer pieces stand over`,
  );
};

/** What stands in the cell counts as arrived in this shift's report too. */
const tellStanding = (state: CellState): void => {
  const { recorder } = state;
  const order = unitsInside(state);
  for (const unit of order) recorder.arrive(0, unit.number, unit.product);
  for (const step of state.steps) {
    let length = 0;
    for (let unit = step.line.first; unit !== null; unit = unit.after)
      recorder.join(0, unit.number, step.index, ++length);
  }
  let outside = 0;
  for (let unit = state.outside.first; unit !== null; unit = unit.after)
    recorder.keepOutside(0, unit.number, ++outside);
  for (const unit of order) tellUnit(state, unit);
  for (const item of state.items)
    if (item.out) recorder.gear(0, item.kind.index, item.number, OUT_OF_ORDER, NONE);
};

const tellUnit = (state: CellState, unit: Unit): void => {
  const { recorder } = state;
  const number = unit.number;
  const step = unit.step === null ? NONE : unit.step.index;
  switch (unit.where) {
    case IN_LINE:
      tellGear(state, unit, gearBefore(step));
      break;
    case IN_WAIT:
      tellGear(state, unit, gearAt(step));
      recorder.waitStart(0, number, step, unit.ends);
      break;
    case BLOCKED:
      tellGear(state, unit, gearBefore(unit.to!.index));
      recorder.block(0, number, step, unit.to!.index);
      break;
    case ASIDE:
      tellGear(state, unit, gearBefore(step));
      recorder.standAside(0, number, step);
      break;
    case PUT_DOWN:
      tellGear(state, unit, gearPutDown(step));
      recorder.putDown(0, number, step, NONE, unit.ends);
      break;
    default:
      break;
  }
};

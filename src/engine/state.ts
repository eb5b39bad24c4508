/** Everything that changes during a run; used again from replication to replication. */
import { EventList } from './event-list.ts';
import type { ListedArrival } from './intake.ts';
import { orderOf } from './ranks.ts';
import type { Recorder } from './recorder.ts';
import type { CompiledCell } from './tables.ts';

/** Where a unit is. */
export const OUTSIDE = 1;
export const IN_LINE = 2;
export const IN_HAND = 3;
export const PUT_DOWN = 4;
export const IN_WAIT = 5;
export const BLOCKED = 6;
export const ASIDE = 7;

/** What a person is at, for the engine's own use; the recorder's finer codes come out of it. */
export const OUT = 0;
export const IDLE = 1;
export const BUSY = 2;
export const OFF = 3;
export const LEAVING = 4;
export const LEFT = 5;

/** Past their own end: without overtime, or with some to be had at that moment. */
export const ENDED = 1;
export const ENDED_IN_OVERTIME = 2;

export const NONE = -1;

/** A list of units in order of arrival in it, linked both ways through the units themselves. */
export class UnitList {
  first: Unit | null = null;
  last: Unit | null = null;
  length = 0;
}

/** A unit. An object is used again once its unit has left the cell, so that a run makes nothing new. */
export class Unit {
  /** Place in `units`, by which planned events name it. */
  readonly index: number;
  number = 0;
  product = 0;
  where = 0;
  step = NONE;
  /** Blocked, outside or standing aside: the step it goes to. */
  to = NONE;
  rush = 0;
  slotted = 0;
  /** The wait for whose gear it still stands on the bench of the step before; it may be over already. */
  wantsPlace = NONE;
  arrival = 0.5;
  firstStart = NaN;
  due = Infinity;
  /** Joined its line; blocked since. Orders lines; waits are counted from the later of this and 0. */
  since = 0.5;
  /** Planned end; or ms left, where put down. */
  ends = 0.5;
  /** Moves on with everything that makes a planned event of this unit void. */
  token = 0;
  /** Second word of the step's draw: its outcome. */
  luck = 0;
  person = NONE;
  second = NONE;
  repeats = 0;
  before: Unit | null = null;
  after: Unit | null = null;
  name: string | null = null;
  /** By step. */
  readonly visits: number[];
  readonly lastBy: number[];
  /** Items used where it stands, then NONE; and by taking, the item taken. */
  readonly place: number[];
  readonly taken: number[];

  constructor(index: number, steps: number, places: number, takes: number) {
    this.index = index;
    this.visits = new Array<number>(steps).fill(0);
    this.lastBy = new Array<number>(steps).fill(NONE);
    this.place = new Array<number>(places).fill(NONE);
    this.taken = new Array<number>(takes).fill(NONE);
  }
}

export class CellState {
  cell!: CompiledCell;
  recorder!: Recorder;
  events = new EventList();
  units: Unit[] = [];
  free: Unit[] = [];
  /** Highest index in use plus one: what a scan over the cell has to look at. */
  top = 0;
  now = 0;
  sequence = 0;
  replication = 0;
  shiftNumber = 0;
  key0 = 0;
  key1 = 0;
  places = 0;

  nextNumber = 0;
  inside = 0;
  goods = 0;
  targetReached = false;

  lines: UnitList[] = [];
  inSlots = new Int32Array(0);
  blocked = new UnitList();
  /** A unit was blocked since circles were last looked for. */
  circleDue = false;
  circlesPossible = true;
  outside = new UnitList();
  /** Units that want the place of a wait, longest first; they may stand in a line as well. */
  readonly wantingPlace: Unit[] = [];
  /** Put-down pieces of nobody, by step. */
  leftDown: UnitList[] = [];
  aside = new UnitList();

  lineMask = 0;
  gearMask = 0;
  leftMask = 0;
  /** Steps whose gear the head of their line may hold itself. */
  ownPlaceMask = 0;
  gearShort = new Int32Array(0);
  freeGear = new Int32Array(0);
  itemKind = new Int32Array(0);
  itemUnit: (Unit | null)[] = [];
  itemOut = new Uint8Array(0);
  /** Goes out of order for so long once its piece is finished; -1 otherwise. */
  itemRepair = new Float64Array(0);
  itemFailures = new Int32Array(0);
  /** Its repair is one of a failure: the next failure is drawn when it is back. */
  itemFailed = new Uint8Array(0);
  /** Used while a unit changes its place. */
  kept = new Int32Array(0);

  at = new Uint8Array(0);
  present = 0;
  calendarAt = 0;
  /** Somebody has reached their own end. */
  anyEnded = false;
  idle = 0;
  told = new Int32Array(0);
  cover = new Int32Array(0);
  piece: (Unit | null)[] = [];
  ended = new Uint8Array(0);
  /** Comes at the time in the calendar. */
  comes = new Uint8Array(0);
  offUntil = new Float64Array(0);
  /** 1: a break. */
  offKind = new Uint8Array(0);
  offToken = new Int32Array(0);
  nextOff = new Int32Array(0);
  owedFrom = new Int32Array(0);
  owedTo = new Int32Array(0);
  lastPiece = new Float64Array(0);

  outRackHere = 0;
  outRackUnits = 0;
  outRackFirst = 0;
  outRackTimes = 0;

  arrivalCount = 0;
  /** When the next one is planned; Infinity for none. */
  nextArrival = Infinity;
  listed: ListedArrival[] = [];
  listedOf: CompiledCell | null = null;

  plan(time: number, rank: number, kind: number, a: number, b: number): void {
    this.events.plan(time, orderOf(rank, this.sequence++), kind, a, b);
  }
}

export function setAt(state: CellState, person: number, at: number): void {
  if (state.at[person] === IDLE) state.idle--;
  if (at === IDLE) state.idle++;
  state.at[person] = at;
}

export function append(list: UnitList, unit: Unit): void {
  insertAfter(list, unit, list.last);
}

/** Puts `unit` in just after `place` (null: at the front). */
export function insertAfter(list: UnitList, unit: Unit, place: Unit | null): void {
  const next = place === null ? list.first : place.after;
  unit.before = place;
  unit.after = next;
  if (place === null) list.first = unit;
  else place.after = unit;
  if (next === null) list.last = unit;
  else next.before = unit;
  list.length++;
}

export function remove(list: UnitList, unit: Unit): void {
  const { before, after } = unit;
  if (before === null) list.first = after;
  else before.after = after;
  if (after === null) list.last = before;
  else after.before = before;
  list.length--;
}

/** A new unit, all fields fresh. */
export function newUnit(state: CellState, product: number, arrival: number): Unit {
  const unit = state.free.pop() ?? makeUnit(state);
  if (unit.index >= state.top) state.top = unit.index + 1;
  unit.number = state.nextNumber++;
  unit.product = product;
  unit.arrival = arrival;
  unit.firstStart = NaN;
  unit.due = Infinity;
  unit.rush = 0;
  unit.slotted = 0;
  unit.wantsPlace = NONE;
  unit.person = NONE;
  unit.second = NONE;
  unit.repeats = 0;
  unit.name = null;
  for (let step = 0; step < unit.visits.length; step++) {
    unit.visits[step] = 0;
    unit.lastBy[step] = NONE;
  }
  return unit;
}

function makeUnit(state: CellState): Unit {
  const { cell } = state;
  const unit = new Unit(state.units.length, cell.steps.count, state.places, cell.takes.count);
  state.units.push(unit);
  return unit;
}

/** Gives a unit that has left the cell back. Its token moves on, so that no planned event finds it. */
export function dropUnit(state: CellState, unit: Unit): void {
  unit.where = 0;
  unit.token++;
  for (let i = 0; i < unit.place.length; i++) unit.place[i] = NONE;
  for (let i = 0; i < unit.taken.length; i++) unit.taken[i] = NONE;
  state.free.push(unit);
}

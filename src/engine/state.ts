/** Everything that changes during a run, in flat arrays that are used again from replication to replication. */
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

export const NONE = -1;

/** A list of units in order of arrival in it, linked both ways through `after` and `before` of the state. */
export class UnitList {
  first = NONE;
  last = NONE;
  length = 0;
}

/** Per unit, by its place in the arrays; a place is used again once its unit has left the cell. */
export class Units {
  capacity = 0;
  number = new Int32Array(0);
  product = new Int32Array(0);
  where = new Uint8Array(0);
  step = new Int32Array(0);
  /** Blocked or standing aside: the step it goes to. */
  to = new Int32Array(0);
  rush = new Uint8Array(0);
  slotted = new Uint8Array(0);
  /** Curing on the bench of the step before, for want of a place of its own. */
  wantsPlace = new Uint8Array(0);
  arrival = new Float64Array(0);
  firstStart = new Float64Array(0);
  due = new Float64Array(0);
  /** Joined its line; blocked since. Orders lines, and waits are counted from the later of this and 0. */
  since = new Float64Array(0);
  /** Planned end; or ms left, where put down. */
  ends = new Float64Array(0);
  token = new Int32Array(0);
  /** Second word of the step's draw: its outcome. */
  luck = new Int32Array(0);
  person = new Int32Array(0);
  second = new Int32Array(0);
  repeats = new Int32Array(0);
  before = new Int32Array(0);
  after = new Int32Array(0);
  /** [units x steps] */
  visits = new Uint16Array(0);
  lastBy = new Int16Array(0);
  /** [units x places] items used where it stands; [units x takes] items taken. */
  place = new Int32Array(0);
  taken = new Int32Array(0);
  names: (string | null)[] = [];
  free: number[] = [];
}

export class CellState {
  cell!: CompiledCell;
  recorder!: Recorder;
  events = new EventList();
  units = new Units();
  /** Highest place in use plus one: what a scan over the cell has to look at. */
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
  wantingPlace = new UnitList();
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
  itemUnit = new Int32Array(0);
  itemOut = new Uint8Array(0);
  /** Goes out of order for so long once its piece is finished; -1 otherwise. */
  itemRepair = new Float64Array(0);
  itemFailures = new Int32Array(0);

  at = new Uint8Array(0);
  present = 0;
  calendarAt = 0;
  /** Somebody has reached their own end. */
  anyEnded = false;
  idle = 0;
  told = new Int32Array(0);
  cover = new Int32Array(0);
  piece = new Int32Array(0);
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

export function append(state: CellState, list: UnitList, unit: number): void {
  const { before, after } = state.units;
  before[unit] = list.last;
  after[unit] = NONE;
  if (list.last === NONE) list.first = unit;
  else after[list.last] = unit;
  list.last = unit;
  list.length++;
}

/** Puts `unit` in just after `place` (NONE: at the front). */
export function insertAfter(state: CellState, list: UnitList, unit: number, place: number): void {
  const { before, after } = state.units;
  const next = place === NONE ? list.first : after[place]!;
  before[unit] = place;
  after[unit] = next;
  if (place === NONE) list.first = unit;
  else after[place] = unit;
  if (next === NONE) list.last = unit;
  else before[next] = unit;
  list.length++;
}

export function remove(state: CellState, list: UnitList, unit: number): void {
  const { before, after } = state.units;
  const previous = before[unit]!;
  const next = after[unit]!;
  if (previous === NONE) list.first = next;
  else after[previous] = next;
  if (next === NONE) list.last = previous;
  else before[next] = previous;
  list.length--;
}

/** A place for a new unit, all fields fresh. */
export function newUnit(state: CellState, product: number, arrival: number): number {
  const units = state.units;
  if (units.free.length === 0) growUnits(state);
  const unit = units.free.pop()!;
  if (unit >= state.top) state.top = unit + 1;
  const steps = state.cell.steps.count;
  const takes = state.cell.takes.count;
  units.number[unit] = state.nextNumber++;
  units.product[unit] = product;
  units.arrival[unit] = arrival;
  units.firstStart[unit] = NaN;
  units.due[unit] = Infinity;
  units.rush[unit] = 0;
  units.slotted[unit] = 0;
  units.wantsPlace[unit] = 0;
  units.person[unit] = NONE;
  units.second[unit] = NONE;
  units.repeats[unit] = 0;
  units.names[unit] = null;
  for (let i = unit * steps; i < (unit + 1) * steps; i++) {
    units.visits[i] = 0;
    units.lastBy[i] = NONE;
  }
  for (let i = unit * state.places; i < (unit + 1) * state.places; i++) units.place[i] = NONE;
  for (let i = unit * takes; i < (unit + 1) * takes; i++) units.taken[i] = NONE;
  return unit;
}

/** Gives the place of a unit that has left the cell back. Its token moves on, so that no planned event finds it. */
export function dropUnit(state: CellState, unit: number): void {
  const units = state.units;
  units.where[unit] = 0;
  units.token[unit] = units.token[unit]! + 1;
  units.free.push(unit);
}

function growUnits(state: CellState): void {
  const units = state.units;
  const old = units.capacity;
  const capacity = Math.max(64, old * 2);
  const steps = state.cell.steps.count;
  const takes = state.cell.takes.count;
  const wider = <T extends { set(old: T): void }>(before: T, made: T): T => (made.set(before), made);
  for (const name of ['number', 'product', 'step', 'to', 'token', 'luck', 'person', 'second', 'repeats', 'before', 'after'] as const) {
    units[name] = wider(units[name], new Int32Array(capacity));
  }
  for (const name of ['where', 'rush', 'slotted', 'wantsPlace'] as const) units[name] = wider(units[name], new Uint8Array(capacity));
  for (const name of ['arrival', 'firstStart', 'due', 'since', 'ends'] as const) units[name] = wider(units[name], new Float64Array(capacity));
  units.visits = wider(units.visits, new Uint16Array(capacity * steps));
  units.lastBy = wider(units.lastBy, new Int16Array(capacity * steps));
  units.place = wider(units.place, new Int32Array(capacity * state.places));
  units.taken = wider(units.taken, new Int32Array(capacity * takes));
  units.capacity = capacity;
  for (let unit = capacity - 1; unit >= old; unit--) units.free.push(unit);
}

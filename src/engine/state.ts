/** Everything that changes during a run; used again from replication to replication. */
import { EventList } from './event-list.ts';
import type { ListedArrival } from './intake.ts';
import { orderOf } from './ranks.ts';
import type { Recorder } from './recorder.ts';
import type { CompiledCell } from './tables.ts';
import {
  BUSY,
  IDLE,
  NONE,
  SHARED_BIT,
  Unit,
  UnitList,
  type GearItem,
  type GearKind,
  type Person,
  type Step,
  type StepRules,
} from './things.ts';

export * from './things.ts';

/** One shift of a day, ready to be run. */
export interface ShiftThings {
  cell: CompiledCell;
  /** By step. */
  rules: StepRules[];
  people: Person[];
  kinds: GearKind[];
  /** The arrivals of a list, in order of time. */
  listed: ListedArrival[];
  /** Can blocked units come to wait for each other in a circle? */
  circlesPossible: boolean;
  /** Hands the steps, gear and people what this shift says of them. */
  enter: () => void;
}

export class CellState {
  cell!: CompiledCell;
  recorder!: Recorder;
  readonly events = new EventList();
  readonly units: Unit[] = [];
  readonly free: Unit[] = [];
  /** Highest index in use plus one: what a scan over the cell has to look at. */
  top = 0;
  now = 0.5;
  /** Something came about at this instant. */
  happened = false;
  sequence = 0;
  replication = 0;
  shiftNumber = 0;
  key0 = 0;
  key1 = 0;
  /** Most kinds of gear a step uses. */
  places = 0;

  readonly steps: Step[];
  /** The way out. */
  readonly out: Step;
  /** All pieces of gear of all shifts, by index. */
  readonly items: GearItem[];
  /** Of this shift. */
  people: Person[] = [];
  kinds: GearKind[] = [];

  nextNumber = 0;
  inside = 0;
  goods = 0;
  targetReached = false;

  readonly blocked = new UnitList();
  /** A unit was blocked since circles were last looked for. */
  circleDue = false;
  circlesPossible = true;
  /** Some units may have to stand aside. */
  hasHolds = false;
  readonly outside = new UnitList();
  /** Units that want the place of a wait, longest first; they may stand in a line as well. */
  readonly wantingPlace: Unit[] = [];
  readonly aside = new UnitList();

  /** Steps with a unit in line; with all their gear free; with a put-down piece of nobody. */
  lineMask = 0;
  gearMask = 0;
  leftMask = 0;
  /** Steps whose gear the head of their line may hold itself. */
  ownPlaceMask = 0;

  /** The shift is over and the overtime is for what is begun: nothing new enters its first step. */
  nothingNew = false;
  present = 0;
  calendarAt = 0;
  /** Time of the calendar's next entry, Infinity for none. */
  calendarDue = 0.5;
  /** Somebody has reached their own end. */
  anyEnded = false;
  /**
   * Idle people, by their bits: every one of them has theirs here; the last bit, shared by many, may also
   * stand for none.
   */
  idleMask = 0;
  /** The unit that `chooseStep` found for the step it chose. */
  chosen: Unit | null = null;

  outRackHere = 0;
  outRackUnits = 0;
  outRackFirst = 0.5;
  outRackTimes = 0.5;

  arrivalCount = 0;
  /** When the next one is planned; Infinity for none. */
  nextArrival = Infinity;
  listed: ListedArrival[] = [];

  constructor(cell: CompiledCell, steps: Step[], out: Step, items: GearItem[], places: number) {
    this.cell = cell;
    this.steps = steps;
    this.out = out;
    this.items = items;
    this.places = places;
  }

  /** Entry `at` of the calendar is the next one. */
  toCalendar(at: number): void {
    const { calendar } = this.cell;
    this.calendarAt = at;
    this.calendarDue = at < calendar.count ? calendar.time[at]! : Infinity;
  }

  plan(time: number, rank: number, kind: number, a: number, b: number): void {
    this.events.plan(time, orderOf(rank, this.sequence++), kind, a, b);
  }
}

export const setAt = (state: CellState, person: Person, at: number): void => {
  person.at = at;
  if (at === IDLE) state.idleMask |= person.bit;
  else if (person.bit !== SHARED_BIT) state.idleMask &= ~person.bit;
};

export const isBusy = (person: Person): boolean => person.at === BUSY;

export const append = (list: UnitList, unit: Unit): void => {
  insertAfter(list, unit, list.last);
};

/** Puts `unit` in just after `place` (null: at the front). */
export const insertAfter = (list: UnitList, unit: Unit, place: Unit | null): void => {
  const next = place === null ? list.first : place.after;
  unit.before = place;
  unit.after = next;
  if (place === null) list.first = unit;
  else place.after = unit;
  if (next === null) list.last = unit;
  else next.before = unit;
  list.length++;
};

export const remove = (list: UnitList, unit: Unit): void => {
  const { before, after } = unit;
  if (before === null) list.first = after;
  else before.after = after;
  if (after === null) list.last = before;
  else after.before = before;
  list.length--;
};

/** A new unit, all fields fresh. */
export const newUnit = (state: CellState, product: number, arrival: number): Unit => {
  const unit = state.free.pop() ?? makeUnit(state);
  if (unit.index >= state.top) state.top = unit.index + 1;
  unit.number = state.nextNumber++;
  unit.product = product;
  unit.arrival = arrival;
  unit.firstStart = NaN;
  unit.due = Infinity;
  unit.rush = 0;
  unit.slotted = false;
  unit.wantsPlace = null;
  unit.person = null;
  unit.second = null;
  unit.repeats = 0;
  unit.name = null;
  if (unit.begun) forgetVisits(unit);
  return unit;
};

const forgetVisits = (unit: Unit): void => {
  unit.begun = false;
  unit.visits.fill(0);
  unit.lastBy.fill(NONE);
};

const makeUnit = (state: CellState): Unit => {
  const unit = new Unit(state.units.length, state.steps.length, state.places, state.cell.takes.count);
  state.units.push(unit);
  return unit;
};

/** A unit that is left where it was at the end of a replication may still have some. */
const clearGear = (unit: Unit): void => {
  unit.place.fill(null);
  unit.taken.fill(null);
  unit.held = 0;
};

/** Gives a unit that has left the cell back. Its token moves on, so that no planned event finds it. */
export const dropUnit = (state: CellState, unit: Unit): void => {
  unit.where = 0;
  unit.token++;
  if (unit.held > 0) clearGear(unit);
  state.free.push(unit);
};

/** Units in the cell or waiting outside, by number: their place in memory depends on the runs before. */
export const unitsInside = (state: CellState): Unit[] =>
  state.units
    .slice(0, state.top)
    .filter((unit) => unit.where !== 0)
    .sort((a, b) => a.number - b.number);

/** Everything that changes during a run; used again from replication to replication. */
import { type GearItem, type GearKind, IDLE, type Person } from './resources.ts';
import type { Step, StepRules, Taking } from './steps.ts';
import { NONE, NOWHERE, Unit, UnitList, UnitStack } from './units.ts';
import type { Curve } from './curves.ts';
import { EventList } from './event-list.ts';
import { type Integers, integers, type List, list, type Numbers, numbers } from './platform.ts';
import { orderOf } from './ranks.ts';
import type { Recorder } from './recorder.ts';

/** How long overtime goes on. */
export const OVERTIME_NONE: i32 = 0;
export const OVERTIME_EMPTY: i32 = 1;
export const OVERTIME_TARGET: i32 = 2;

/** How units arrive. */
export const AT_START: i32 = 0;
export const BEAT: i32 = 1;
export const RANDOM: i32 = 2;
export const LIST: i32 = 3;
export const CONSTANT: i32 = 4;

/** One arrival of a list; `product` is -1 where it is drawn. */
export class Listed {
  readonly time: number;
  readonly product: i32;
  readonly due: number;
  readonly rush: i32;
  readonly name: i32;

  constructor(time: number, product: i32, due: number, rush: i32, name: i32) {
    this.time = time;
    this.product = product;
    this.due = due;
    this.rush = rush;
    this.name = name;
  }
}

/** Units of these names (null: of any), or of this product (-1: any), stand aside before a step. */
export class Hold {
  readonly before: i32;
  readonly until: number;
  readonly product: i32;
  readonly names: Integers | null;

  constructor(before: i32, until: number, product: i32, names: Integers | null) {
    this.before = before;
    this.until = until;
    this.product = product;
    this.names = names;
  }
}

/** Something that happens to a person at a fixed time; `detail` is a number of a cover or of a time off. */
export class Entry {
  readonly time: number;
  readonly order: number;
  readonly kind: i32;
  readonly person: i32;
  readonly detail: i32;

  constructor(time: number, order: number, kind: i32, person: i32, detail: i32) {
    this.time = time;
    this.order = order;
    this.kind = kind;
    this.person = person;
    this.detail = detail;
  }
}

/** So many items of a kind are out of order from then on for so long; which ones shows when it is time. */
export class Outage {
  readonly kind: GearKind;
  readonly items: i32;
  readonly time: number;
  readonly length: number;

  constructor(kind: GearKind, items: i32, time: number, length: number) {
    this.kind = kind;
    this.items = items;
    this.time = time;
    this.length = length;
  }
}

/** How a unit of the carry-over stands in the cell. */
export const WAITS: i32 = 0;
export const CURES: i32 = 1;
export const IS_BLOCKED: i32 = 2;
export const IS_IN_HAND: i32 = 3;
export const IS_PUT_DOWN: i32 = 4;

/** Units of the carry-over that are alike. */
export class Carried {
  units: i32 = 1;
  step!: Step;
  state: i32 = WAITS;
  /** -1 where it is drawn. */
  product: i32 = NONE;
  arrival: number = 0;
  /** Ms it has stood in its line, or blocked, already. */
  waited: number = 0;
  due: number = Infinity;
  rush: i32 = 0;
  name: i32 = 0;
  /** Ms worked, or left; -1 where the file does not say. */
  time: number = NONE;
  /** Where a blocked one goes, null for the step that follows. */
  to: Step | null = null;
  /** Whose piece it is, -1 for nobody's. */
  person: i32 = NONE;
  /** By number of the kind: 1 where the file says that it holds one; null where the path decides. */
  gear: Integers | null = null;
  /** By step: visits the file counts, -1 where it does not. */
  visits: Integers = integers(0);
}

/** One shift of a day, ready to be run. */
export class Shift {
  recorder!: Recorder;
  length: number = 0.5;
  tidyUp: number = 0.5;
  putDownAtEnd: boolean = false;
  /** -1 for none. */
  target: i32 = NONE;
  overtime: i32 = OVERTIME_NONE;
  overtimeCap: number = 0.5;
  divert: boolean = false;
  /** Ms from the start of the shift before to this one's. */
  night: number = 0;
  /** The gear of the shift before: nothing has to be renumbered. */
  sameGear: boolean = true;
  /** Numbers of the people of the shift before among this one's, -1 for those who are not. */
  sameAs: Integers = integers(0);
  /** Units on a full out-rack, 0 where there is none; racks; ms until one is back. */
  outRackSize: i32 = 0;
  outRacks: i32 = 0;
  outRackBack: number = 0.5;
  /** At the start: units on a part-filled one; ms until each that is away is back. */
  outRackStanding: i32 = 0;
  outRacksAway: Numbers = numbers(0);
  /** By product: share of all up to here, the last is 1; the step it enters at. */
  shares: Numbers = numbers(0);
  enters: List<Step> = list<Step>(0);
  /** By product: 1 where its units come back from elsewhere and were counted before. */
  returned: Integers = integers(0);
  kinds: List<GearKind> = list<GearKind>(0);
  counts: Integers = integers(0);
  fails: List<Curve | null> = list<Curve | null>(0);
  repairs: List<Curve | null> = list<Curve | null>(0);
  needing: List<List<Step>> = list<List<Step>>(0);
  outages: List<Outage> = list<Outage>(0);
  rules: List<StepRules> = list<StepRules>(0);
  takings: List<Taking> = list<Taking>(0);
  people: List<Person> = list<Person>(0);
  calendar: List<Entry> = list<Entry>(0);
  holds: List<Hold> = list<Hold>(0);
  intake: i32 = AT_START;
  /** Units to come, -1 for no end; of a constant number, how many are inside. */
  units: i32 = NONE;
  inside: i32 = 0;
  /** Minutes the first one is late; minutes between two. */
  late: number = 0.5;
  every: number = 0.5;
  gap: Curve | null = null;
  /** Ms from an arrival that is not listed to when it is due; Infinity: at no time. */
  dueAfter: number = Infinity;
  listed: List<Listed> = list<Listed>(0);
  carried: List<Carried> = list<Carried>(0);
  /** Can blocked units come to wait for each other in a circle? */
  deadlocks: boolean = true;
  /** Steps whose gear the head of their line may hold itself. */
  ownPlaceMask: i32 = 0;
}

export class CellState {
  shift!: Shift;
  recorder!: Recorder;
  events: EventList = new EventList();
  /** What was planned in the shift before, while the next one is opened. */
  planned: EventList = new EventList();
  units: UnitStack = new UnitStack();
  free: UnitStack = new UnitStack();
  /** Highest index in use plus one: what a scan over the cell has to look at. */
  top: i32 = 0;
  now: number = 0.5;
  /** Ms by which a unit that joins a line, or is blocked, did so earlier: of the carry-over only. */
  earlier: number = 0;
  /** Something came about at this instant. */
  happened: boolean = false;
  sequence: number = 0;
  shiftNumber: i32 = 0;
  key0: i32 = 0;
  key1: i32 = 0;
  /** Most kinds of gear a step uses. */
  readonly places: i32;
  readonly takes: i32;

  readonly steps: List<Step>;
  /** The way out. */
  readonly out: Step;
  /** All kinds and pieces of gear of all shifts, by index. */
  readonly allKinds: List<GearKind>;
  readonly items: List<GearItem>;
  /** Of this shift. */
  people: List<Person> = list<Person>(0);
  kinds: List<GearKind> = list<GearKind>(0);

  nextNumber: i32 = 0;
  inside: i32 = 0;
  goods: i32 = 0;
  targetReached: boolean = false;

  readonly blocked: UnitList = new UnitList();
  /** A unit was blocked since a deadlock was last looked for. */
  deadlockDue: boolean = false;
  readonly outside: UnitList = new UnitList();
  /** Units that want the place of a wait, longest first; they may stand in a line as well. */
  readonly wantingPlace: UnitStack = new UnitStack();
  readonly aside: UnitList = new UnitList();
  /** For whoever needs a list of units for a moment. */
  readonly found: UnitStack = new UnitStack();
  readonly path: UnitStack = new UnitStack();
  /** Kind of which units hold more than the shift has that now begins. */
  tooFew: GearKind | null = null;
  /** Items that a unit keeps while it changes places. */
  readonly kept: List<GearItem | null>;

  /** Steps with a unit in line; with all their gear free; with a put-down piece of nobody. */
  lineMask: i32 = 0;
  gearMask: i32 = 0;
  leftMask: i32 = 0;
  ownPlaceMask: i32 = 0;

  /** The shift is over and the overtime is for what is begun: nothing new enters its first step. */
  nothingNew: boolean = false;
  present: i32 = 0;
  calendarAt: i32 = 0;
  /** Time of the calendar's next entry, Infinity for none. */
  calendarDue: number = 0.5;
  /** Somebody has reached their own end. */
  anyEnded: boolean = false;
  /** Idle people, by word and bit; and the words themselves counted. */
  idle: Integers = integers(1);
  words: i32 = 0;
  /** The unit that `chooseStep` found for the step it chose. */
  chosen: Unit | null = null;

  outRackHere: i32 = 0;
  outRackUnits: i32 = 0;
  outRackFirst: number = 0.5;
  outRackTimes: number = 0.5;

  arrivalCount: i32 = 0;
  /** When the next one is planned; Infinity for none. */
  nextArrival: number = Infinity;

  constructor(
    steps: List<Step>,
    out: Step,
    kinds: List<GearKind>,
    items: List<GearItem>,
    places: i32,
    takes: i32,
  ) {
    this.steps = steps;
    this.out = out;
    this.allKinds = kinds;
    this.items = items;
    this.places = places;
    this.takes = takes;
    this.kept = list<GearItem | null>(places);
  }

  /** Entry `at` of the calendar is the next one. */
  toCalendar(at: i32): void {
    const calendar = this.shift.calendar;
    this.calendarAt = at;
    this.calendarDue = at < calendar.length ? calendar[at]!.time : Infinity;
  }

  // @inline
  plan(time: number, rank: i32, kind: i32, a: i32, b: i32): void {
    this.events.plan(time, orderOf(rank, this.sequence), kind, a, b);
    this.sequence += 1;
  }

  // @inline
  setAt(person: Person, at: i32): void {
    person.at = at;
    const word = person.word;
    if (at === IDLE) this.idle[word] = this.idle[word]! | person.bit;
    else this.idle[word] = this.idle[word]! & ~person.bit;
  }

  anyIdle(): boolean {
    for (let word = 0; word < this.words; word++) if (this.idle[word] !== 0) return true;
    return false;
  }

  /** A new unit, all fields fresh. */
  newUnit(product: i32, arrival: number): Unit {
    const unit = this.free.count > 0 ? this.free.pop() : this.makeUnit();
    if (unit.index >= this.top) this.top = unit.index + 1;
    unit.number = this.nextNumber++;
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
    unit.name = 0;
    unit.stoodHere = false;
    if (unit.begun) this.forgetVisits(unit);
    return unit;
  }

  private forgetVisits(unit: Unit): void {
    unit.begun = false;
    for (let step = 0; step < this.steps.length; step++) {
      unit.visits[step] = 0;
      unit.lastBy[step] = NONE;
    }
  }

  private makeUnit(): Unit {
    const unit = new Unit(this.units.count, this.steps.length, this.places, this.takes);
    this.units.push(unit);
    return unit;
  }

  /** Gives a unit that has left the cell back. Its token moves on, so that no planned event finds it. */
  dropUnit(unit: Unit): void {
    unit.where = NOWHERE;
    unit.token++;
    if (unit.held > 0) this.clearGear(unit);
    this.free.push(unit);
  }

  /** A unit that is left where it was at the end of a replication may still have some. */
  private clearGear(unit: Unit): void {
    for (let i = 0; i < unit.place.length; i++) unit.place[i] = null;
    for (let i = 0; i < unit.taken.length; i++) unit.taken[i] = null;
    unit.held = 0;
  }

  /** Units in the cell or waiting outside, by number: their place in memory depends on the runs before. */
  unitsInside(): UnitStack {
    const found = this.found;
    found.count = 0;
    for (let i = 0; i < this.top; i++) {
      const unit = this.units.at(i);
      if (unit.where !== NOWHERE) found.push(unit);
    }
    found.sortByNumber();
    return found;
  }
}

/**
 * The things of a cell while it runs: steps, gear, people, units. Each is one object of one shape that holds
 * both what the file says of it and what it is doing now: a run reads and writes them all the time, and one
 * load from an object is what a language like this does fastest. `make-state.ts` makes them once; nothing is
 * made during a run.
 */
import type { CompiledTime } from '../duration/compile.ts';

export const NONE = -1;

/** Where a unit is; 0: it has left the cell. */
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

/** The bit of everybody from the 32nd person on, in masks of people. */
export const SHARED_BIT = 1 << 31;
export const SHARED_FROM = 31;

/** Past their own end: without overtime, or with some to be had at that moment. */
export const ENDED = 1;
export const ENDED_IN_OVERTIME = 2;

/** A list of units in order of arrival in it, linked both ways through the units themselves. */
export class UnitList {
  first: Unit | null = null;
  last: Unit | null = null;
  length = 0;
}

/** What a step is to one product. */
export interface Task {
  time: CompiledTime;
  repeat: CompiledTime;
  /** ms a minute of base time takes, first visits and repeats: product factor x allowance x 60 000. */
  scale: number;
  repeatScale: number;
  /** Base minutes reckoned with, and the ms a minute of them takes: the file's, whatever is varied. */
  planned: number;
  plannedRepeat: number;
  plannedScale: number;
  /** The step after; `CellState.out` for out. */
  next: Step;
}

export interface Branch {
  to: Step;
  share: number;
  /** Does anybody's hand make a difference to it? */
  byPerson: boolean;
}

/** A taking of gear that stays with the unit. `index` is its place in `Unit.taken`. */
export interface Taking {
  index: number;
  kind: GearKind;
  step: Step;
}

/** What the file of one shift says of a step. */
export interface StepRules {
  hands: boolean;
  /** It takes two. */
  pair: boolean;
  /** Slots before the step, -1 for no limit. */
  rack: number;
  byDue: boolean;
  whole: boolean;
  /** Latest start (inclusive), Infinity where there is none. */
  lastStart: number;
  position: number;
  scrap: number;
  /** Always on: no branch and no scrap. */
  alwaysOn: boolean;
  /** Can a unit come here from where it holds gear of it? */
  ownPlace: boolean;
  /**
   * One person may begin it at any time before they tidy up: it takes no second, and no rule of time concerns
   * it.
   */
  free: boolean;
  /** By product. */
  tasks: Task[];
  uses: GearKind[];
  takes: Taking[];
  frees: Taking[];
  branches: Branch[];
}

const NO_RULES: StepRules = {
  hands: true,
  pair: false,
  rack: -1,
  byDue: false,
  whole: false,
  lastStart: Infinity,
  position: 0.5,
  scrap: 0.5,
  alwaysOn: true,
  ownPlace: false,
  free: true,
  tasks: [],
  uses: [],
  takes: [],
  frees: [],
  branches: [],
};

/**
 * A step, and the line before it. The way out of the cell is a step too, with a number one above the last.
 */
export class Step {
  readonly index: number;
  /** Its bit in masks of steps. */
  readonly bit: number;
  hands = NO_RULES.hands;
  pair = NO_RULES.pair;
  rack = NO_RULES.rack;
  byDue = NO_RULES.byDue;
  whole = NO_RULES.whole;
  lastStart = NO_RULES.lastStart;
  position = NO_RULES.position;
  scrap = NO_RULES.scrap;
  alwaysOn = NO_RULES.alwaysOn;
  ownPlace = NO_RULES.ownPlace;
  free = NO_RULES.free;
  tasks = NO_RULES.tasks;
  uses = NO_RULES.uses;
  takes = NO_RULES.takes;
  frees = NO_RULES.frees;
  branches = NO_RULES.branches;
  readonly line = new UnitList();
  /** Units of the line that stand in slots. */
  inSlots = 0;
  /** Units outside whose first step this is. */
  outside = 0;
  /** Put-down pieces of nobody. */
  readonly left = new UnitList();
  /** Kinds of gear it needs of which none is free. */
  gearShort = 0;

  constructor(index: number) {
    this.index = index;
    this.bit = 1 << index;
  }

  follow(rules: StepRules): void {
    this.hands = rules.hands;
    this.pair = rules.pair;
    this.rack = rules.rack;
    this.byDue = rules.byDue;
    this.whole = rules.whole;
    this.lastStart = rules.lastStart;
    this.position = rules.position;
    this.scrap = rules.scrap;
    this.alwaysOn = rules.alwaysOn;
    this.ownPlace = rules.ownPlace;
    this.free = rules.free;
    this.tasks = rules.tasks;
    this.uses = rules.uses;
    this.takes = rules.takes;
    this.frees = rules.frees;
    this.branches = rules.branches;
  }
}

/** A kind of gear. */
export class GearKind {
  readonly id: string;
  /** Number in the shift that is run. */
  index = NONE;
  free = 0;
  /** As many as the shift with the most of them has; the first `count` are there now. */
  readonly items: GearItem[];
  count = 0;
  /** Steps that need it. */
  needing: Step[] = [];
  /** Units stand in it while a wait of theirs goes on: some wait uses it. */
  holdsWaits = false;
  fails: CompiledTime | null = null;
  repair: CompiledTime | null = null;

  constructor(id: string, most: number, firstItem: number) {
    this.id = id;
    this.items = Array.from({ length: most }, (_, number) => new GearItem(firstItem + number, this, number));
  }
}

/** One piece of gear. */
export class GearItem {
  /** Place among all items, by which planned events name it. */
  readonly index: number;
  readonly kind: GearKind;
  readonly number: number;
  unit: Unit | null = null;
  out = false;
  /** Goes out of order for so long once its piece is finished; -1 otherwise. */
  repair = -1;
  failures = 0;
  /** Its repair is one of a failure: the next failure is drawn when it is back. */
  failed = false;

  constructor(index: number, kind: GearKind, number: number) {
    this.index = index;
    this.kind = kind;
    this.number = number;
  }
}

/** What a person covers during part of a day. */
export interface Cover {
  /** In order of preference. */
  steps: Step[];
  mask: number;
}

/** A person of one shift. */
export class Person {
  readonly index: number;
  /** Its bit in masks of people. */
  readonly bit: number;
  readonly covers: Cover[];
  readonly byAge: boolean;
  readonly mayOvertime: boolean;
  /** Their own end. */
  readonly to: number;
  /** Tidies up from here on; their own end where there is no tidying up. */
  readonly tidyFrom: number;
  /** Time factor by step. */
  readonly factor: Float64Array;
  at = OUT;
  told = 0;
  cover: Cover;
  coverMask = 0;
  /** The bit of the first step of their cover; 0 where they cover nothing. */
  firstBit = 0;
  piece: Unit | null = null;
  /** When they finished their last piece. */
  lastPiece = 0.5;
  /** 0 before their own end. */
  ended = 0;
  /** Comes at the time in the calendar. */
  comes = true;
  offUntil = 0.5;
  offIsBreak = false;
  offToken = 0;
  /** Times off: indices into the tables of people. */
  nextOff = 0;
  owedFrom = 0;
  owedTo = 0;

  constructor(
    index: number,
    covers: Cover[],
    byAge: boolean,
    mayOvertime: boolean,
    to: number,
    tidyFrom: number,
    factor: Float64Array,
  ) {
    this.index = index;
    this.bit = index < SHARED_FROM ? 1 << index : SHARED_BIT;
    this.covers = covers;
    this.cover = covers[0]!;
    this.byAge = byAge;
    this.mayOvertime = mayOvertime;
    this.to = to;
    this.tidyFrom = tidyFrom;
    this.factor = factor;
  }

  coverNow(cover: Cover): void {
    this.cover = cover;
    this.coverMask = cover.mask;
    this.firstBit = cover.steps[0]?.bit ?? 0;
  }
}

/** A unit. An object is used again once its unit has left the cell, so that a run makes nothing new. */
export class Unit {
  /** Place in `units`, by which planned events name it. */
  readonly index: number;
  number = 0;
  product = 0;
  where = 0;
  step: Step | null = null;
  /** Blocked, outside or standing aside: the step it goes to. */
  to: Step | null = null;
  rush = 0;
  slotted = false;
  /** The wait for whose gear it still stands on the bench of the step before; it may be over already. */
  wantsPlace: Step | null = null;
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
  person: Person | null = null;
  second: Person | null = null;
  repeats = 0;
  before: Unit | null = null;
  after: Unit | null = null;
  name: string | null = null;
  /** It has visits. */
  begun = false;
  /** By step. */
  readonly visits: number[];
  /** By step: number of the person. */
  readonly lastBy: number[];
  /** Pieces of gear it has, in `place` and `taken` together. */
  held = 0;
  /** Items used where it stands, and nulls; and by taking, the item taken. */
  readonly place: (GearItem | null)[];
  readonly taken: (GearItem | null)[];

  constructor(index: number, steps: number, places: number, takes: number) {
    this.index = index;
    this.visits = new Array<number>(steps).fill(0);
    this.lastBy = new Array<number>(steps).fill(NONE);
    this.place = new Array<GearItem | null>(places).fill(null);
    this.taken = new Array<GearItem | null>(takes).fill(null);
  }
}

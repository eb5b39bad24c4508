/**
 * The entities and resources of a cell while it runs: units, steps and their lines, gear, people. Each is one
 * record that holds both what the file says of it and what it is doing now. `build.ts` makes them once for a
 * day; a run makes nothing but units, and those only until there are as many as are ever inside at once.
 */
import type { Curve } from './curves.ts';
import { type Integers, integers, type List, list, type Numbers, numbers } from './platform.ts';

export const NONE: i32 = -1;

/** Where a unit is; 0: it has left the cell. */
export const NOWHERE: i32 = 0;
export const OUTSIDE: i32 = 1;
export const IN_LINE: i32 = 2;
export const IN_HAND: i32 = 3;
export const PUT_DOWN: i32 = 4;
export const IN_WAIT: i32 = 5;
export const BLOCKED: i32 = 6;
export const ASIDE: i32 = 7;

/** What a person is at, for the core's own use; the finer codes that are told come out of it. */
export const OUT: i32 = 0;
export const IDLE: i32 = 1;
export const BUSY: i32 = 2;
export const OFF: i32 = 3;
export const LEAVING: i32 = 4;
export const LEFT: i32 = 5;

/** Past their own end: without overtime, or with some to be had at that moment. */
export const ENDED: i32 = 1;
export const ENDED_IN_OVERTIME: i32 = 2;

/** A list of units in order of coming into it, linked both ways through the units themselves. */
export class UnitList {
  first: Unit | null = null;
  last: Unit | null = null;
  length: i32 = 0;

  // @inline
  append(unit: Unit): void {
    this.insertAfter(unit, this.last);
  }

  /** Puts `unit` in just after `place` (null: at the front). */
  // @inline
  insertAfter(unit: Unit, place: Unit | null): void {
    const next: Unit | null = place === null ? this.first : place.after;
    unit.before = place;
    unit.after = next;
    if (place === null) this.first = unit;
    else place.after = unit;
    if (next === null) this.last = unit;
    else next.before = unit;
    this.length++;
  }

  // @inline
  remove(unit: Unit): void {
    const before = unit.before;
    const after = unit.after;
    if (before === null) this.first = after;
    else before.after = after;
    if (after === null) this.last = before;
    else after.before = before;
    this.length--;
  }

  clear(): void {
    this.first = null;
    this.last = null;
    this.length = 0;
  }
}

/** Units in an array that grows: a stack, or a list to be sorted. */
export class UnitStack {
  items: List<Unit | null> = list<Unit | null>(16);
  count: i32 = 0;

  at(index: i32): Unit {
    return this.items[index]!;
  }

  push(unit: Unit): void {
    if (this.count === this.items.length) {
      const longer = list<Unit | null>(2 * this.count);
      for (let i = 0; i < this.count; i++) longer[i] = this.items[i]!;
      this.items = longer;
    }
    this.items[this.count++] = unit;
  }

  pop(): Unit {
    return this.items[--this.count]!;
  }

  indexOf(unit: Unit): i32 {
    for (let i = 0; i < this.count; i++) if (this.items[i] === unit) return i;
    return NONE;
  }

  /** Takes the unit at `index` out; the ones behind it move up. */
  removeAt(index: i32): void {
    this.count--;
    for (let i = index; i < this.count; i++) this.items[i] = this.items[i + 1]!;
  }

  /** By number, smallest first (Shell's method). */
  sortByNumber(): void {
    let gap: i32 = 1;
    while (gap < this.count) gap = 3 * gap + 1;
    for (; gap > 0; gap = gapBefore(gap)) {
      for (let i = gap; i < this.count; i++) {
        const unit = this.at(i);
        let at: i32 = i;
        while (at >= gap && this.at(at - gap).number > unit.number) {
          this.items[at] = this.items[at - gap]!;
          at -= gap;
        }
        this.items[at] = unit;
      }
    }
  }

  /** By time of joining, then by number where that is wanted (else as they are): for a handful of units. */
  sortBySince(andNumber: boolean): void {
    for (let i = 1; i < this.count; i++) {
      const unit = this.at(i);
      let at: i32 = i;
      while (at > 0 && isLater(this.at(at - 1), unit, andNumber)) {
        this.items[at] = this.items[at - 1]!;
        at--;
      }
      this.items[at] = unit;
    }
  }
}

/** The gap before this one in Shell's method. */
function gapBefore(gap: i32): i32 {
  let before: i32 = 1;
  if (gap === 1) return 0;
  while (3 * before + 1 < gap) before = 3 * before + 1;
  return before;
}

function isLater(a: Unit, b: Unit, andNumber: boolean): boolean {
  return a.since !== b.since ? a.since > b.since : andNumber && a.number > b.number;
}

/** What a step is to one product. */
export class Task {
  time!: Curve;
  repeat!: Curve;
  /** Ms a minute of base time takes, first visits and repeats: product factor x allowance x 60 000. */
  scale: number = 0.5;
  repeatScale: number = 0.5;
  /** Base minutes reckoned with, and the ms a minute of them takes: of the file, whatever is varied. */
  planned: number = 0.5;
  plannedRepeat: number = 0.5;
  plannedScale: number = 0.5;
  /** The step after; `CellState.out` for out. */
  next!: Step;
  /** The product does not go through it. */
  skipped: boolean = false;
}

export class Branch {
  readonly to: Step;
  share: number;
  /** Does anybody's hand make a difference to it? */
  readonly byPerson: boolean;

  constructor(to: Step, share: number, byPerson: boolean) {
    this.to = to;
    this.share = share;
    this.byPerson = byPerson;
  }
}

/** A taking of gear that stays with the unit. `index` is its place in `Unit.taken`. */
export class Taking {
  readonly index: i32;
  readonly kind: GearKind;
  readonly step: Step;
  readonly until: Step;

  constructor(index: i32, kind: GearKind, step: Step, until: Step) {
    this.index = index;
    this.kind = kind;
    this.step = step;
    this.until = until;
  }
}

/** What the file of one shift says of a step. */
export class StepRules {
  hands: boolean = true;
  /** It takes two. */
  pair: boolean = false;
  /** Slots before the step, -1 for no limit. */
  rack: i32 = NONE;
  byDue: boolean = false;
  whole: boolean = false;
  /** When it is not begun, ascending: after which time, until which (both exclusive), and so on. */
  shut: Numbers = numbers(0);
  /** Place on the path; a step aside stands just before the one that follows it. */
  position: number = 0.5;
  scrap: number = 0.5;
  aside: boolean = false;
  /** Can a unit come here from where it holds gear of it? */
  ownPlace: boolean = false;
  /** By product. */
  tasks: List<Task> = list<Task>(0);
  uses: List<GearKind> = list<GearKind>(0);
  takes: List<Taking> = list<Taking>(0);
  frees: List<Taking> = list<Taking>(0);
  branches: List<Branch> = list<Branch>(0);
}

/**
 * A step, and the line before it. The way out of the cell is a step too, with a number one above the last.
 */
export class Step {
  readonly index: i32;
  /** Its bit in masks of steps. */
  readonly bit: i32;
  hands: boolean = true;
  pair: boolean = false;
  rack: i32 = NONE;
  byDue: boolean = false;
  whole: boolean = false;
  shut: Numbers = numbers(0);
  position: number = 0.5;
  scrap: number = 0.5;
  aside: boolean = false;
  ownPlace: boolean = false;
  /** Always on: no branch and no scrap. */
  alwaysOn: boolean = true;
  /** One person may begin it at any time before they tidy up: no second, and no rule of time. */
  free: boolean = true;
  tasks: List<Task> = list<Task>(0);
  uses: List<GearKind> = list<GearKind>(0);
  takes: List<Taking> = list<Taking>(0);
  frees: List<Taking> = list<Taking>(0);
  branches: List<Branch> = list<Branch>(0);
  readonly line: UnitList = new UnitList();
  /** Units of the line that stand in slots. */
  inSlots: i32 = 0;
  /** Units outside whose first step this is. */
  outside: i32 = 0;
  /** Put-down pieces of nobody. */
  readonly left: UnitList = new UnitList();
  /** Kinds of gear it needs of which none is free. */
  gearShort: i32 = 0;

  constructor(index: i32) {
    this.index = index;
    this.bit = 1 << index;
  }

  follow(rules: StepRules): void {
    this.hands = rules.hands;
    this.pair = rules.pair;
    this.rack = rules.rack;
    this.byDue = rules.byDue;
    this.whole = rules.whole;
    this.shut = rules.shut;
    this.position = rules.position;
    this.scrap = rules.scrap;
    this.aside = rules.aside;
    this.ownPlace = rules.ownPlace;
    this.alwaysOn = rules.branches.length === 0 && rules.scrap === 0;
    this.free = !rules.pair && !rules.whole && rules.shut.length === 0;
    this.tasks = rules.tasks;
    this.uses = rules.uses;
    this.takes = rules.takes;
    this.frees = rules.frees;
    this.branches = rules.branches;
  }

  /** The first time from `time` on at which its rules let it be begun; Infinity where there is none. */
  opens(time: number): number {
    const shut = this.shut;
    let at = time;
    for (let i = 0; i < shut.length; i += 2) if (at > shut[i]! && at < shut[i + 1]!) at = shut[i + 1]!;
    return at;
  }

  /** Is there a slot before this step? A rack of 0 has none; without a limit there always is one. */
  hasSlot(): boolean {
    return this.rack < 0 || this.inSlots < this.rack;
  }
}

/** A kind of gear. */
export class GearKind {
  /** Number among all kinds of the day. */
  readonly number: i32;
  /** Number in the shift that is run; NONE where it has none of it. */
  index: i32 = NONE;
  free: i32 = 0;
  /** As many as the shift with the most of them has; the first `count` are there now. */
  readonly items: List<GearItem>;
  count: i32 = 0;
  /** Where its states are counted in the accounts of the shift. */
  account: i32 = 0;
  /** Steps that need it. */
  needing: List<Step> = list<Step>(0);
  /** Units stand in it while a wait of theirs goes on: some wait uses it. */
  holdsWaits: boolean = false;
  fails: Curve | null = null;
  repair: Curve | null = null;

  /** Pieces of it that units held when the shift before was over. */
  standingOver: i32 = 0;

  constructor(number: i32, most: i32, firstItem: i32) {
    this.number = number;
    this.items = list<GearItem>(most);
    for (let i = 0; i < most; i++) this.items[i] = new GearItem(firstItem + i, this, i);
  }
}

/** One piece of gear. */
export class GearItem {
  /** Place among all items, by which planned events name it. */
  readonly index: i32;
  readonly kind: GearKind;
  readonly number: i32;
  /** Where in the accounts its state of now is counted. */
  counted: i32 = 0;
  unit: Unit | null = null;
  out: boolean = false;
  /** Goes out of order for so long once its piece is finished; -1 otherwise. */
  repair: number = -1;
  failures: i32 = 0;
  /** Its repair is one of a failure: the next failure is drawn when it is back. */
  failed: boolean = false;

  constructor(index: i32, kind: GearKind, number: i32) {
    this.index = index;
    this.kind = kind;
    this.number = number;
  }
}

/** What a person covers during part of a day: the steps in order of preference. */
export class Cover {
  readonly steps: List<Step>;
  readonly mask: i32;

  constructor(steps: List<Step>, mask: i32) {
    this.steps = steps;
    this.mask = mask;
  }
}

/** A time off: a break, or a time away. */
export class TimeOff {
  readonly start: number;
  readonly length: number;
  readonly isBreak: boolean;

  constructor(start: number, length: number, isBreak: boolean) {
    this.start = start;
    this.length = length;
    this.isBreak = isBreak;
  }
}

/** A person of one shift. */
export class Person {
  readonly index: i32;
  /** Their word and bit in masks of people. */
  readonly word: i32;
  readonly bit: i32;
  byAge: boolean = false;
  mayOvertime: boolean = false;
  from: number = 0.5;
  /** Their own end. */
  to: number = 0.5;
  /** Tidies up from here on; their own end where there is no tidying up. */
  tidyFrom: number = 0.5;
  /** Comes with this probability, late with that one, by so much. */
  chance: number = 0.5;
  lateChance: number = 0.5;
  late: Curve | null = null;
  /** By step: time factor, and what the share that comes back to it is multiplied by. */
  factor: Numbers = numbers(0);
  reworkFactor: Numbers = numbers(0);
  covers: List<Cover> = list<Cover>(0);
  offs: List<TimeOff> = list<TimeOff>(0);
  at: i32 = OUT;
  told: i32 = 0;
  /** Where their states are counted in the accounts of the shift, and where the one of now is. */
  account: i32 = 0;
  counted: i32 = 0;
  cover!: Cover;
  coverMask: i32 = 0;
  /** The bit of the first step of their cover; 0 where they cover nothing. */
  firstBit: i32 = 0;
  piece: Unit | null = null;
  /** When they finished their last piece. */
  lastPiece: number = 0.5;
  /** 0 before their own end. */
  ended: i32 = 0;
  /** Comes at the time in the calendar. */
  comes: boolean = true;
  offUntil: number = 0.5;
  offIsBreak: boolean = false;
  offToken: i32 = 0;
  /** Times off, by their place in `offs`. */
  nextOff: i32 = 0;
  owedFrom: i32 = 0;
  owedTo: i32 = 0;

  constructor(index: i32) {
    this.index = index;
    this.word = index >> 5;
    this.bit = 1 << (index & 31);
  }

  coverNow(cover: Cover): void {
    this.cover = cover;
    this.coverMask = cover.mask;
    this.firstBit = cover.steps.length > 0 ? cover.steps[0]!.bit : 0;
  }
}

/** A unit. A record is used again once its unit has left the cell. */
export class Unit {
  /** Place in `units`, by which planned events name it. */
  readonly index: i32;
  number: i32 = 0;
  product: i32 = 0;
  where: i32 = NOWHERE;
  step: Step | null = null;
  /** Blocked, outside or standing aside: the step it goes to. */
  to: Step | null = null;
  rush: i32 = 0;
  slotted: boolean = false;
  /** The wait for whose gear it still stands on the bench of the step before; it may be over already. */
  wantsPlace: Step | null = null;
  arrival: number = 0.5;
  firstStart: number = NaN;
  due: number = Infinity;
  /** Joined its line; blocked since. Orders lines; waits are counted from the later of this and 0. */
  since: number = 0.5;
  /** Planned end; or ms left, where put down. */
  ends: number = 0.5;
  /** Moves on with everything that makes a planned event of this unit void. */
  token: i32 = 0;
  /** Second word of the step's draw: its outcome. */
  luck: i32 = 0;
  person: Person | null = null;
  second: Person | null = null;
  repeats: i32 = 0;
  before: Unit | null = null;
  after: Unit | null = null;
  /** Number of its name, 0 without one. */
  name: i32 = 0;
  /** It has visits. */
  begun: boolean = false;
  /** One of those that a deadlock is looked for among. */
  stuck: boolean = false;
  /** By step. */
  readonly visits: Integers;
  /** By step: number of the person. */
  readonly lastBy: Integers;
  /** Pieces of gear it has, in `place` and `taken` together. */
  held: i32 = 0;
  /** Items used where it stands, and nulls; and by taking, the item taken. */
  readonly place: List<GearItem | null>;
  readonly taken: List<GearItem | null>;

  constructor(index: i32, steps: i32, places: i32, takes: i32) {
    this.index = index;
    this.visits = integers(steps);
    this.lastBy = integers(steps);
    this.place = list<GearItem | null>(places);
    this.taken = list<GearItem | null>(takes);
    for (let i = 0; i < steps; i++) this.lastBy[i] = NONE;
  }
}

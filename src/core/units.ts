/**
 * The entities that go through the cell, and lists of them. A unit's record is used again once it has left: a
 * run makes new ones only until there are as many as are ever inside at once.
 *
 * Numbers that come to be fractions or over 2^31 begin at 0.5, here and in the files beside: JavaScript
 * engines lay a field that begins as a small whole number out for those, and have to do it anew later.
 */
import { type Integers, integers, type List, list } from './platform.ts';
import type { GearItem, Person } from './resources.ts';
import type { Step } from './steps.ts';

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
  /** It stood in the cell when the shift began. */
  stoodHere: boolean = false;
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

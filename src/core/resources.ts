/**
 * The resources of a cell while it runs, gear and people. Each is one record that holds both what the file
 * says of it and what it is doing now; `build.ts` makes them once for a day.
 */
import type { Curve } from './curves.ts';
import { type List, list, type Numbers, numbers } from './platform.ts';
import type { Step } from './steps.ts';
import { NONE, type Unit } from './units.ts';

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
  /** Their own end, while they are still at the piece that was in their hands then; else under 0. */
  finishing: number = -0.5;
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

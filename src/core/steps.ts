/**
 * Steps: what the file of a shift says of them, and the line before each. `build.ts` makes them once for a
 * day.
 */
import type { Curve } from './curves.ts';
import { type List, list, type Numbers, numbers } from './platform.ts';
import type { GearKind } from './resources.ts';
import { NONE, UnitList } from './units.ts';

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
  /** Mean base minutes of a first visit. */
  mean: number = 0.5;
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

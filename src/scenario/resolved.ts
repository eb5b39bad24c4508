/**
 * The cell as everything but the file's editor and the file's own tools sees it: nothing left out, clock
 * times as minutes from the start of the shift, shares from 0 to 1.
 */
import type { Shut } from './step-rules.ts';
import type { PayRules } from './pay.ts';
import type { Time } from '../duration/time.ts';
import type { UncertainInput } from './inputs.ts';
import type { Gear } from './schema.ts';

/** What one step means for one product: the only place that says which time a piece takes there. */
export interface ResolvedTask {
  /** Base time of the first visit; the product's own where it has one. */
  time: Time;
  /** Base time of a second and later visit. */
  repeat: Time;
  /** The first visit's time is the product's own, not the step's. */
  own: boolean;
  /** How many times the base time this product takes; people and the allowance come on top. */
  factor: number;
  /** Where the product goes from here, past the steps it skips; null is the out-rack. */
  next: string | null;
}

export interface ResolvedProduct {
  id: string;
  name: string;
  share: number;
  /** Its pieces were counted before: out again, they are no new good units. */
  returned: boolean;
  skips: string[];
  /** First step of this product. */
  enters: string;
  /** By step, those it skips included: rework may lead there. */
  tasks: Record<string, ResolvedTask>;
}

export interface ResolvedStep {
  id: string;
  name: string;
  kind: 'hands' | 'wait';
  /** The step's own time; what a product takes here is in its task. */
  time: Time;
  repeatTime: Time | null;
  people: 1 | 2;
  /** Slots before the step; null is no limit. */
  rack: number | null;
  order: 'first come' | 'earliest due';
  whole: boolean;
  plannedAt: 'mean' | number;
  /** Minutes from the start of the shift; one of the reasons to be shut. */
  lastStart: number | null;
  /** When it is not begun, by all its rules: minutes from the start of the shift, ascending. */
  shut: Shut[];
  /** Its rules of time, a sentence each. */
  ruleSentences: string[];
  /** Benches of its own. */
  benches: number;
  /** Gear ids, the step's own benches (`<step>-bench`) among them. */
  uses: string[];
  takes: { gear: string; until: string }[];
  /** Shares are 0 to 1. */
  rework: { to: string; share: number; cause: string }[];
  scrap: number;
  aside: boolean;
  /** The step that follows on the path; null is the out-rack. */
  next: string | null;
}

export interface ResolvedGear {
  id: string;
  name: string;
  /** A step's own benches, or gear the file lists. */
  kind: 'bench' | 'gear';
  count: number;
  /** Of one more; null where the file does not say. */
  price: number | null;
  fails: Gear['fails'] | null;
  out: { from: number; minutes: number; items: number }[];
}

export interface ResolvedBreak {
  from: number;
  minutes: number;
  name: string;
  paid: boolean;
}

/** A time off the cell: minutes from the start of the shift; `share` of its pay (0 to 1) is borne here. */
export interface ResolvedOff {
  kind: 'break' | 'away';
  from: number;
  minutes: number;
  share: number;
  name: string;
}

export interface ResolvedPerson {
  id: string;
  name: string;
  /** Cover from a time on, minutes from the start of the shift, ascending; the first is at 0. */
  cover: { from: number; steps: string[] }[];
  /** Everything they can do, with the time and rework factors. */
  skills: Record<string, { level: number; factor: number; rework: number }>;
  rule: 'in order' | 'oldest';
  from: number;
  to: number;
  /** Their own breaks or the shift's, as the file lists them. */
  breaks: ResolvedBreak[];
  /** Times on another line, as the file lists them. */
  away: ResolvedOff[];
  /** Breaks and times away, disjoint and ascending; breaks inside a time away are left out. */
  offs: ResolvedOff[];
  chance: number;
  lateChance: number;
  late: Time | null;
  pay: number;
  overtime: boolean;
  hoursThisWeek: number;
  daysThisWeek: number;
}

export interface ResolvedArrival {
  /** Minutes from the start, the intake's lateness not added. */
  at: number;
  units: number;
  /** Null: drawn from the mix. */
  product: string | null;
  due: number | null;
  rush: boolean;
  name: string | null;
}

/** `units` null: without end. */
export type ResolvedIntake = {
  late: number;
  whenFull: 'hold' | 'divert';
  /** Minutes from coming to when it is due, of a piece that is not listed with its own; null: at no time. */
  dueAfter: number | null;
} & (
  | { kind: 'at start'; units: number }
  | { kind: 'beat'; every: number; units: number | null }
  | { kind: 'random'; gap: Time; units: number | null }
  | { kind: 'list'; arrivals: ResolvedArrival[] }
  | { kind: 'constant'; inside: number }
);

export type CarriedState = 'waiting' | 'in hand' | 'curing' | 'put down' | 'blocked';

export interface ResolvedCarried {
  at: string;
  state: CarriedState;
  units: number;
  /** Null: drawn from the mix. */
  product: string | null;
  /** In hand: already worked. Curing or put down: left. Null: none worked, a full time left. */
  minutes: number | null;
  person: string | null;
  /** Null: what the path says it holds here. */
  gear: string[] | null;
  /** Null: one at each step before. */
  visits: Record<string, number> | null;
  /** Blocked: where to. Null: the next step of its path. */
  to: string | null;
  /** Minutes before the start at which it came. */
  arrived: number;
  /** Minutes it has stood in its line, or blocked, at the start. */
  waited: number;
  due: number | null;
  rush: boolean;
  name: string | null;
}

export interface ResolvedHold {
  before: string;
  until: number;
  product: string | null;
  units: string[] | null;
  whose: string;
}

export interface ResolvedShift {
  name: string;
  seed: string;
  /** Clock of the start, "HH:MM". */
  start: string;
  /** Minutes from the start of the first shift of the file to the start of this one. */
  startsAfter: number;
  /** Length in minutes. */
  length: number;
  tidyUp: number;
  atEnd: 'finish' | 'put down';
  allowance: number;
  target: number | null;
  overtime: { until: 'none' | 'empty' | 'target'; cap: number; who: string[] | null };
  products: ResolvedProduct[];
  steps: ResolvedStep[];
  gear: ResolvedGear[];
  people: ResolvedPerson[];
  intake: ResolvedIntake;
  carryOver: ResolvedCarried[];
  holds: ResolvedHold[];
  /** `standing` units on a part-filled one, and minutes until each of those `away` is back, at the start. */
  outRack: { size: number; racks: number; back: number; standing: number; away: number[] } | null;
  breaks: ResolvedBreak[];
  pay: PayRules;
  /** What is not known exactly of the numbers above; see inputs.ts. */
  inputs: UncertainInput[];
}

export interface ResolvedMoney {
  currency: string;
  /** What one extra good unit brings in; null where the file does not say. */
  margin: number | null;
  /** Good units beyond the target can be sold as well. */
  sellsMore: boolean;
  shiftsPerYear: number;
  /** Yearly, per cent. */
  discount: number;
  /** Of one more bench; null where the file does not say. */
  benchPrice: number | null;
}

export interface ResolvedLimits {
  /** Tools that shake: m/s2, and the share of the step's time (0 to 1) the trigger is held. */
  vibration: Record<string, { level: number; trigger: number }>;
  vibrationPoints: number;
  /** Null: no limit. */
  hoursPerDay: number | null;
}

export interface ResolvedStudy {
  /** Half-width wanted on the difference, units a shift. */
  precision: number;
  /** 0 to 1. */
  confidence: number;
  /** The difference that matters, units a shift. */
  difference: number;
  /** Most shifts an option. */
  most: number;
  /** Chance asked of a promise, 0 to 1. */
  promise: number;
}

export interface ResolvedOption {
  id: string;
  name: string;
  /** What it costs once; null where the file does not say. */
  price: number | null;
}

/** What holds for all shifts of a file alike. */
export interface ResolvedPlant {
  seed: string;
  money: ResolvedMoney;
  limits: ResolvedLimits;
  study: ResolvedStudy;
  /** In the file's order. */
  options: ResolvedOption[];
}

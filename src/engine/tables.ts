/**
 * The compiled cell: what one run reads, as flat typed arrays under integer ids. Times are milliseconds from
 * the shift's start.
 */
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { CompiledTime } from '../duration/compile.ts';

export interface StepTables {
  count: number;
  hands: Uint8Array;
  /** 1 or 2. */
  people: Uint8Array;
  /** Slots before the step, -1 for no limit. */
  rack: Int32Array;
  byDue: Uint8Array;
  whole: Uint8Array;
  /** Latest start (inclusive), Infinity where there is none. */
  /** By step, when it is not begun: ms after which, ms until which, and so on. */
  shut: number[][];
  /** Place on the path; a step aside stands just before the one that follows it. */
  position: Float64Array;
  /** Gear kinds used: uses[usesFrom[s] .. usesFrom[s + 1]). */
  usesFrom: Int32Array;
  uses: Int32Array;
  /** Takings: ids into TakeTables. */
  takesFrom: Int32Array;
  takes: Int32Array;
  /** Takings that end with this step. */
  freesFrom: Int32Array;
  frees: Int32Array;
  branchFrom: Int32Array;
  branchTo: Int32Array;
  branchShare: Float64Array;
  scrap: Float64Array;
  /** Steps whose gear may already be held by the unit that is to start (its own bench): asked one by one. */
  ownPlace: Uint8Array;
}

export interface TakeTables {
  count: number;
  gear: Int32Array;
  step: Int32Array;
  until: Int32Array;
}

export interface GearTables {
  count: number;
  items: Int32Array;
  /** First item id of a kind; items of all kinds share one numbering. */
  firstItem: Int32Array;
  itemCount: number;
  isBench: Uint8Array;
  /** Bit s: step s needs this kind. */
  neededBy: Int32Array;
  fails: (CompiledTime | null)[];
  repair: (CompiledTime | null)[];
}

export interface PeopleTables {
  count: number;
  byAge: Uint8Array;
  from: Float64Array;
  to: Float64Array;
  chance: Float64Array;
  lateChance: Float64Array;
  late: (CompiledTime | null)[];
  mayOvertime: Uint8Array;
  /** [people x steps] */
  factor: Float64Array;
  reworkFactor: Float64Array;
  /** Cover lists: one after another, coverFrom[c] .. coverFrom[c + 1]; a person's cover is an index c. */
  coverFrom: Int32Array;
  coverSteps: Int32Array;
  coverMask: Int32Array;
  firstCover: Int32Array;
  /** Times off: offFrom[p] .. offFrom[p + 1]. */
  offFrom: Int32Array;
  offStart: Float64Array;
  offLength: Float64Array;
  offIsBreak: Uint8Array;
}

/** Everything that happens to people at fixed times, in the order it is carried out. */
export interface Calendar {
  count: number;
  time: Float64Array;
  order: Float64Array;
  kind: Int32Array;
  person: Int32Array;
  /** Cover index or off index. */
  detail: Int32Array;
}

export interface ProductTables {
  count: number;
  /** Cumulative shares, the last is 1. */
  cumulative: Float64Array;
  enters: Int32Array;
  /** [products] 1 where its units come back and were counted before. */
  returned: Uint8Array;
  /** [products x steps] the step after (the number of steps: out). */
  next: Int32Array;
  /** [products x steps] */
  time: CompiledTime[];
  repeat: CompiledTime[];
  /** [products x steps] ms a minute of base time takes: product factor x allowance x 60 000. */
  scale: Float64Array;
  /** [products x steps] base minutes reckoned with: the mean or the percentile the step sets. */
  planned: Float64Array;
  plannedRepeat: Float64Array;
  /** [products x steps] mean base minutes of a first visit. */
  mean: Float64Array;
}

export interface HoldTables {
  count: number;
  before: Int32Array;
  until: Float64Array;
  /** -1: any product. */
  product: Int32Array;
  names: (Set<string> | null)[];
}

export const OVERTIME_NONE = 0;
export const OVERTIME_EMPTY = 1;
export const OVERTIME_TARGET = 2;

export interface CompiledCell {
  shift: ResolvedShift;
  length: number;
  tidyUp: number;
  putDownAtEnd: boolean;
  /** -1 for none. */
  target: number;
  overtime: number;
  overtimeCap: number;
  steps: StepTables;
  takes: TakeTables;
  gear: GearTables;
  people: PeopleTables;
  calendar: Calendar;
  products: ProductTables;
  holds: HoldTables;
  divert: boolean;
  /** Named arrivals of a list, in order of time. */
  gap: CompiledTime | null;
  stepIds: string[];
  gearIds: string[];
  personIds: string[];
}

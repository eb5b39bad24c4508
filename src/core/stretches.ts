/** Where everything that is counted of a shift stands in its accounts, one array of doubles. */
import { gearStates, personStates } from './codes.ts';

/** The counts, at the beginning of the accounts; times are ms. */
export const ARRIVED: i32 = 0;
export const DIVERTED: i32 = 1;
export const GOODS: i32 = 2;
export const SCRAPS: i32 = 3;
/** Units sent back. */
export const REWORKED: i32 = 4;
/** Good units without a repeat visit. */
export const FIRST_PASS: i32 = 5;
/** Sums over the good units: from arrival, and from the first start. */
export const LEAD: i32 = 6;
export const FLOW: i32 = 7;
/** When the target was met, NaN where it was not. */
export const TARGET_AT: i32 = 8;
/** When the report closed; units in the cell, and waiting outside, then. */
export const CLOSED: i32 = 9;
export const INSIDE: i32 = 10;
export const STILL_OUTSIDE: i32 = 11;
export const RACKS: i32 = 12;
/** Sums over the racks sent: time they took to fill, time units waited on them. */
export const RACK_FILL: i32 = 13;
export const RACK_WAIT: i32 = 14;
/** Units that changed places out of a deadlock. */
export const PLACES: i32 = 15;
/** Break time owed that lapsed. */
export const LAPSED: i32 = 16;
/** Unit-ms outside, and most units outside at once. */
export const OUTSIDE_AREA: i32 = 17;
export const OUTSIDE_MOST: i32 = 18;
/** Of the good units those that came in during the shift, and their sum from arrival. */
export const NEW_GOODS: i32 = 19;
export const NEW_LEAD: i32 = 20;
/** Units out again that were counted before: no good units. */
export const AGAIN: i32 = 21;
/** Good units with a due time, and those of them that were out after it. */
export const DATED: i32 = 22;
export const LATE: i32 = 23;
export const COUNTS: i32 = 24;

export class Stretches {
  size: i32 = COUNTS;
  /** [hours] good units by hour from the start; the last one takes all that is later. */
  readonly goodByHour: i32;
  /** [causes] units sent back. */
  readonly byCause: i32;
  /** [steps] unit-ms in the line, most units in it, ms waited in it, starts. */
  readonly lineArea: i32;
  readonly lineMost: i32;
  readonly waited: i32;
  readonly starts: i32;
  /** [steps][bins] unit-ms in the line. */
  readonly lineBins: i32;
  /** [people][2 x personStates] ms; the second half is after their own end. */
  readonly personTime: i32;
  /** [gear][gearStates] ms. */
  readonly gearTime: i32;
  /** [people] ms after their own end with the piece that was in their hands then. */
  readonly finishing: i32;
  /**
   * [bins + 1][steps] what lines are reckoned from: unit-ms in the line within the bin by units that came
   * into it or left it there; and, right after it, how many more are in it at the end of the bin than at its
   * beginning. The last bin is all that comes after the others.
   */
  readonly lineChanges: i32;

  constructor(steps: i32, people: i32, gears: i32, causes: i32, hours: i32, bins: i32) {
    this.goodByHour = this.room(hours);
    this.byCause = this.room(causes);
    this.lineArea = this.room(steps);
    this.lineMost = this.room(steps);
    this.waited = this.room(steps);
    this.starts = this.room(steps);
    this.lineBins = this.room(steps * bins);
    this.personTime = this.room(people * 2 * personStates(gears, steps));
    this.gearTime = this.room(gears * gearStates(steps));
    this.finishing = this.room(people);
    this.lineChanges = this.room(2 * steps * (bins + 1));
  }

  private room(count: i32): i32 {
    const at = this.size;
    this.size += count;
    return at;
  }
}

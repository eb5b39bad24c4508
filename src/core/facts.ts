/**
 * The tape of facts: everything a run tells, one number after another, for whoever wants more of a shift than
 * its accounts. A fact is its number below, its time in ms, then what `Recorder` (src/engine/recorder.ts)
 * says of it, in that order.
 */
import { type Numbers, numbers } from './platform.ts';

export const ARRIVE: i32 = 0;
export const KEEP_OUTSIDE: i32 = 1;
export const ENTER: i32 = 2;
export const DIVERT: i32 = 3;
export const JOIN: i32 = 4;
export const START: i32 = 5;
export const PUTS_DOWN: i32 = 6;
export const RESUME: i32 = 7;
export const FINISH: i32 = 8;
export const WAIT_START: i32 = 9;
export const WAIT_END: i32 = 10;
export const BLOCK: i32 = 11;
export const UNBLOCK: i32 = 12;
export const STAND_ASIDE: i32 = 13;
export const RELEASED: i32 = 14;
export const GOOD: i32 = 15;
export const SCRAPPED: i32 = 16;
export const RACK_SENT: i32 = 17;
export const CHANGE_PLACES: i32 = 18;
export const PERSON: i32 = 19;
export const GEAR: i32 = 20;
export const TARGET_MET: i32 = 21;
export const BREAK_LAPSED: i32 = 22;
export const CLOSE: i32 = 23;
/** Where reasons are asked for, at the end of every instant. */
export const HEAD: i32 = 24;
export const REFUSAL: i32 = 25;
export const OUT_AGAIN: i32 = 26;

export class Tape {
  data: Numbers = numbers(1024);
  length: i32 = 0;
  /** Are reasons asked for as well (reasons.ts)? */
  reasons: boolean = false;

  /** A fact begins: its number and its time; `rest` numbers are to follow. */
  begin(fact: i32, time: number, rest: i32): void {
    if (this.length + rest + 2 > this.data.length) this.grow();
    this.put(fact);
    this.put(time);
  }

  put(value: number): void {
    this.data[this.length++] = value;
  }

  fact1(fact: i32, time: number, a: number): void {
    this.begin(fact, time, 1);
    this.put(a);
  }

  fact2(fact: i32, time: number, a: number, b: number): void {
    this.begin(fact, time, 2);
    this.put(a);
    this.put(b);
  }

  fact3(fact: i32, time: number, a: number, b: number, c: number): void {
    this.begin(fact, time, 3);
    this.put(a);
    this.put(b);
    this.put(c);
  }

  fact4(fact: i32, time: number, a: number, b: number, c: number, d: number): void {
    this.begin(fact, time, 4);
    this.put(a);
    this.put(b);
    this.put(c);
    this.put(d);
  }

  private grow(): void {
    const longer = numbers(2 * this.data.length);
    for (let i = 0; i < this.length; i++) longer[i] = this.data[i]!;
    this.data = longer;
  }
}

/**
 * Numbers for what is told of a run: outcomes, and states of people and gear. Without a type of their own
 * they are integers to AssemblyScript and, to TypeScript, each the one number it is: src/engine/states.ts has
 * one word for every state, and two alike are an error there.
 */

/** Outcome of a step. */
export const ON = 0;
export const REWORK = 1;
export const SCRAP = 2;

/** What a person is doing. From NO_GEAR on one code a gear, then one code a step (working at it). */
export const NOT_IN = 0;
export const GONE = 1;
export const ON_BREAK = 2;
export const AWAY = 3;
export const TIDYING = 4;
/** Idle: nothing in the line of the first step they cover. */
export const NO_UNIT = 5;
/** Idle: its bench is held by a piece that cannot move on. */
export const NOWHERE_TO_PUT = 6;
/** Idle: it would not fit before the break, the end, or the step's last start. */
export const NO_FIT = 7;
/** Idle: it takes two. */
export const NO_HELP = 8;
/** At a two-person piece that is put down while the other is off. */
export const WAITING_PARTNER = 9;
/** Idle: covers nothing now. */
export const NO_COVER = 10;
/** Idle: none of gear g free (NO_GEAR + g). */
export const NO_GEAR = 11;
export function workingAt(gears: i32, step: i32): i32 {
  return NO_GEAR + gears + step;
}
export function personStates(gears: i32, steps: i32): i32 {
  return NO_GEAR + gears + steps;
}

/** Told to whoever asks for reasons: what is missing at a step is a state of a person above, or nothing. */
export const NOTHING_MISSING = 0;

/** Why an idle person does not begin what they cover and all is there for. */
export const SHUT = 0;
/** They tidy up or are past their end, and there is no overtime to be had. */
export const DAY_OVER = 1;
/** It would not be over before their overtime is, a break, a time away, their end. */
export const BEFORE_CAP = 2;
export const BEFORE_BREAK = 3;
export const BEFORE_AWAY = 4;
export const BEFORE_END = 5;
/** It takes two. */
export const ALONE = 6;

/** What a piece of gear is doing. */
export const FREE = 0;
export const OUT_OF_ORDER = 1;
/** From 2 on so many codes for each step, and for the way out. */
export const GEAR_PER_STEP = 3;
/** With a unit that is worked at, or waits out its cure, at `step`. */
export function gearAt(step: i32): i32 {
  return 2 + GEAR_PER_STEP * step;
}
/** With a unit that waits for `step` (the number of steps: for the out-rack). */
export function gearBefore(step: i32): i32 {
  return gearAt(step) + 1;
}
/** With a unit that is put down at `step`. */
export function gearPutDown(step: i32): i32 {
  return gearAt(step) + 2;
}
export function gearStates(steps: i32): i32 {
  return gearAt(steps + 1);
}

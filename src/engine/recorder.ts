/**
 * What a run tells the world, and the numbers it uses for states. The engine emits facts and nothing else: no
 * averages, no prints. Times are whole milliseconds from the start of the shift being run; `unit`, `step`,
 * `person`, `gear` are the integer ids of the compiled cell; an absent id is -1.
 */

/** Outcome of a step. */
export const ON = 0;
export const REWORK = 1;
export const SCRAP = 2;

/**
 * What a person is doing. From NO_GEAR on one code a gear, then one code a step (working at it): see
 * `personStates`.
 */
export const NOT_IN = 0;
export const GONE = 1;
export const ON_BREAK = 2;
export const AWAY = 3;
export const TIDYING = 4;
/** Idle: nothing in the line of the first step they cover. */
export const NO_UNIT = 5;
/** Idle: its bench is held by a piece that cannot move on. */
export const NOWHERE = 6;
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
export const workingAt = (gears: number, step: number): number => NO_GEAR + gears + step;
export const personStates = (gears: number, steps: number): number => NO_GEAR + gears + steps;

/** What a piece of gear is doing. */
export const FREE = 0;
export const OUT_OF_ORDER = 1;
/** With a unit that is worked at, or waits out its cure, at `step`. */
export const gearAt = (step: number): number => 2 + 3 * step;
/** With a unit that waits for `step` (the number of steps: for the out-rack). */
export const gearBefore = (step: number): number => 3 + 3 * step;
/** With a unit that is put down at `step`. */
export const gearPutDown = (step: number): number => 4 + 3 * step;
export const gearStates = (steps: number): number => 2 + 3 * (steps + 1);

export interface Recorder {
  /** A shift begins: every person is NOT_IN and every piece of gear FREE until said otherwise. */
  begin(replication: number, shift: number): void;
  arrive(time: number, unit: number, product: number): void;
  /** The unit cannot enter the first line and waits outside; `outside` units now do. */
  keepOutside(time: number, unit: number, outside: number): void;
  enter(time: number, unit: number, outside: number): void;
  divert(time: number, unit: number): void;
  /** The unit joins the line of a hands step, now `length` long. */
  join(time: number, unit: number, step: number, length: number): void;
  /**
   * A hands step starts; the line is now `length` long, the unit was in it for `waited` ms of this shift.
   * `duration` is the whole planned time in ms.
   */
  start(
    time: number,
    unit: number,
    step: number,
    visit: number,
    person: number,
    second: number,
    duration: number,
    waited: number,
    length: number,
  ): void;
  putDown(time: number, unit: number, step: number, person: number, left: number): void;
  resume(time: number, unit: number, step: number, person: number, left: number): void;
  finish(time: number, unit: number, step: number, person: number, outcome: number, branch: number): void;
  waitStart(time: number, unit: number, step: number, duration: number): void;
  waitEnd(time: number, unit: number, step: number, outcome: number, branch: number): void;
  block(time: number, unit: number, step: number, to: number): void;
  unblock(time: number, unit: number, step: number, to: number): void;
  standAside(time: number, unit: number, step: number): void;
  release(time: number, unit: number, step: number): void;
  /**
   * On the out-rack. `lead` from arrival, `flow` from first start, ms; `visits` hands and wait visits beyond
   * the first of a step.
   */
  good(time: number, unit: number, lead: number, flow: number, repeats: number): void;
  scrap(time: number, unit: number): void;
  /**
   * A full out-rack leaves; it took `fill` ms from its first unit, its units waited `waited` ms on it
   * altogether.
   */
  rackSent(time: number, fill: number, waited: number): void;
  changePlaces(time: number, units: number): void;
  /** A person's state; `overtime`: after their own end. */
  person(time: number, person: number, state: number, overtime: boolean): void;
  gear(time: number, gear: number, item: number, state: number, unit: number): void;
  targetMet(time: number): void;
  /** Break time owed that lapsed when the person went, ms. */
  breakLapsed(time: number, person: number, milliseconds: number): void;
  /** The shift's report closes here; `inside` units are in the cell, `outside` wait outside. */
  end(time: number, inside: number, outside: number): void;
}

/**
 * What a run tells the world, and the numbers it uses for states. The engine emits facts and nothing else: no
 * averages, no prints. Times are whole milliseconds from the start of the shift being run; `unit`, `step`,
 * `person`, `gear` are the integer ids of the compiled cell; an absent id is -1.
 */

export * from './states.ts';

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
  /** On the out-rack, of a product that comes back from elsewhere: it was counted before. */
  again(time: number, unit: number): void;
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
  /**
   * Where reasons are asked for, at the end of every instant: the unit that would start at a step now (-1:
   * none), and what is missing there (a state of a person, or NOTHING_MISSING).
   */
  head(time: number, step: number, unit: number, missing: number): void;
  /** Why a free person does not begin it though nothing is missing: from SHUT to ALONE in states.ts. */
  refusal(time: number, person: number, step: number, why: number, until: number, needed: number): void;
  /** The shift's report closes here; `inside` units are in the cell, `outside` wait outside. */
  end(time: number, inside: number, outside: number): void;
}

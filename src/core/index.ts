/**
 * What the host calls. A day is handed out as it is: to WebAssembly's host that is its address. Its accounts
 * and tapes are read in place.
 */
import { buildDay } from './build.ts';
import { addCurve, clearCurves } from './curves.ts';
import { NOWHERE } from './units.ts';
import { Tape } from './facts.ts';
import { type Numbers, numbers } from './platform.ts';
import type { Day } from './run.ts';

/** Room for so many numbers, to be written by the host and handed back to `curve` or `day`. */
export function room(length: i32): Numbers {
  return numbers(length);
}

/** Keeps a time curve (see curves.ts) under a number: 0, 1, 2 ... */
export function curve(id: i32, kind: i32, values: Numbers): void {
  addCurve(id, kind, values);
}

/** Forgets the curves, and counts from 0 again. Days built before must not be run any more. */
export function clear(): void {
  clearCurves();
}

/** Builds a day from its numbers. */
export function day(data: Numbers): Day {
  return buildDay(data);
}

/** Runs one replication, by its number as a signed word. 0, or why it was given up (run.ts). */
export function run(day: Day, replication: i32): i32 {
  return day.run(replication);
}

/** What was counted of a shift, as `Stretches` lays it out. */
export function accounts(day: Day, shift: i32): Numbers {
  return day.shifts[shift]!.recorder.data;
}

/**
 * Begins to write, or no longer writes, every fact of a day's runs onto the tapes of its shifts; `reasons`:
 * with what keeps each step from being begun.
 */
export function write(day: Day, on: boolean, reasons: boolean): void {
  for (let i = 0; i < day.shifts.length; i++) {
    const recorder = day.shifts[i]!.recorder;
    if (!on) recorder.tape = null;
    else if (recorder.tape === null) recorder.tape = new Tape();
    if (on) recorder.tape!.reasons = reasons;
  }
}

export function tape(day: Day, shift: i32): Numbers {
  return day.shifts[shift]!.recorder.tape!.data;
}

export function tapeLength(day: Day, shift: i32): i32 {
  return day.shifts[shift]!.recorder.tape!.length;
}

/** Ms into the shift in which the latest run of a day stands. */
export function now(day: Day): number {
  return day.state.now;
}

/** Bits of the steps where some unit in the cell has been more than so often. */
export function visitedOften(day: Day, times: i32): i32 {
  const state = day.state;
  let steps: i32 = 0;
  for (let i = 0; i < state.top; i++) {
    const unit = state.units.at(i);
    const step = unit.step;
    if (unit.where !== NOWHERE && step !== null && step !== state.out && unit.visits[step.index]! > times)
      steps |= step.bit;
  }
  return steps;
}

/** The shift that the latest run of a day was in. */
export function shiftOf(day: Day): i32 {
  return day.state.shiftNumber;
}

/** Number (among the day's) of the kind of gear that a run ended for want of; and how many are held. */
export function scarceKind(day: Day): i32 {
  const kind = day.state.tooFew;
  return kind === null ? -1 : kind.number;
}

export function scarceHeld(day: Day): i32 {
  const kind = day.state.tooFew;
  return kind === null ? 0 : kind.standingOver;
}

/** Inputs that a study varies: they hold until they are set again. */
export function setScale(
  day: Day,
  shift: i32,
  step: i32,
  product: i32,
  repeat: boolean,
  scale: number,
): void {
  const task = day.shifts[shift]!.rules[step]!.tasks[product]!;
  if (repeat) task.repeatScale = scale;
  else task.scale = scale;
}

export function setScrap(day: Day, shift: i32, step: i32, share: number): void {
  day.shifts[shift]!.rules[step]!.scrap = share;
  day.changed();
}

export function setShare(day: Day, shift: i32, step: i32, branch: i32, share: number): void {
  day.shifts[shift]!.rules[step]!.branches[branch]!.share = share;
}

export function setChance(day: Day, shift: i32, person: i32, chance: number): void {
  day.shifts[shift]!.people[person]!.chance = chance;
}

/**
 * Why nothing starts now: what is missing at each step and, where nothing is, why those who are free do not
 * begin it. Told onto the tape at the end of an instant, and only where somebody asks. It asks the very
 * functions that starts ask, so what is told is what decided.
 */
import {
  ALONE,
  BEFORE_AWAY,
  BEFORE_BREAK,
  BEFORE_CAP,
  BEFORE_END,
  DAY_OVER,
  NO_UNIT,
  NOTHING_MISSING,
  SHUT,
} from './codes.ts';
import { HEAD, REFUSAL, type Tape } from './facts.ts';
import type { Person } from './resources.ts';
import type { Step } from './steps.ts';
import { NONE, type Unit } from './units.ts';
import { missingGear } from './idle.ts';
import { lastEnd, nextStop, overtimeInForce, plannedTime } from './may-start.ts';
import { lowestBit } from './platform.ts';
import { headOf, readySteps } from './starts.ts';
import type { CellState } from './state.ts';

export function tellReasons(state: CellState): void {
  const tape = state.recorder.tape;
  if (tape === null || !tape.reasons) return;
  const ready = readySteps(state);
  for (let i = 0; i < state.steps.length; i++) {
    const step = state.steps[i]!;
    if (!step.hands) continue;
    const left = step.left.first;
    const unit = left !== null ? left : headOf(state, step);
    const number: i32 = unit === null ? NONE : unit.number;
    const isReady = left !== null || (ready & step.bit) !== 0;
    const missing: i32 = unit === null ? NO_UNIT : isReady ? NOTHING_MISSING : missingGear(unit, step);
    tape.fact3(HEAD, state.now, i, number, missing);
    if (unit !== null && missing === NOTHING_MISSING) tellRefusals(state, tape, step, unit, left !== null);
  }
}

/** Of everybody who is free and covers a step at which nothing is missing. */
function tellRefusals(state: CellState, tape: Tape, step: Step, unit: Unit, left: boolean): void {
  for (let word = 0; word < state.words; word++) {
    for (let mask: i32 = state.idle[word]!; mask !== 0; mask &= mask - 1) {
      const person = state.people[(word << 5) + lowestBit(mask)]!;
      if ((person.coverMask & step.bit) !== 0) tellRefusal(state, tape, person, step, unit, left);
    }
  }
}

/** In the order in which `fits` asks: the rule, when it stops them, and the ms they would have needed. */
function tellRefusal(
  state: CellState,
  tape: Tape,
  person: Person,
  step: Step,
  unit: Unit,
  left: boolean,
): void {
  const now = state.now;
  const opens = step.opens(now);
  const overtime = person.mayOvertime && overtimeInForce(state);
  const needed: number = left ? unit.ends : plannedTime(person, null, step, unit);
  const stop = nextStop(state, person, overtime);
  let why: i32 = ALONE;
  let until: number = Infinity;
  if (!left && opens !== now) {
    why = SHUT;
    until = opens;
  } else if (overtime ? now >= person.to + state.shift.overtimeCap : now >= person.tidyFrom) {
    why = DAY_OVER;
  } else if (now >= person.tidyFrom && now + needed > lastEnd(state, person)) {
    why = BEFORE_CAP;
    until = lastEnd(state, person);
  } else if (step.whole && now + needed > stop) {
    why = whatStops(person, stop, overtime);
    until = stop;
  }
  tape.begin(REFUSAL, now, 5);
  tape.put(person.index);
  tape.put(step.index);
  tape.put(why);
  tape.put(until);
  tape.put(needed);
}

function whatStops(person: Person, stop: number, overtime: boolean): i32 {
  if (person.nextOff < person.offs.length) {
    const off = person.offs[person.nextOff]!;
    if (off.start === stop) return off.isBreak ? BEFORE_BREAK : BEFORE_AWAY;
  }
  return overtime ? BEFORE_CAP : BEFORE_END;
}

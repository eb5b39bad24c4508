/** People: coming, breaks, times away, changes of cover, the pieces they put down and take up again. */
import { AWAY, gearPutDown, ON_BREAK, WAITING_PARTNER } from './codes.ts';
import { sample } from './curves.ts';
import { draw, toMilliseconds } from './draws.ts';
import { BUSY, ENDED, ENDED_IN_OVERTIME, IDLE, LEFT, OFF, OUT, type Person } from './resources.ts';
import type { Step } from './steps.ts';
import { PUT_DOWN, type Unit } from './units.ts';
import { endStep } from './flow.ts';
import { tellGear } from './gear.ts';
import { abandon, leaveDown, partnerAt, tellPerson } from './left-pieces.ts';
import { overtimeInForce, secondFor } from './may-start.ts';
import { leave, overtimeGoesOn } from './overtime.ts';
import { ATTENDANCE, LATENESS, secondWord, uniform } from './random.ts';
import { CAP, COME, OFF_END, personOrder } from './ranks.ts';
import type { CellState } from './state.ts';
import { take } from './take.ts';

/**
 * Who comes at all, and who late: drawn before the shift. Latecomers' coming is planned here, everybody
 * else's is in the calendar.
 */
export function drawAttendance(state: CellState): void {
  const people = state.people;
  for (let index = 0; index < people.length; index++) {
    const person = people[index]!;
    person.comes = true;
    if (person.chance >= 1 && person.lateChance <= 0) continue;
    const comes = uniform(draw(state, ATTENDANCE, index, 0, state.shiftNumber)) < person.chance;
    const late = uniform(secondWord()) < person.lateChance;
    if (!comes) {
      person.comes = false;
      if (person.piece !== null) leaveDown(state, person.piece!);
    }
    if (comes && late) comeLate(state, person);
  }
}

function comeLate(state: CellState, person: Person): void {
  const late = sample(person.late!, draw(state, LATENESS, person.index, 0, state.shiftNumber));
  const time = person.from + toMilliseconds(late);
  person.comes = false;
  if (time < person.to) state.events.plan(time, personOrder(person.index, COME), COME, person.index, 0);
  else if (person.piece !== null) leaveDown(state, person.piece!);
}

/** A person comes; into a time off that has begun: they join the rest of it. */
export function come(state: CellState, person: Person): void {
  const offs = person.offs;
  state.setAt(person, IDLE);
  state.present++;
  let off: i32 = 0;
  while (off < offs.length && offs[off]!.start + offs[off]!.length <= state.now) off++;
  person.nextOff = off;
  if (off < offs.length && offs[off]!.start < state.now) {
    person.nextOff = off + 1;
    beginOff(state, person, off, offs[off]!.start + offs[off]!.length);
  } else {
    comeBack(state, person);
  }
}

/** On duty again: what they put down comes first. */
function comeBack(state: CellState, person: Person): void {
  const unit = person.piece;
  if (unit === null) {
    state.setAt(person, IDLE);
    return;
  }
  const other = partnerAt(unit, person);
  state.setAt(person, BUSY);
  if (other !== null && other.at !== BUSY) tellPerson(state, person, WAITING_PARTNER);
  else resume(state, unit);
}

function resume(state: CellState, unit: Unit): void {
  const step = unit.step!;
  const person = unit.person!;
  state.recorder.resume(state.now, unit, step, person);
  take(state, unit, step, person, unit.second, unit.ends);
}

/**
 * A break or time away begins: at once for somebody idle or at a piece that can be put down, otherwise it is
 * owed.
 */
export function offStarts(state: CellState, person: Person, off: i32): void {
  const at = person.at;
  if (at !== IDLE && at !== BUSY && at !== OFF) return;
  // Nobody interrupts their last piece for a break after their end.
  if (person.ended === ENDED) return;
  person.nextOff = off + 1;
  const piece = person.piece;
  const inHand = at === BUSY && piece!.where !== PUT_DOWN;
  if (at === OFF || (inHand && piece!.step!.whole)) {
    if (person.owedFrom === person.owedTo) person.owedFrom = off;
    person.owedTo = off + 1;
    return;
  }
  if (inHand) {
    putDown(state, piece!);
    // A partner who only stayed to finish it does not wait for the end of a break.
    const other = partnerAt(piece!, person);
    if (other !== null && other.ended !== 0 && !overtimeGoesOn(state, other, true)) abandon(state, other);
  }
  beginOff(state, person, off, person.offs[off]!.start + person.offs[off]!.length);
}

function beginOff(state: CellState, person: Person, off: i32, until: number): void {
  state.setAt(person, OFF);
  person.offUntil = until;
  person.offIsBreak = person.offs[off]!.isBreak;
  person.offToken++;
  tellPerson(state, person, person.offIsBreak ? ON_BREAK : AWAY);
  state.events.plan(until, personOrder(person.index, OFF_END), OFF_END, person.index, person.offToken);
}

/**
 * Begins what is owed: a break in full, a time away until its own end. False where nothing (more) is owed.
 */
function beginOwed(state: CellState, person: Person): boolean {
  while (person.owedFrom < person.owedTo) {
    const owed: i32 = person.owedFrom++;
    const off = person.offs[owed]!;
    const until: number = off.isBreak ? state.now + off.length : off.start + off.length;
    if (until <= state.now) continue;
    beginOff(state, person, owed, until);
    return true;
  }
  return false;
}

export function offEnds(state: CellState, person: Person): void {
  if (!beginOwed(state, person)) comeBack(state, person);
}

/** The piece is put down where it is, in no line, its gear held. */
function putDown(state: CellState, unit: Unit): void {
  const step = unit.step!;
  const person = unit.person!;
  const second = unit.second;
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.token++;
  unit.ends = unit.ends - state.now;
  state.recorder.putDown(state.now, unit, step, person.index);
  tellGear(state, unit, gearPutDown(step.index));
  stopsWork(state, person);
  if (second !== null) stopsWork(state, second);
}

function stopsWork(state: CellState, person: Person): void {
  person.lastPiece = state.now;
  if (person.at === BUSY) tellPerson(state, person, WAITING_PARTNER);
}

export function resumeLeft(state: CellState, person: Person, step: Step): void {
  const left = step.left;
  const unit = left.first!;
  const second = step.pair ? secondFor(state, person, step, unit, true) : null;
  left.remove(unit);
  if (left.length === 0) state.leftMask &= ~step.bit;
  state.recorder.resume(state.now, unit, step, person);
  take(state, unit, step, person, second, unit.ends);
}

/** A hands step ends: its people are free, and take the break they are owed. */
export function endHands(state: CellState, unit: Unit): void {
  const step = unit.step!;
  const person = unit.person!;
  const second = unit.second;
  unit.lastBy[step.index] = person.index;
  freePerson(state, person);
  if (second !== null) freePerson(state, second);
  endStep(state, unit, step);
}

// @inline
function freePerson(state: CellState, person: Person): void {
  person.piece = null;
  person.lastPiece = state.now;
  if (person.finishing >= 0) state.recorder.finished(state.now, person);
  state.setAt(person, IDLE);
  if (person.owedFrom < person.owedTo) beginOwed(state, person);
}

/**
 * Their own end: idle people go (or stay for overtime), pieces in hand are finished or put down, a break
 * still owed lapses.
 */
export function ownEnd(state: CellState, person: Person): void {
  const at = person.at;
  if (at === OUT || at === LEFT) {
    state.setAt(person, LEFT);
    return;
  }
  lapse(state, person);
  const overtime = person.mayOvertime && overtimeInForce(state);
  person.ended = overtime ? ENDED_IN_OVERTIME : ENDED;
  if (overtime) {
    const cap = state.now + state.shift.overtimeCap;
    state.events.plan(cap, personOrder(person.index, CAP), CAP, person.index, 0);
  }
  if (at === OFF) {
    if (person.piece !== null) abandon(state, person);
    leave(state, person);
    return;
  }
  const unit = person.piece;
  if (at === BUSY && unit!.where === PUT_DOWN) {
    abandon(state, person);
  } else if (at === BUSY && !overtimeGoesOn(state, person, true)) {
    stopAtEnd(state, person, unit!);
  }
  if (person.at === BUSY) person.finishing = state.now;
  state.recorder.person(state.now, person, person.told);
}

/**
 * The cap of the overtime is an end like their own: who is on a break goes; a piece in hand is finished, or
 * put down where the shift says so.
 */
export function capReached(state: CellState, person: Person): void {
  const unit = person.piece;
  if (person.at === OFF) {
    lapse(state, person);
    if (unit !== null) abandon(state, person);
    leave(state, person);
  }
  if (person.at !== BUSY) return;
  if (unit!.where === PUT_DOWN) abandon(state, person);
  else stopAtEnd(state, person, unit!);
}

function stopAtEnd(state: CellState, person: Person, unit: Unit): void {
  if (!state.shift.putDownAtEnd || unit.step!.whole) return;
  putDown(state, unit);
  abandon(state, person);
}

function lapse(state: CellState, person: Person): void {
  let owed: number = 0;
  if (person.at === OFF && person.offIsBreak) owed += Math.max(0, person.offUntil - state.now);
  for (let i: i32 = person.owedFrom; i < person.owedTo; i++) {
    const off = person.offs[i]!;
    if (off.isBreak) owed += off.length;
  }
  person.owedFrom = person.owedTo;
  if (owed > 0) state.recorder.breakLapsed(state.now, person, owed);
}

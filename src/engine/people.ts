/** People: coming, breaks, times away, changes of cover, the pieces they put down and take up again. */
import { draw, secondWord } from './draws.ts';
import { sample } from '../duration/compile.ts';
import { toMilliseconds } from './compile.ts';
import { endStep } from './flow.ts';
import { abandon, leaveDown, tellPerson } from './left-pieces.ts';
import { overtimeInForce, secondFor } from './may-start.ts';
import { leave, overtimeGoesOn } from './overtime.ts';
import { tellGear } from './gear.ts';
import { uniform } from '../random/threefry.ts';
import { PURPOSE } from '../random/keys.ts';
import { CAP, COME, OFF_END, personOrder } from './ranks.ts';
import { AWAY, gearPutDown, ON_BREAK, WAITING_PARTNER } from './recorder.ts';
import {
  BUSY,
  ENDED,
  ENDED_IN_OVERTIME,
  IDLE,
  LEFT,
  OFF,
  OUT,
  PUT_DOWN,
  remove,
  setAt,
  type CellState,
  type Person,
  type Step,
  type Unit,
} from './state.ts';
import { take } from './take.ts';

/**
 * Who comes at all, and who late: drawn before the shift. Latecomers' coming is planned here, everybody
 * else's is in the calendar.
 */
export const drawAttendance = (state: CellState): void => {
  const { chance, lateChance } = state.cell.people;
  for (const person of state.people) {
    const { index } = person;
    person.comes = true;
    if (chance[index]! >= 1 && lateChance[index]! <= 0) continue;
    const comes = uniform(draw(state, PURPOSE.ATTENDANCE, index, 0, state.shiftNumber)) < chance[index]!;
    const late = uniform(secondWord()) < lateChance[index]!;
    if (!comes) {
      person.comes = false;
      if (person.piece !== null) leaveDown(state, person.piece);
    }
    if (comes && late) comeLate(state, person);
  }
};

const comeLate = (state: CellState, person: Person): void => {
  const { people } = state.cell;
  const { index } = person;
  const late = sample(people.late[index]!, draw(state, PURPOSE.LATENESS, index, 0, state.shiftNumber));
  const time = people.from[index]! + toMilliseconds(late);
  person.comes = false;
  if (time < person.to) state.events.plan(time, personOrder(index, COME), COME, index, 0);
  else if (person.piece !== null) leaveDown(state, person.piece);
};

/** A person comes; into a time off that has begun: they join the rest of it. */
export const come = (state: CellState, person: Person): void => {
  const { offFrom, offStart, offLength } = state.cell.people;
  const last = offFrom[person.index + 1]!;
  setAt(state, person, IDLE);
  state.present++;
  let off = offFrom[person.index]!;
  while (off < last && offStart[off]! + offLength[off]! <= state.now) off++;
  person.nextOff = off;
  if (off < last && offStart[off]! < state.now) {
    person.nextOff = off + 1;
    beginOff(state, person, off, offStart[off]! + offLength[off]!);
  } else {
    comeBack(state, person);
  }
};

/** On duty again: what they put down comes first. */
const comeBack = (state: CellState, person: Person): void => {
  const unit = person.piece;
  if (unit === null) {
    setAt(state, person, IDLE);
    return;
  }
  const other = unit.person === person ? unit.second : unit.person;
  setAt(state, person, BUSY);
  if (other !== null && other.at !== BUSY) tellPerson(state, person, WAITING_PARTNER);
  else resume(state, unit);
};

const resume = (state: CellState, unit: Unit): void => {
  const step = unit.step!;
  const person = unit.person!;
  state.recorder.resume(state.now, unit.number, step.index, person.index, unit.ends);
  take(state, unit, step, person, unit.second, unit.ends);
};

/**
 * A break or time away begins: at once for somebody idle or at a piece that can be put down, otherwise it is
 * owed.
 */
export const offStarts = (state: CellState, person: Person, off: number): void => {
  const { offStart, offLength } = state.cell.people;
  const { at, piece } = person;
  if (at !== IDLE && at !== BUSY && at !== OFF) return;
  // Nobody interrupts their last piece for a break after their end.
  if (person.ended === ENDED) return;
  person.nextOff = off + 1;
  const inHand = at === BUSY && piece!.where !== PUT_DOWN;
  if (at === OFF || (inHand && piece!.step!.whole)) {
    if (person.owedFrom === person.owedTo) person.owedFrom = off;
    person.owedTo = off + 1;
    return;
  }
  if (inHand) {
    putDown(state, piece!);
    // A partner who only stayed to finish it does not wait for the end of a break.
    const other = piece!.person === person ? piece!.second : piece!.person;
    if (other !== null && other.ended !== 0 && !overtimeGoesOn(state, other, true)) abandon(state, other);
  }
  beginOff(state, person, off, offStart[off]! + offLength[off]!);
};

const beginOff = (state: CellState, person: Person, off: number, until: number): void => {
  setAt(state, person, OFF);
  person.offUntil = until;
  person.offIsBreak = state.cell.people.offIsBreak[off] !== 0;
  person.offToken++;
  tellPerson(state, person, person.offIsBreak ? ON_BREAK : AWAY);
  state.events.plan(until, personOrder(person.index, OFF_END), OFF_END, person.index, person.offToken);
};

/**
 * Begins what is owed: a break in full, a time away until its own end. False where nothing (more) is owed.
 */
export const beginOwed = (state: CellState, person: Person): boolean => {
  const { offIsBreak, offStart, offLength } = state.cell.people;
  while (person.owedFrom < person.owedTo) {
    const off = person.owedFrom++;
    const until = offIsBreak[off] !== 0 ? state.now + offLength[off]! : offStart[off]! + offLength[off]!;
    if (until <= state.now) continue;
    beginOff(state, person, off, until);
    return true;
  }
  return false;
};

export const offEnds = (state: CellState, person: Person): void => {
  if (!beginOwed(state, person)) comeBack(state, person);
};

/** The piece is put down where it is, in no line, its gear held. */
export const putDown = (state: CellState, unit: Unit): void => {
  const step = unit.step!;
  const { person, second } = unit;
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.token++;
  unit.ends = unit.ends - state.now;
  state.recorder.putDown(state.now, unit.number, step.index, person!.index, unit.ends);
  tellGear(state, unit, gearPutDown(step.index));
  if (person !== null) stopsWork(state, person);
  if (second !== null) stopsWork(state, second);
};

const stopsWork = (state: CellState, person: Person): void => {
  person.lastPiece = state.now;
  if (person.at === BUSY) tellPerson(state, person, WAITING_PARTNER);
};

export const resumeLeft = (state: CellState, person: Person, step: Step): void => {
  const { left } = step;
  const unit = left.first!;
  const second = step.pair ? secondFor(state, person, step, unit, true) : null;
  remove(left, unit);
  if (left.length === 0) state.leftMask &= ~step.bit;
  state.recorder.resume(state.now, unit.number, step.index, person.index, unit.ends);
  take(state, unit, step, person, second, unit.ends);
};

/** A hands step ends: its people are free, and take the break they are owed. */
export const endHands = (state: CellState, unit: Unit): void => {
  const step = unit.step!;
  const person = unit.person!;
  unit.lastBy[step.index] = person.index;
  freePerson(state, person);
  if (unit.second !== null) freePerson(state, unit.second);
  endStep(state, unit, step);
};

const freePerson = (state: CellState, person: Person): void => {
  person.piece = null;
  person.lastPiece = state.now;
  setAt(state, person, IDLE);
  if (person.owedFrom < person.owedTo) beginOwed(state, person);
};

/**
 * Their own end: idle people go (or stay for overtime), pieces in hand are finished or put down, a break
 * still owed lapses.
 */
export const ownEnd = (state: CellState, person: Person): void => {
  const { at } = person;
  if (at === OUT || at === LEFT) {
    setAt(state, person, LEFT);
    return;
  }
  lapse(state, person);
  const overtime = person.mayOvertime && overtimeInForce(state);
  person.ended = overtime ? ENDED_IN_OVERTIME : ENDED;
  if (overtime)
    state.events.plan(
      state.now + state.cell.overtimeCap,
      personOrder(person.index, CAP),
      CAP,
      person.index,
      0,
    );
  if (at === OFF) {
    if (person.piece !== null) abandon(state, person);
    leave(state, person);
    return;
  }
  const unit = person.piece!;
  if (at === BUSY && unit.where === PUT_DOWN) {
    abandon(state, person);
  } else if (at === BUSY && !overtimeGoesOn(state, person, true)) {
    stopAtEnd(state, person, unit);
  }
  state.recorder.person(state.now, person.index, person.told, true);
};

/**
 * The cap of the overtime is an end like their own: who is on a break goes; a piece in hand is finished, or
 * put down where the shift says so.
 */
export const capReached = (state: CellState, person: Person): void => {
  const unit = person.piece;
  if (person.at === OFF) {
    lapse(state, person);
    if (unit !== null) abandon(state, person);
    leave(state, person);
  }
  if (person.at !== BUSY) return;
  if (unit!.where === PUT_DOWN) abandon(state, person);
  else stopAtEnd(state, person, unit!);
};

const stopAtEnd = (state: CellState, person: Person, unit: Unit): void => {
  if (!state.cell.putDownAtEnd || unit.step!.whole) return;
  putDown(state, unit);
  abandon(state, person);
};

const lapse = (state: CellState, person: Person): void => {
  const { people } = state.cell;
  let owed = 0;
  if (person.at === OFF && person.offIsBreak) owed += Math.max(0, person.offUntil - state.now);
  for (let off = person.owedFrom; off < person.owedTo; off++) {
    if (people.offIsBreak[off] !== 0) owed += people.offLength[off]!;
  }
  person.owedFrom = person.owedTo;
  if (owed > 0) state.recorder.breakLapsed(state.now, person.index, owed);
};

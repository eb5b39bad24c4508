/** People: coming, breaks, times away, changes of cover, the pieces they put down and take up again. */
import { draw, secondWord } from './draws.ts';
import { sample } from './distributions/compile.ts';
import { toMilliseconds } from './compile.ts';
import { endStep } from './flow.ts';
import { leave, overtimeGoesOn, overtimeInForce } from './overtime.ts';
import { tellGear } from './gear.ts';
import { uniform } from './random/threefry.ts';
import { PURPOSE } from './random/keys.ts';
import { CAP, COME, OFF_END, personOrder } from './ranks.ts';
import { AWAY, gearPutDown, ON_BREAK, WAITING_PARTNER } from './recorder.ts';
import { append, BUSY, ENDED, ENDED_IN_OVERTIME, IDLE, LEFT, NONE, OFF, OUT, PUT_DOWN, remove, setAt, type CellState, type Unit } from './state.ts';
import { secondFor, take } from './starts.ts';

/** Tells what a person is doing, where it is something new. */
export function tellPerson(state: CellState, person: number, code: number): void {
  if (state.told[person] === code) return;
  state.told[person] = code;
  state.recorder.person(state.now, person, code, state.ended[person] !== 0);
}

/** Who comes at all, and who late: drawn before the shift. Latecomers' coming is planned here, everybody else's is in the calendar. */
export function drawAttendance(state: CellState): void {
  const { people } = state.cell;
  for (let person = 0; person < people.count; person++) {
    state.comes[person] = 1;
    if (people.chance[person]! >= 1 && people.lateChance[person]! <= 0) continue;
    const comes = uniform(draw(state, PURPOSE.ATTENDANCE, person, 0, state.shiftNumber)) < people.chance[person]!;
    const late = uniform(secondWord()) < people.lateChance[person]!;
    if (!comes) {
      state.comes[person] = 0;
      if (state.piece[person] !== null) leaveDown(state, state.piece[person]!);
    }
    if (comes && late) comeLate(state, person);
  }
}

function comeLate(state: CellState, person: number): void {
  const { people } = state.cell;
  const late = sample(people.late[person]!, draw(state, PURPOSE.LATENESS, person, 0, state.shiftNumber));
  const time = people.from[person]! + toMilliseconds(late);
  state.comes[person] = 0;
  if (time < people.to[person]!) state.events.plan(time, personOrder(person, COME), COME, person, 0);
  else if (state.piece[person] !== null) leaveDown(state, state.piece[person]!);
}

/** A person comes; into a time off that has begun: they join the rest of it. */
export function come(state: CellState, person: number): void {
  const { people } = state.cell;
  setAt(state, person, IDLE);
  state.present++;
  let off = people.offFrom[person]!;
  while (off < people.offFrom[person + 1]! && people.offStart[off]! + people.offLength[off]! <= state.now) off++;
  state.nextOff[person] = off;
  if (off < people.offFrom[person + 1]! && people.offStart[off]! < state.now) {
    state.nextOff[person] = off + 1;
    beginOff(state, person, off, people.offStart[off]! + people.offLength[off]!);
  } else {
    comeBack(state, person);
  }
}

/** On duty again: what they put down comes first. */
function comeBack(state: CellState, person: number): void {
  if (state.piece[person] === null) {
    setAt(state, person, IDLE);
    return;
  }
  const unit = state.piece[person]!;
  const other = unit.person === person ? unit.second : unit.person;
  setAt(state, person, BUSY);
  if (other !== NONE && state.at[other] !== BUSY) tellPerson(state, person, WAITING_PARTNER);
  else resume(state, unit);
}

function resume(state: CellState, unit: Unit): void {
  const step = unit.step;
  state.recorder.resume(state.now, unit.number, step, unit.person, unit.ends);
  take(state, unit, step, unit.person, unit.second, unit.ends);
}

/** A break or time away begins: at once for somebody idle or at a piece that can be put down, otherwise it is owed. */
export function offStarts(state: CellState, person: number, off: number): void {
  const { people, steps } = state.cell;
  const at = state.at[person]!;
  if (at !== IDLE && at !== BUSY && at !== OFF) return;
  // Nobody interrupts their last piece for a break after their end.
  if (state.ended[person] === ENDED) return;
  state.nextOff[person] = off + 1;
  const unit = state.piece[person]!;
  const whole = at === BUSY && unit.where !== PUT_DOWN && steps.whole[unit.step] !== 0;
  if (at === OFF || whole) {
    if (state.owedFrom[person] === state.owedTo[person]) state.owedFrom[person] = off;
    state.owedTo[person] = off + 1;
    return;
  }
  if (at === BUSY && unit.where !== PUT_DOWN) {
    putDown(state, unit);
    // A partner who only stayed to finish it does not wait for the end of a break.
    const other = unit.person === person ? unit.second : unit.person;
    if (other !== NONE && state.ended[other] !== 0 && !overtimeGoesOn(state, other, true)) abandon(state, other);
  }
  beginOff(state, person, off, people.offStart[off]! + people.offLength[off]!);
}

function beginOff(state: CellState, person: number, off: number, until: number): void {
  setAt(state, person, OFF);
  state.offUntil[person] = until;
  state.offKind[person] = state.cell.people.offIsBreak[off]!;
  const token = state.offToken[person]! + 1;
  state.offToken[person] = token;
  tellPerson(state, person, state.offKind[person] !== 0 ? ON_BREAK : AWAY);
  state.events.plan(until, personOrder(person, OFF_END), OFF_END, person, token);
}

/** Begins what is owed: a break in full, a time away until its own end. False where nothing (more) is owed. */
export function beginOwed(state: CellState, person: number): boolean {
  const { people } = state.cell;
  while (state.owedFrom[person]! < state.owedTo[person]!) {
    const off = state.owedFrom[person]!;
    state.owedFrom[person] = off + 1;
    const until = people.offIsBreak[off] !== 0 ? state.now + people.offLength[off]! : people.offStart[off]! + people.offLength[off]!;
    if (until <= state.now) continue;
    beginOff(state, person, off, until);
    return true;
  }
  return false;
}

export function offEnds(state: CellState, person: number, token: number): void {
  if (state.at[person] !== OFF || token !== state.offToken[person]) return;
  if (!beginOwed(state, person)) comeBack(state, person);
}

/** The piece is put down where it is, in no line, its gear held. */
export function putDown(state: CellState, unit: Unit): void {
  unit.where = PUT_DOWN;
  unit.since = state.now;
  unit.token = unit.token + 1;
  unit.ends = unit.ends - state.now;
  state.recorder.putDown(state.now, unit.number, unit.step, unit.person, unit.ends);
  tellGear(state, unit, gearPutDown(unit.step));
  for (const person of [unit.person, unit.second]) {
    if (person === NONE) continue;
    state.lastPiece[person] = state.now;
    if (state.at[person] === BUSY) tellPerson(state, person, WAITING_PARTNER);
  }
}

/** Nobody's any more: whoever first covers its step takes it up. */
export function leaveDown(state: CellState, unit: Unit): void {
  const step = unit.step;
  for (const person of [unit.person, unit.second]) if (person !== NONE) state.piece[person] = null;
  unit.person = NONE;
  unit.second = NONE;
  append(state.leftDown[step]!, unit);
  state.leftMask |= 1 << step;
}

export function resumeLeft(state: CellState, person: number, step: number): void {
  const list = state.leftDown[step]!;
  const unit = list.first!;
  const second = state.cell.steps.people[step] === 2 ? secondFor(state, person, step, unit, true) : NONE;
  remove(list, unit);
  if (list.length === 0) state.leftMask &= ~(1 << step);
  state.recorder.resume(state.now, unit.number, step, person, unit.ends);
  take(state, unit, step, person, second, unit.ends);
}

/** A hands step ends: its people are free, and take the break they are owed. */
export function endHands(state: CellState, unit: Unit): void {
  const { cell } = state;
  const step = unit.step;
  const person = unit.person;
  const second = unit.second;
  unit.lastBy[step] = person;
  freePerson(state, person);
  if (second !== NONE) freePerson(state, second);
  endStep(state, unit, step);
}

function freePerson(state: CellState, person: number): void {
  state.piece[person] = null;
  state.lastPiece[person] = state.now;
  setAt(state, person, IDLE);
  beginOwed(state, person);
}

/** Their own end: idle people go (or stay for overtime), pieces in hand are finished or put down, a break still owed lapses. */
export function ownEnd(state: CellState, person: number): void {
  const at = state.at[person]!;
  if (at === OUT || at === LEFT) {
    setAt(state, person, LEFT);
    return;
  }
  lapse(state, person);
  const { people } = state.cell;
  const overtime = people.mayOvertime[person] !== 0 && overtimeInForce(state);
  state.ended[person] = overtime ? ENDED_IN_OVERTIME : ENDED;
  if (overtime) state.events.plan(state.now + state.cell.overtimeCap, personOrder(person, CAP), CAP, person, 0);
  if (at === OFF) {
    if (state.piece[person] !== null) abandon(state, person);
    leave(state, person);
    return;
  }
  const unit = state.piece[person]!;
  if (at === BUSY && unit.where === PUT_DOWN) {
    abandon(state, person);
  } else if (at === BUSY && !overtimeGoesOn(state, person, true)) {
    stopAtEnd(state, person, unit);
  }
  state.recorder.person(state.now, person, state.told[person]!, true);
}

/** The cap of the overtime is an end like their own: who is on a break goes; a piece in hand is finished, or put down where the shift says so. */
export function capReached(state: CellState, person: number): void {
  const unit = state.piece[person]!;
  if (state.at[person] === OFF) {
    lapse(state, person);
    if (unit !== null) abandon(state, person);
    leave(state, person);
  }
  if (state.at[person] !== BUSY) return;
  if (unit.where === PUT_DOWN) abandon(state, person);
  else stopAtEnd(state, person, unit);
}

function stopAtEnd(state: CellState, person: number, unit: Unit): void {
  if (!state.cell.putDownAtEnd || state.cell.steps.whole[unit.step] !== 0) return;
  putDown(state, unit);
  abandon(state, person);
}

/** Leaves a put-down piece to others; a partner who waited for it is free. */
export function abandon(state: CellState, person: number): void {
  const unit = state.piece[person]!;
  const other = unit.person === person ? unit.second : unit.person;
  leaveDown(state, unit);
  if (other !== NONE && state.at[other] === BUSY) setAt(state, other, IDLE);
  if (state.at[person] === BUSY) setAt(state, person, IDLE);
}

function lapse(state: CellState, person: number): void {
  const { people } = state.cell;
  let owed = 0;
  if (state.at[person] === OFF && state.offKind[person] !== 0) owed += Math.max(0, state.offUntil[person]! - state.now);
  for (let off = state.owedFrom[person]!; off < state.owedTo[person]!; off++) {
    if (people.offIsBreak[off] !== 0) owed += people.offLength[off]!;
  }
  state.owedFrom[person] = state.owedTo[person]!;
  if (owed > 0) state.recorder.breakLapsed(state.now, person, owed);
}


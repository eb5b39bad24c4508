/** Starts of one instant: free people are asked in crew order, and from the first again after every start. */
import { sample } from './distributions/compile.ts';
import { draw, secondWord } from './draws.ts';
import { stopWanting } from './flow.ts';
import { changePlace, hasPlace, ownItem, takeAlong, tellGear } from './gear.ts';
import { comeIn, firstOutside, updateLineMask } from './lines.ts';
import { moves } from './moves.ts';
import { overtimeInForce } from './overtime.ts';
import { resumeLeft, tellPerson } from './people.ts';
import { PURPOSE } from './random/keys.ts';
import { END_HANDS, RANK_ENDS } from './ranks.ts';
import { gearAt, workingAt } from './recorder.ts';
import { BUSY, IDLE, IN_HAND, NONE, remove, setAt, type CellState, type Unit } from './state.ts';
import { OVERTIME_EMPTY } from './tables.ts';

/** Moves and starts until nobody can begin anything. */
export function starts(state: CellState): void {
  const { people } = state.cell;
  moves(state);
  if (state.idle === 0) return;
  for (let person = 0; person < people.count; person++) {
    if (state.at[person] !== IDLE) continue;
    const ready = readySteps(state);
    if ((people.coverMask[state.cover[person]!]! & ready) === 0) continue;
    const step = chooseStep(state, person, ready);
    if (step === NONE) continue;
    if ((state.leftMask & (1 << step)) !== 0) resumeLeft(state, person, step);
    else start(state, person, step);
    moves(state);
    if (state.idle === 0) return;
    person = -1;
  }
}

/** Steps with a unit in line and all gear free, or with a piece that somebody left. */
export function readySteps(state: CellState): number {
  let ready = (state.lineMask & state.gearMask) | state.leftMask;
  if (state.ownPlaceMask !== 0) {
    for (let mask = state.lineMask & ~ready & state.ownPlaceMask; mask !== 0; mask &= mask - 1) {
      const step = 31 - Math.clz32(mask & -mask);
      if (shortBesidesOwn(state, step) === 0) ready |= 1 << step;
    }
  }
  return ready;
}

/** Kinds of gear short for the head of a line that it does not hold itself: starting, it would leave its place first. */
function shortBesidesOwn(state: CellState, step: number): number {
  const unit = headOf(state, step);
  const { uses, usesFrom } = state.cell.steps;
  let short = state.gearShort[step]!;
  if (unit === null || !hasPlace(unit)) return short;
  for (let i = usesFrom[step]!; i < usesFrom[step + 1]!; i++) {
    if (state.freeGear[uses[i]!]! > 0) continue;
    if (ownItem(state, unit, uses[i]!) !== NONE) short--;
  }
  return short;
}

/** The unit that would start at a step now: the head of its line, or (rack of 0) the first outside. */
export function headOf(state: CellState, step: number): Unit | null {
  const { cell } = state;
  let unit = state.lines[step]!.first;
  if (cell.overtime === OVERTIME_EMPTY && state.now >= cell.length) {
    // Once the shift is over nothing new enters its first step.
    while (unit !== null && isNew(state, unit, step)) unit = unit.after;
    return unit;
  }
  return unit === null && cell.steps.rack[step] === 0 ? firstOutside(state, step) : unit;
}

export function isNew(state: CellState, unit: Unit, step: number): boolean {
  const { cell } = state;
  return cell.products.enters[unit.product] === step && unit.visits[step] === 0;
}

function chooseStep(state: CellState, person: number, ready: number): number {
  const { coverFrom, coverSteps, byAge } = state.cell.people;
  const cover = state.cover[person]!;
  let chosen = NONE;
  let oldest = Infinity;
  for (let i = coverFrom[cover]!; i < coverFrom[cover + 1]!; i++) {
    const step = coverSteps[i]!;
    if ((ready & (1 << step)) === 0 || !canStart(state, person, step)) continue;
    if (byAge[person] === 0) return step;
    const unit = (state.leftMask & (1 << step)) !== 0 ? state.leftDown[step]!.first! : headOf(state, step)!;
    if (unit.since < oldest) {
      oldest = unit.since;
      chosen = step;
    }
  }
  return chosen;
}

/** Time rules and, for a step that takes two, the second pair of hands. The line and the gear are known to be ready. */
function canStart(state: CellState, person: number, step: number): boolean {
  const left = (state.leftMask & (1 << step)) !== 0;
  const unit = left ? state.leftDown[step]!.first : headOf(state, step);
  if (unit === null) return false;
  if (state.cell.steps.people[step] === 2) return secondFor(state, person, step, unit, left) !== NONE;
  return fits(state, person, NONE, step, unit, left);
}

/** The first other free person who covers the step, where it fits both at the pace of the slower. */
export function secondFor(state: CellState, person: number, step: number, unit: Unit, left: boolean): number {
  const { people } = state.cell;
  for (let other = 0; other < people.count; other++) {
    if (other === person || state.at[other] !== IDLE) continue;
    if ((people.coverMask[state.cover[other]!]! & (1 << step)) === 0) continue;
    if (fits(state, other, person, step, unit, left) && fits(state, person, other, step, unit, left)) return other;
  }
  return NONE;
}

/** May this person begin this piece now? Last start, tidy-up and end of the day; a whole piece must end before they stop. */
export function fits(state: CellState, person: number, second: number, step: number, unit: Unit, left: boolean): boolean {
  const { steps, people, tidyUp, overtimeCap } = state.cell;
  const now = state.now;
  if (!left && now > steps.lastStart[step]!) return false;
  const end = people.to[person]!;
  const overtime = people.mayOvertime[person] !== 0 && overtimeInForce(state);
  if (!overtime && (now >= end || (tidyUp > 0 && now >= end - tidyUp))) return false;
  if (overtime && now >= end + overtimeCap) return false;
  if (steps.whole[step] === 0) return true;
  const off = state.nextOff[person]!;
  const last = overtime ? end + overtimeCap : end;
  const stop = off < people.offFrom[person + 1]! ? Math.min(last, people.offStart[off]!) : last;
  return now + (left ? unit.ends : plannedTime(state, person, second, step, unit)) <= stop;
}

/** Person's factor: the larger of two people's. */
function factorOf(state: CellState, person: number, second: number, step: number): number {
  const { factor } = state.cell.people;
  const steps = state.cell.steps.count;
  const own = factor[person * steps + step]!;
  return second === NONE ? own : Math.max(own, factor[second * steps + step]!);
}

/** Whole ms reckoned with for this visit: the mean or the percentile of the step, with all factors. */
export function plannedTime(state: CellState, person: number, second: number, step: number, unit: Unit): number {
  const { products, steps } = state.cell;
  const at = unit.product * steps.count + step;
  const base = unit.visits[step] === 0 ? products.planned[at]! : products.plannedRepeat[at]!;
  return Math.floor(base * products.scale[at]! * factorOf(state, person, second, step) + 0.5);
}

function start(state: CellState, person: number, step: number): void {
  const { cell, now } = state;
  const unit = headOf(state, step)!;
  const second = cell.steps.people[step] === 2 ? secondFor(state, person, step, unit, false) : NONE;
  const waited = leaveLine(state, unit, step);
  if (unit.wantsPlace !== NONE) stopWanting(state, unit);
  changePlace(state, unit, step);
  takeAlong(state, unit, step);
  const at = unit.product * cell.steps.count + step;
  const visit = unit.visits[step]!;
  const word = draw(state, PURPOSE.TASK, unit.number, step, visit);
  unit.luck = secondWord();
  const time = visit === 0 ? cell.products.time[at]! : cell.products.repeat[at]!;
  const duration = Math.floor(sample(time, word) * cell.products.scale[at]! * factorOf(state, person, second, step) + 0.5);
  unit.visits[step] = visit + 1;
  if (visit > 0) unit.repeats = unit.repeats + 1;
  if (unit.firstStart !== unit.firstStart) unit.firstStart = now;
  state.recorder.start(now, unit.number, step, visit, person, second, duration, waited, state.lines[step]!.length);
  take(state, unit, step, person, second, duration);
}

/** Puts a unit into the hands of one or two people for so many ms. */
export function take(state: CellState, unit: Unit, step: number, person: number, second: number, duration: number): void {
  const { now } = state;
  unit.where = IN_HAND;
  unit.step = step;
  unit.person = person;
  unit.second = second;
  unit.ends = now + duration;
  setBusy(state, person, unit, step);
  if (second !== NONE) setBusy(state, second, unit, step);
  tellGear(state, unit, gearAt(step));
  state.plan(now + duration, RANK_ENDS, END_HANDS, unit.index, unit.token);
}

function setBusy(state: CellState, person: number, unit: Unit, step: number): void {
  setAt(state, person, BUSY);
  state.piece[person] = unit;
  tellPerson(state, person, workingAt(state.cell.gear.count, step));
}

/** Out of its line (or in from outside): ms waited in the line of this shift. */
function leaveLine(state: CellState, unit: Unit, step: number): number {
  const line = state.lines[step]!;
  if (unit.step !== step) {
    comeIn(state, unit);
    return 0;
  }
  remove(line, unit);
  if (unit.slotted !== 0) {
    unit.slotted = 0;
    state.inSlots[step] = state.inSlots[step]! - 1;
  }
  if (line.length === 0) updateLineMask(state, step);
  return state.now - Math.max(0, unit.since);
}

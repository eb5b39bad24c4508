/**
 * Starts: the conditional events of one instant. Free people are asked in crew order, and from the first
 * again after every start.
 */
import { drawVisit } from './draws.ts';
import type { Person } from './resources.ts';
import type { Step } from './steps.ts';
import type { Unit } from './units.ts';
import { stopWanting } from './flow.ts';
import { changePlace, hasPlace, ownItem, takeAlong, takePlace } from './gear.ts';
import { comeIn, firstOutside, updateLineMask } from './lines.ts';
import { factorOf, fits, isNew, secondFor } from './may-start.ts';
import { moves, movesAreDue } from './moves.ts';
import { resumeLeft } from './people.ts';
import { lowestBit } from './platform.ts';
import type { CellState } from './state.ts';
import { take } from './take.ts';

/** Moves and starts until nobody can begin anything. */
export function starts(state: CellState): void {
  do moves(state);
  while (askAll(state));
}

/**
 * Asks the idle people in crew order. True where those who found nothing have to be asked again after a
 * start: something can move now, another step has become ready, or the one begun is so still, with another
 * unit.
 */
function askAll(state: CellState): boolean {
  let ready = readySteps(state);
  for (let word = 0; ready !== 0 && word < state.words; word++) {
    let toAsk: i32 = state.idle[word]!;
    while (toAsk !== 0) {
      const person = state.people[(word << 5) + lowestBit(toAsk)]!;
      toAsk &= toAsk - 1;
      if ((person.coverMask & ready) === 0) continue;
      const step = ask(state, person, ready);
      if (step === null) continue;
      const then = readySteps(state);
      if (movesAreDue(state) || (then & (~ready | step.bit)) !== 0) return true;
      ready = then;
      // A second person may have begun with them.
      toAsk &= state.idle[word]!;
    }
  }
  return false;
}

/** Lets an idle person begin something; the step, null where there is nothing for them. */
function ask(state: CellState, person: Person, ready: i32): Step | null {
  const step = chooseStep(state, person, ready);
  if (step === null) return null;
  if ((state.leftMask & step.bit) !== 0) resumeLeft(state, person, step);
  else start(state, person, step, state.chosen!);
  return step;
}

/** Steps with a unit in line and all gear free, or with a piece that somebody left. */
// @inline
export function readySteps(state: CellState): i32 {
  const ready: i32 = (state.lineMask & state.gearMask) | state.leftMask;
  if (state.ownPlaceMask === 0) return ready;
  return ready | readyOnOwnPlace(state, state.lineMask & ~ready & state.ownPlaceMask);
}

/** Those of these steps at whose line the head has what is short itself. */
function readyOnOwnPlace(state: CellState, steps: i32): i32 {
  let ready: i32 = 0;
  for (let mask: i32 = steps; mask !== 0; mask &= mask - 1) {
    const step = state.steps[lowestBit(mask)]!;
    if (shortBesidesOwn(state, step) === 0) ready |= step.bit;
  }
  return ready;
}

/**
 * Kinds of gear short for the head of a line that it does not hold itself: starting, it would leave its place
 * first.
 */
function shortBesidesOwn(state: CellState, step: Step): i32 {
  const unit = headOf(state, step);
  const uses = step.uses;
  let short = step.gearShort;
  if (unit === null || !hasPlace(unit)) return short;
  for (let i = 0; i < uses.length; i++) {
    const kind = uses[i]!;
    if (kind.free <= 0 && ownItem(unit, kind) !== null) short--;
  }
  return short;
}

/** The unit that would start at a step now: the head of its line, or (rack of 0) the first outside. */
// @inline
export function headOf(state: CellState, step: Step): Unit | null {
  let unit = step.line.first;
  if (!state.nothingNew) return unit === null && step.rack === 0 ? firstOutside(state, step) : unit;
  while (unit !== null && isNew(state, unit, step)) unit = unit.after;
  return unit;
}

/** The step to begin among those that are ready; its unit is left in `state.chosen`. */
function chooseStep(state: CellState, person: Person, ready: i32): Step | null {
  const steps = person.cover.steps;
  let chosen: Step | null = null;
  let oldest: number = Infinity;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    if ((ready & step.bit) === 0) continue;
    const left = (state.leftMask & step.bit) !== 0;
    const unit = left ? step.left.first : headOf(state, step);
    if (unit === null || !canStart(state, person, step, unit, left)) continue;
    if (!person.byAge) {
      state.chosen = unit;
      return step;
    }
    if (unit.since < oldest) {
      oldest = unit.since;
      chosen = step;
      state.chosen = unit;
    }
  }
  return chosen;
}

/**
 * Time rules and, for a step that takes two, the second pair of hands. The line and the gear are known to be
 * ready.
 */
function canStart(state: CellState, person: Person, step: Step, unit: Unit, left: boolean): boolean {
  if (step.free && state.now < person.tidyFrom) return true;
  if (step.pair) return secondFor(state, person, step, unit, left) !== null;
  return fits(state, person, null, step, unit, left);
}

function start(state: CellState, person: Person, step: Step, unit: Unit): void {
  const second: Person | null = step.pair ? secondFor(state, person, step, unit, false) : null;
  const waited = leaveLine(state, unit, step);
  if (unit.wantsPlace !== null) stopWanting(state, unit);
  if (unit.held > 0) changePlace(state, unit, step);
  else takePlace(state, unit, step);
  if (step.takes.length > 0) takeAlong(state, unit, step);
  const visit: i32 = unit.visits[step.index]!;
  const duration = drawVisit(state, unit, step, factorOf(person, second, step));
  if (unit.firstStart !== unit.firstStart) unit.firstStart = state.now;
  unit.person = person;
  unit.second = second;
  state.recorder.start(state.now, unit, step, visit, duration, waited);
  take(state, unit, step, person, second, duration);
}

/** Out of its line (or in from outside): ms waited in the line of this shift. */
function leaveLine(state: CellState, unit: Unit, step: Step): number {
  if (unit.step !== step) {
    comeIn(state, unit);
    return 0;
  }
  const line = step.line;
  line.remove(unit);
  if (unit.slotted) {
    unit.slotted = false;
    step.inSlots--;
  }
  if (line.length === 0) updateLineMask(state, step);
  const since = unit.since;
  return since > 0 ? state.now - since : state.now;
}

/** Starts of one instant: free people are asked in crew order, and from the first again after every start. */
import { drawVisit } from './draws.ts';
import { stopWanting } from './flow.ts';
import { changePlace, hasPlace, ownItem, takeAlong, takePlace } from './gear.ts';
import { comeIn, firstOutside, updateLineMask } from './lines.ts';
import { moves } from './moves.ts';
import { factorOf, fits, isNew, secondFor } from './may-start.ts';
import { resumeLeft } from './people.ts';
import { IDLE, remove, SHARED_FROM, type CellState, type Person, type Step, type Unit } from './state.ts';
import { take } from './take.ts';

/** Moves and starts until nobody can begin anything. */
export const starts = (state: CellState): void => {
  moves(state);
  const { people } = state;
  let ready = readySteps(state);
  let toAsk = state.idleMask;
  while (ready !== 0 && toAsk !== 0) {
    const index = 31 - Math.clz32(toAsk & -toAsk);
    toAsk &= toAsk - 1;
    if (index === SHARED_FROM ? !askRest(state, ready) : !ask(state, people[index]!, ready)) continue;
    moves(state);
    ready = readySteps(state);
    toAsk = state.idleMask;
  }
};

/** Lets an idle person begin something; false where there is nothing for them. */
const ask = (state: CellState, person: Person, ready: number): boolean => {
  if ((person.coverMask & ready) === 0) return false;
  const step = chooseStep(state, person, ready);
  if (step === null) return false;
  if ((state.leftMask & step.bit) !== 0) resumeLeft(state, person, step);
  else start(state, person, step, state.chosen!);
  return true;
};

/** The same for the people who share a bit. */
const askRest = (state: CellState, ready: number): boolean => {
  const { people } = state;
  for (let i = SHARED_FROM; i < people.length; i++) {
    if (people[i]!.at === IDLE && ask(state, people[i]!, ready)) return true;
  }
  return false;
};

/** Steps with a unit in line and all gear free, or with a piece that somebody left. */
export const readySteps = (state: CellState): number => {
  const ready = (state.lineMask & state.gearMask) | state.leftMask;
  return state.ownPlaceMask === 0
    ? ready
    : ready | readyOnOwnPlace(state, state.lineMask & ~ready & state.ownPlaceMask);
};

/** Those of these steps at whose line the head has what is short itself. */
const readyOnOwnPlace = (state: CellState, steps: number): number => {
  let ready = 0;
  for (let mask = steps; mask !== 0; mask &= mask - 1) {
    const step = state.steps[31 - Math.clz32(mask & -mask)]!;
    if (shortBesidesOwn(state, step) === 0) ready |= step.bit;
  }
  return ready;
};

/**
 * Kinds of gear short for the head of a line that it does not hold itself: starting, it would leave its place
 * first.
 */
const shortBesidesOwn = (state: CellState, step: Step): number => {
  const unit = headOf(state, step);
  const { uses } = step;
  let short = step.gearShort;
  if (unit === null || !hasPlace(unit)) return short;
  for (let i = 0; i < uses.length; i++) {
    const kind = uses[i]!;
    if (kind.free <= 0 && ownItem(unit, kind) !== null) short--;
  }
  return short;
};

/** The unit that would start at a step now: the head of its line, or (rack of 0) the first outside. */
export const headOf = (state: CellState, step: Step): Unit | null =>
  step.rack !== 0 && !state.nothingNew ? step.line.first : headOtherwise(state, step);

const headOtherwise = (state: CellState, step: Step): Unit | null => {
  let unit = step.line.first;
  if (!state.nothingNew) return unit ?? firstOutside(state, step);
  while (unit !== null && isNew(state, unit, step)) unit = unit.after;
  return unit;
};

/** The step to begin among those that are ready; its unit is left in `state.chosen`. */
const chooseStep = (state: CellState, person: Person, ready: number): Step | null => {
  const { steps } = person.cover;
  let chosen: Step | null = null;
  let oldest = Infinity;
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
};

/**
 * Time rules and, for a step that takes two, the second pair of hands. The line and the gear are known to be
 * ready.
 */
const canStart = (state: CellState, person: Person, step: Step, unit: Unit, left: boolean): boolean => {
  if (step.free && state.now < person.tidyFrom) return true;
  if (step.pair) return secondFor(state, person, step, unit, left) !== null;
  return fits(state, person, null, step, unit, left);
};

const start = (state: CellState, person: Person, step: Step, unit: Unit): void => {
  const { now } = state;
  const { index } = step;
  const second = step.pair ? secondFor(state, person, step, unit, false) : null;
  const waited = leaveLine(state, unit, step);
  if (unit.wantsPlace !== null) stopWanting(state, unit);
  if (unit.held > 0) changePlace(state, unit, step);
  else takePlace(state, unit, step);
  if (step.takes.length > 0) takeAlong(state, unit, step);
  const visit = unit.visits[index]!;
  const duration = drawVisit(state, unit, step, factorOf(person, second, step));
  if (unit.firstStart !== unit.firstStart) unit.firstStart = now;
  state.recorder.start(
    now,
    unit.number,
    index,
    visit,
    person.index,
    second === null ? -1 : second.index,
    duration,
    waited,
    step.line.length,
  );
  take(state, unit, step, person, second, duration);
};

/** Out of its line (or in from outside): ms waited in the line of this shift. */
const leaveLine = (state: CellState, unit: Unit, step: Step): number => {
  if (unit.step !== step) {
    comeIn(state, unit);
    return 0;
  }
  const { line } = step;
  remove(line, unit);
  if (unit.slotted) {
    unit.slotted = false;
    step.inSlots--;
  }
  if (line.length === 0) updateLineMask(state, step);
  const { since } = unit;
  return since > 0 ? state.now - since : state.now;
};

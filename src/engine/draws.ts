/** Draws of a run: keyed by what they are for, never by the order of events. */
import { FIXED, sample } from '../duration/compile.ts';
import { counter, PURPOSE, type Purpose } from '../random/keys.ts';
import { threefry, words } from '../random/threefry.ts';
import type { CellState, Step, Unit } from './state.ts';

/** The first word of a draw; the second is in `secondWord()` until the next one. */
export const draw = (
  state: CellState,
  purpose: Purpose,
  item: number,
  step: number,
  visit: number,
): number => {
  return threefry(state.key0, state.key1, item, counter(purpose, step, visit));
};

export const secondWord = (): number => words[1]!;

/**
 * Draws this visit of a unit to a step: returns its whole ms, leaves in `unit.luck` what decides its outcome,
 * and counts the visit.
 */
export const drawVisit = (state: CellState, unit: Unit, step: Step, factor: number): number => {
  const { index } = step;
  const task = step.tasks[unit.product]!;
  const visit = unit.visits[index]!;
  unit.visits[index] = visit + 1;
  unit.begun = true;
  if (visit > 0) unit.repeats++;
  const time = visit === 0 ? task.time : task.repeat;
  const scale = visit === 0 ? task.scale : task.repeatScale;
  // A fixed time that always leads on leaves nothing to chance.
  if (time.kind === FIXED && step.alwaysOn) return Math.floor(time.values[0]! * scale * factor + 0.5);
  const word = threefry(state.key0, state.key1, unit.number, counter(PURPOSE.TASK, index, visit));
  unit.luck = words[1]!;
  return Math.floor(sample(time, word) * scale * factor + 0.5);
};

/** Draws of a run: keyed by what they are for, never by the order of events. */
import { FIXED, sample } from './curves.ts';
import type { Step } from './steps.ts';
import type { Unit } from './units.ts';
import { counterOf, secondWord, TASK, threefry } from './random.ts';
import type { CellState } from './state.ts';

/** The first word of a draw; the second is in `secondWord()` until the next one. */
export function draw(state: CellState, purpose: i32, item: i32, step: i32, visit: i32): i32 {
  return threefry(state.key0, state.key1, item, counterOf(purpose, step, visit));
}

/**
 * Draws this visit of a unit to a step: returns its whole ms, leaves in `unit.luck` what decides its outcome,
 * and counts the visit.
 */
// @inline
export function drawVisit(state: CellState, unit: Unit, step: Step, factor: number): number {
  const index = step.index;
  const task = step.tasks[unit.product]!;
  const visit: i32 = unit.visits[index]!;
  unit.visits[index] = visit + 1;
  unit.begun = true;
  if (visit > 0) unit.repeats++;
  const time = visit === 0 ? task.time : task.repeat;
  const scale: number = visit === 0 ? task.scale : task.repeatScale;
  // A fixed time that always leads on leaves nothing to chance.
  if (time.kind === FIXED && step.alwaysOn) return Math.floor(time.values[0]! * scale * factor + 0.5);
  const word = threefry(state.key0, state.key1, unit.number, counterOf(TASK, index, visit));
  unit.luck = secondWord();
  return Math.floor(sample(time, word) * scale * factor + 0.5);
}

/** Whole milliseconds of so many minutes, half up. */
export function toMilliseconds(minutes: number): number {
  return Math.floor(minutes * 60000 + 0.5);
}

/** Draws of a run: keyed by what they are for, never by the order of events. */
import { counter, type Purpose } from './random/keys.ts';
import { threefry, words } from './random/threefry.ts';
import type { CellState } from './state.ts';

/** The first word of a draw; the second is in `secondWord()` until the next one. */
export function draw(state: CellState, purpose: Purpose, item: number, step: number, visit: number): number {
  return threefry(state.key0, state.key1, item, counter(purpose, step, visit));
}

export const secondWord = (): number => words[1]!;

/** What a new cell begins as: the smallest file that runs, not yet anybody's. */
import type { Json, JsonGroup } from '../store/draft.ts';

export const NEW_CELL = 'New cell';

/** The smallest file without what it says of itself: its figures are invented, those to be put in are not. */
export function newCell(smallest: Json): Json {
  const { about: _about, invented: _invented, steps, ...rest } = smallest as JsonGroup;
  // As people say a time: quick, usual and slow are what the page then asks for.
  const varying = Object.fromEntries(
    Object.entries(steps as JsonGroup).map(([id, step]) => [
      id,
      { ...(step as JsonGroup), time: { quick: 9, usual: 12, slow: 16 } },
    ]),
  );
  return { ...rest, name: NEW_CELL, steps: varying };
}

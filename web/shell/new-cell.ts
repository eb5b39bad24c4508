/** What a new cell begins as: usual work with guesses for its times, nobody in it yet, nobody's yet. */
import { ownCell } from '../../src/scenario/own/own-cell.ts';
import { STARTS } from '../../src/scenario/own/starts.ts';
import type { Json } from '../store/draft.ts';

export const NEW_CELL = 'New cell';

export const newCell = (): Json =>
  ownCell({
    name: NEW_CELL,
    steps: STARTS[0]!.steps,
    clampSets: 2,
    people: [],
    start: '06:00',
    end: '14:30',
    target: null,
  }) as unknown as Json;

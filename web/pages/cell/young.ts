/** Whether a cell has hardly begun, and what is still missing in it. */
import { missingIn } from '../../../src/scenario/own/own-cell.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { listed } from '../../../src/words/words.ts';
import { NEW_CELL } from '../../shell/new-cell.ts';
import { isGuess } from './own-edits.ts';

/** While something is missing, a time is still a guess, or it has no name of its own. */
export const isYoung = (draft: Scenario): boolean =>
  missingIn(draft).length > 0 || Object.values(draft.steps).some(isGuess) || draft.name === NEW_CELL;

/** "Still to say: who works here." */
export const missingWords = (draft: Scenario): string => `Still to say: ${listed(missingIn(draft))}.`;

/** The rules of time a step can have. A new one is one file and one line here. */
import { lastStart } from './last-start.ts';

export const STEP_RULES = [lastStart] as const;

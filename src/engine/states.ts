/**
 * What people and gear may be doing: the codes that facts and rows use (src/core/codes.ts), and one table of
 * words for each. A code is a place in a list of minutes, so no two may be alike: in a table that is a
 * compile error.
 */

import {
  AWAY,
  FREE,
  GEAR_PER_STEP,
  GONE,
  gearAt,
  gearBefore,
  NO_COVER,
  NO_FIT,
  NO_GEAR,
  NO_HELP,
  NO_UNIT,
  NOT_IN,
  NOWHERE_TO_PUT as NOWHERE,
  ON_BREAK,
  OUT_OF_ORDER,
  TIDYING,
  WAITING_PARTNER,
} from '../core/codes.ts';

export * from '../core/codes.ts';
export { NOWHERE };

/** The states that every cell has. */
export type PersonState =
  | typeof NOT_IN
  | typeof GONE
  | typeof ON_BREAK
  | typeof AWAY
  | typeof TIDYING
  | typeof NO_UNIT
  | typeof NOWHERE
  | typeof NO_FIT
  | typeof NO_HELP
  | typeof WAITING_PARTNER
  | typeof NO_COVER;

export interface PersonStateWords {
  /** `gone`: not there, and not paid; `off`: on a break or lent, paid as the file says; `here`: paid. */
  presence: 'gone' | 'off' | 'here';
  /** `away`: not the cell's to use then; `idle`: at hand without work. */
  kind: 'work' | 'idle' | 'away';
  /** In the shop's words. */
  words: string;
}

export const PERSON_STATES: Readonly<Record<PersonState, PersonStateWords>> = {
  [NOT_IN]: { presence: 'gone', kind: 'away', words: 'not in' },
  [GONE]: { presence: 'gone', kind: 'away', words: 'gone home' },
  [ON_BREAK]: { presence: 'off', kind: 'away', words: 'on break' },
  [AWAY]: { presence: 'off', kind: 'away', words: 'on another line' },
  [TIDYING]: { presence: 'here', kind: 'work', words: 'tidying up' },
  [NO_UNIT]: { presence: 'here', kind: 'idle', words: 'nothing to work on' },
  [NOWHERE]: { presence: 'here', kind: 'idle', words: 'nowhere to put it' },
  [NO_FIT]: { presence: 'here', kind: 'idle', words: 'would not fit before the break or the end' },
  [NO_HELP]: { presence: 'here', kind: 'idle', words: 'no second pair of hands' },
  [WAITING_PARTNER]: { presence: 'here', kind: 'idle', words: 'waiting for the other of two' },
  [NO_COVER]: { presence: 'here', kind: 'idle', words: 'no post at this time' },
};

/** Is this one of the states that every cell has, and not a missing gear or a step? */
export const isCommonState = (state: number): state is PersonState => state >= NOT_IN && state < NO_GEAR;

/** Who lacks gear or works at a step is here. */
export const personPresence = (state: number): PersonStateWords['presence'] =>
  isCommonState(state) ? PERSON_STATES[state].presence : 'here';

export type GearState =
  | { kind: 'free' }
  | { kind: 'out of order' }
  /** With a unit at the step, waiting for it (the number of steps: for the out-rack), or put down at it. */
  | { kind: 'at' | 'before' | 'put down'; step: number };

/** What a code of gear says: the way back from the codes above. */
export function gearStateOf(code: number): GearState {
  if (code === FREE) return { kind: 'free' };
  if (code === OUT_OF_ORDER) return { kind: 'out of order' };
  const step = Math.floor((code - gearAt(0)) / GEAR_PER_STEP);
  if (code === gearAt(step)) return { kind: 'at', step };
  return { kind: code === gearBefore(step) ? 'before' : 'put down', step };
}

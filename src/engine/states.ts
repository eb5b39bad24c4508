/**
 * What people and gear may be doing: the codes that facts and rows use, and one table of words for each.
 * A code is a place in a list of minutes, so no two may be alike: in a table that is a compile error.
 */

export const NOT_IN = 0;
export const GONE = 1;
export const ON_BREAK = 2;
export const AWAY = 3;
export const TIDYING = 4;
/** Idle: nothing in the line of the first step they cover. */
export const NO_UNIT = 5;
/** Idle: its bench is held by a piece that cannot move on. */
export const NOWHERE = 6;
/** Idle: it would not fit before the break, the end, or the step's last start. */
export const NO_FIT = 7;
/** Idle: it takes two. */
export const NO_HELP = 8;
/** At a two-person piece that is put down while the other is off. */
export const WAITING_PARTNER = 9;
/** Idle: covers nothing now. */
export const NO_COVER = 10;
/** Idle: none of gear g free (NO_GEAR + g). From here on one code a gear, then one a step. */
export const NO_GEAR = 11;
/** Working at a step. */
export const workingAt = (gears: number, step: number): number => NO_GEAR + gears + step;
export const personStates = (gears: number, steps: number): number => NO_GEAR + gears + steps;

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

export const FREE = 0;
export const OUT_OF_ORDER = 1;
const FIRST_STEP = 2;
const PER_STEP = 3;
/** With a unit that is worked at, or waits out its cure, at `step`. */
export const gearAt = (step: number): number => FIRST_STEP + PER_STEP * step;
/** With a unit that waits for `step` (the number of steps: for the out-rack). */
export const gearBefore = (step: number): number => gearAt(step) + 1;
/** With a unit that is put down at `step`. */
export const gearPutDown = (step: number): number => gearAt(step) + 2;
export const gearStates = (steps: number): number => FIRST_STEP + PER_STEP * (steps + 1);

export type GearState =
  | { kind: 'free' }
  | { kind: 'out of order' }
  /** With a unit at the step, waiting for it (the number of steps: for the out-rack), or put down at it. */
  | { kind: 'at' | 'before' | 'put down'; step: number };

/** What a code of gear says: the way back from the codes above. */
export function gearStateOf(code: number): GearState {
  if (code === FREE) return { kind: 'free' };
  if (code === OUT_OF_ORDER) return { kind: 'out of order' };
  const step = Math.floor((code - FIRST_STEP) / PER_STEP);
  if (code === gearAt(step)) return { kind: 'at', step };
  return { kind: code === gearBefore(step) ? 'before' : 'put down', step };
}

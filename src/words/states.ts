/** What a person and a piece of gear are doing, in the shop's words: the names of the recorder's codes. */
import { AWAY, FREE, GONE, NO_GEAR, NOT_IN, ON_BREAK, OUT_OF_ORDER, TIDYING } from '../engine/recorder.ts';
import { IDLE_WORDS } from '../record/idle-words.ts';
import { inSentence, singular } from './words.ts';

/** The names the codes count through, in the order of the resolved shift (which fits as it is). */
export interface Named {
  steps: { name: string; kind: 'hands' | 'wait' }[];
  gear: { name: string; kind: 'bench' | 'gear' }[];
}

export interface StateWords {
  /**
   * `away`: not the cell's to use then; `idle`: at hand without work; `work`. For gear `idle` is waiting with
   * a unit, `free` without.
   */
  kind: 'work' | 'idle' | 'away' | 'free';
  words: string;
}

const PERSON: Record<number, StateWords> = {
  [NOT_IN]: { kind: 'away', words: 'not in' },
  [GONE]: { kind: 'away', words: 'gone home' },
  [ON_BREAK]: { kind: 'away', words: 'on break' },
  [AWAY]: { kind: 'away', words: 'on another line' },
  [TIDYING]: { kind: 'work', words: 'tidying up' },
};

/** Words for a person's state code. Throws a RangeError for a code the cell does not have. */
export function personStateWords(state: number, { steps, gear }: Named): StateWords {
  const common = PERSON[state];
  if (common !== undefined) return common;
  const idle = IDLE_WORDS[state];
  if (idle !== undefined) return { kind: 'idle', words: idle };
  const missing = gear[state - NO_GEAR];
  if (missing !== undefined) return { kind: 'idle', words: `no ${inSentence(singular(missing.name))} free` };
  const step = steps[state - NO_GEAR - gear.length];
  if (step === undefined) throw new RangeError(`no such state of a person: ${state}`);
  return { kind: 'work', words: inSentence(step.name) };
}

/**
 * Words for a state code of the gear with index `gear`. Throws a RangeError for a code the cell does not
 * have.
 */
export function gearStateWords(state: number, gear: number, { steps, gear: all }: Named): StateWords {
  if (state === FREE) return { kind: 'free', words: 'free' };
  if (state === OUT_OF_ORDER) return { kind: 'away', words: 'out of order' };
  const index = Math.floor((state - 2) / 3);
  const place = (state - 2) % 3;
  if (index === steps.length && place === 1)
    return { kind: 'idle', words: 'nowhere to put it: the out-rack is next' };
  const step = steps[index];
  if (step === undefined) throw new RangeError(`no such state of gear: ${state}`);
  const name = inSentence(step.name);
  if (place === 0) return { kind: 'work', words: name };
  if (place === 2) return { kind: 'idle', words: `put down, ${name} half done` };
  const why = all[gear]?.kind === 'bench' ? 'nowhere to put it' : 'waiting for hands';
  return { kind: 'idle', words: `${why}: ${name} is next` };
}

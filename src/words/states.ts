/** What a person and a piece of gear are doing, in the shop's words: the names of the codes. */
import { gearStateOf, isCommonState, NO_GEAR, PERSON_STATES } from '../engine/states.ts';
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

/** Words for a person's state code. Throws a RangeError for a code the cell does not have. */
export function personStateWords(state: number, { steps, gear }: Named): StateWords {
  if (isCommonState(state)) {
    const { kind, words } = PERSON_STATES[state];
    return { kind, words };
  }
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
  const told = gearStateOf(state);
  if (told.kind === 'free') return { kind: 'free', words: 'free' };
  if (told.kind === 'out of order') return { kind: 'away', words: 'out of order' };
  if (told.kind === 'before' && told.step === steps.length)
    return { kind: 'idle', words: 'nowhere to put it: the out-rack is next' };
  const step = steps[told.step];
  if (step === undefined) throw new RangeError(`no such state of gear: ${state}`);
  const name = inSentence(step.name);
  switch (told.kind) {
    case 'at':
      return { kind: 'work', words: name };
    case 'put down':
      return { kind: 'idle', words: `put down, ${name} half done` };
    case 'before': {
      const why = all[gear]?.kind === 'bench' ? 'nowhere to put it' : 'waiting for hands';
      return { kind: 'idle', words: `${why}: ${name} is next` };
    }
  }
}

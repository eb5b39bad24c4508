/**
 * What every draw is a function of: (seed, shift, replication) make the key; (what for, unit, step, visit)
 * make the counter. So a unit has the same base time and the same luck at the same step and visit whatever
 * crew and gear it meets, and no draw depends on the order of events.
 */
import seedrandom from 'seedrandom';
import { threefry } from './threefry.ts';

/**
 * What a draw is for: at most 64 purposes. In brackets: what `item`, `step` and `visit` of its counter are,
 * then what its first and second word decide.
 */
export const PURPOSE = {
  /** [unit, step, visit] base time; outcome at the end of the step. */
  TASK: 0,
  /** [unit, 0, 0] which product. */
  PRODUCT: 1,
  /** [unit, 0, 0] gap before this unit's arrival. */
  GAP: 2,
  /** [person, 0, 0] comes at all; late or not. */
  ATTENDANCE: 3,
  /** [person, 0, 0] how late. */
  LATENESS: 4,
  /** [piece of this gear, gear, number of the failure] shift minutes until it fails; its repair time. */
  GEAR_FAILURE: 5,
  /** [shift number] the key of a later shift of the file. */
  SHIFT: 6,
} as const;

export type Purpose = (typeof PURPOSE)[keyof typeof PURPOSE];

/** Steps are numbered below this, purposes below 64, visits below 65,536: together one 32-bit counter. */
export const MOST_STEPS = 1024;
export const MOST_VISITS = 65_536;

/**
 * The second counter word: purpose in the top 6 bits, step (0 to 1,023) in the next 10, visit (0 to 65,535)
 * in the last 16. The first counter word is the item alone: unit, person or piece of gear. Larger visits wrap
 * round; a unit with so many has been stopped long before.
 */
export function counter(purpose: Purpose, step: number, visit: number): number {
  return (purpose << 26) | (step << 16) | (visit & 0xffff);
}

/**
 * Any text to a 32-bit key, signed. The generator it comes from is private to the call: no global is read or
 * changed. seedrandom repeats a short text to fill its table ("a" and "aa" would be one seed) and looks at
 * the low byte of a character only; so everything but printable ASCII is written in hexadecimal, and an end
 * mark that cannot occur in the text closes it.
 */
export function seedKey(text: string): number {
  const plain = text.replace(
    /[^ -$&-~]/g,
    (character) => `%${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return seedrandom(`${plain}\u00ff`, { global: false, entropy: false }).int32();
}

/**
 * First key word for the file's shift number `shift`: the seed's own key for shift 0, an unrelated one for
 * each later shift.
 */
export function shiftKey(key: number, shift: number): number {
  return shift === 0 ? key : threefry(key, 0, shift, counter(PURPOSE.SHIFT, 0, 0));
}

/** Second key word: the replication's number itself, 0 to 2^32 - 1, signed. */
export function replicationKey(replication: number): number {
  return replication | 0;
}

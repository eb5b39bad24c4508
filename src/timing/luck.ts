/** Numbers between 0 and 1 that depend on their place only, for resampling. */
import { seedKey } from '../random/keys.ts';
import { threefry, uniform } from '../random/threefry.ts';

/** The `i`-th number of a stream, over 0 and under 1; i is a whole number from 0 to 2^32 - 1. */
export type Luck = (i: number) => number;

/**
 * The stream of a text and two whole numbers (a resample's number and a stream's, say): the same three give
 * the same numbers, any other are unrelated. The text is keyed apart from the seed of shifts, so equal texts
 * share no numbers with the runs.
 */
export function luckOf(seed: string, resample: number, stream: number): Luck {
  const key = seedKey(`times of ${seed}`);
  return (i) => uniform(threefry(key, resample | 0, i | 0, stream | 0));
}

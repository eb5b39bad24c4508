/** A time made longer, shorter, or more or less varied, its kind of curve kept. */
import { isFixed, meanOf } from '../../duration/compile.ts';
import { curveOf, type Time } from '../../duration/time.ts';

/** Every minute of it times `factor` (over 0): the mean moves, the spread moves along. */
export const timesBy = (time: Time, factor: number): Time =>
  curveOf(time).mapMinutes(time, (minutes) => minutes * factor);

/** So many minutes longer (or shorter, down to nothing) on average. */
export function longerBy(time: Time, minutes: number): Time {
  const mean = meanOf(time);
  if (isFixed(time)) return Math.max(0, mean + minutes);
  return mean + minutes > 0 && mean > 0
    ? timesBy(time, (mean + minutes) / mean)
    : Math.max(0, mean + minutes);
}

/**
 * The same middle with `factor` times the spread; a time by three points keeps its middle one. Curves whose
 * spread is part of their kind stay as they are.
 */
export const spreadBy = (time: Time, factor: number): Time => curveOf(time).spread(time, factor);

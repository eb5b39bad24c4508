/** Times as one figure: their mean, and the same curve moved to another mean. */
import * as duration from '../../../src/duration/compile.ts';
import { curveOf, type Time } from '../../../src/duration/time.ts';

const known = new WeakMap<object, number>();

/** Minutes, to the tenth: what a field shows. */
export function meanOf(time: Time): number {
  if (typeof time === 'number') return time;
  const mean = known.get(time) ?? duration.meanOf(time);
  known.set(time, mean);
  return Math.round(mean * 10) / 10;
}

/** A time of the same shape, its mean so many minutes (over 0), each of its minutes to the thousandth. */
export function withMean(time: Time, minutes: number): Time {
  const was = duration.meanOf(time);
  if (was === 0) return minutes;
  return curveOf(time).mapMinutes(time, (value) => Math.round(((value * minutes) / was) * 1000) / 1000);
}

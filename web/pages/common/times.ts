/** Times as one figure: their mean, and the same curve moved to another mean. */
import { compileTime } from '../../../src/duration/compile.ts';
import type { Time } from '../../../src/scenario/schema.ts';

const round = (minutes: number): number => Math.round(minutes * 1000) / 1000;

const known = new WeakMap<object, number>();

/** Minutes, to the tenth: what a field shows. */
export function meanOf(time: Time): number {
  if (typeof time === 'number') return time;
  const mean = known.get(time) ?? compileTime(time).mean;
  known.set(time, mean);
  return Math.round(mean * 10) / 10;
}

/** A time of the same shape, its mean so many minutes (over 0). */
export function withMean(time: Time, minutes: number): Time {
  if (typeof time === 'number') return minutes;
  const was = compileTime(time).mean;
  const by = was > 0 ? minutes / was : 1;
  const scaled = (value: number): number => round(value * by);
  if ('quick' in time)
    return { quick: scaled(time.quick), usual: scaled(time.usual), slow: scaled(time.slow) };
  if (!('curve' in time)) return { ...time, mean: round(minutes) };
  switch (time.curve) {
    case 'triangular':
      return {
        ...time,
        least: scaled(time.least),
        likeliest: scaled(time.likeliest),
        most: scaled(time.most),
      };
    case 'uniform':
      return { ...time, least: scaled(time.least), most: scaled(time.most) };
    case 'observed':
      return { ...time, values: time.values.map(scaled) };
    case 'weibull':
      return { ...time, scale: scaled(time.scale) };
    case 'gamma':
    case 'exponential':
      return { ...time, mean: round(minutes) };
  }
}

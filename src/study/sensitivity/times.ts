/** A time made longer, shorter, or more or less varied, its kind of curve kept. */
import { compileTime } from '../../duration/compile.ts';
import type { Time } from '../../scenario/schema.ts';

/** Mean of a time as the file gives it, minutes. */
export const meanOf = (time: Time): number => compileTime(time).mean;

/** Every minute of it times `factor` (over 0): the mean moves, the spread moves along. */
export function timesBy(time: Time, factor: number): Time {
  if (typeof time === 'number') return time * factor;
  if ('quick' in time)
    return { quick: time.quick * factor, usual: time.usual * factor, slow: time.slow * factor };
  if (!('curve' in time)) return { ...time, mean: time.mean * factor };
  switch (time.curve) {
    case 'triangular':
      return {
        ...time,
        least: time.least * factor,
        likeliest: time.likeliest * factor,
        most: time.most * factor,
      };
    case 'gamma':
    case 'exponential':
      return { ...time, mean: time.mean * factor };
    case 'weibull':
      return { ...time, scale: time.scale * factor };
    case 'uniform':
      return { ...time, least: time.least * factor, most: time.most * factor };
    case 'observed':
      return { ...time, values: time.values.map((value) => value * factor) };
  }
}

/** So many minutes longer (or shorter, down to nothing) on average. */
export function longerBy(time: Time, minutes: number): Time {
  if (typeof time === 'number') return Math.max(0, time + minutes);
  const mean = meanOf(time);
  return mean + minutes > 0 && mean > 0
    ? timesBy(time, (mean + minutes) / mean)
    : Math.max(0, mean + minutes);
}

/**
 * The same mean with `factor` times the spread; a time by three points keeps its middle one. Exponential and
 * Weibull times, whose spread is part of their kind, stay as they are.
 */
export function spreadBy(time: Time, factor: number): Time {
  if (typeof time === 'number') return time;
  if ('quick' in time) {
    const { quick, usual, slow } = time;
    return {
      quick: Math.max(0, usual - (usual - quick) * factor),
      usual,
      slow: usual + (slow - usual) * factor,
    };
  }
  if (!('curve' in time)) return { ...time, cv: time.cv * factor };
  const away = (value: number, mean: number): number => Math.max(0, mean + (value - mean) * factor);
  switch (time.curve) {
    case 'gamma':
      return { ...time, cv: time.cv * factor };
    case 'triangular': {
      const mean = (time.least + time.likeliest + time.most) / 3;
      return {
        ...time,
        least: away(time.least, mean),
        likeliest: away(time.likeliest, mean),
        most: away(time.most, mean),
      };
    }
    case 'uniform': {
      const mean = (time.least + time.most) / 2;
      return { ...time, least: away(time.least, mean), most: away(time.most, mean) };
    }
    case 'observed': {
      const mean = time.values.reduce((sum, value) => sum + value, 0) / time.values.length;
      return { ...time, values: time.values.map((value) => away(value, mean)) };
    }
    default:
      return time;
  }
}

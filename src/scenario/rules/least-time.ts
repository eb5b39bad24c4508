/**
 * What a time is at least, without the engine's curves: enough to refuse what cannot work. Every figure here
 * is a proven lower bound of the one the run reckons with, so nothing that could run is refused by it.
 */
import type { Time } from '../schema.ts';

/** A lower bound of the mean, in minutes (exact but for quick-usual-slow and Weibull). */
export function leastMean(time: Time): number {
  if (typeof time === 'number') return time;
  // Four in ten lie between quick and usual, four between usual and slow, one above slow.
  if ('quick' in time) return 0.4 * time.quick + 0.4 * time.usual + 0.1 * time.slow;
  if (!('curve' in time)) return time.mean;
  switch (time.curve) {
    case 'triangular':
      return (time.least + time.likeliest + time.most) / 3;
    case 'uniform':
      return (time.least + time.most) / 2;
    case 'observed':
      return time.values.reduce((sum, value) => sum + value, 0) / time.values.length;
    // The gamma function of 1 + 1/shape is never under 0.8856.
    case 'weibull':
      return 0.8856 * time.scale;
    default:
      return time.mean;
  }
}

/** A lower bound of the planned time: the mean, or the percentile `planned` (1 to 99.9). */
export function leastPlanned(time: Time, planned: 'mean' | number): number {
  return planned === 'mean' ? leastMean(time) : leastPercentile(time, planned);
}

function leastPercentile(time: Time, percentile: number): number {
  if (typeof time === 'number') return time;
  if ('quick' in time) {
    if (percentile >= 90) return time.slow;
    if (percentile >= 50) return time.usual;
    return percentile >= 10 ? time.quick : 0;
  }
  // Lognormal: the median is mean / sqrt(1 + cv squared).
  if (!('curve' in time))
    return percentile >= 50 || time.cv === 0 ? time.mean / Math.sqrt(1 + time.cv * time.cv) : 0;
  const share = percentile / 100;
  switch (time.curve) {
    case 'triangular': {
      const likeliest = (time.likeliest - time.least) / (time.most - time.least);
      return share >= likeliest ? time.likeliest : time.least;
    }
    case 'uniform':
      return time.least + share * (time.most - time.least);
    case 'observed':
      return time.values.toSorted((a, b) => a - b)[Math.max(0, Math.floor(share * time.values.length) - 1)]!;
    case 'exponential':
      return -Math.log(1 - share) * time.mean;
    case 'weibull':
      return time.scale * (-Math.log(1 - share)) ** (1 / time.shape);
    // The median of a gamma curve is more than its mean less a third of its scale.
    case 'gamma':
      return percentile >= 50 ? Math.max(0, time.mean * (1 - (time.cv * time.cv) / 3)) : 0;
  }
}

/** The longest a time can be, in minutes; null where it has no end. */
export function longest(time: Time): number | null {
  if (typeof time === 'number') return time;
  if ('quick' in time) return null;
  if (!('curve' in time)) return time.cv === 0 ? time.mean : null;
  if (time.curve === 'triangular' || time.curve === 'uniform') return time.most;
  return time.curve === 'observed'
    ? Math.max(
        ...time.values.slice(0, 1),
        time.values.reduce((most, value) => Math.max(most, value), 0),
      )
    : null;
}

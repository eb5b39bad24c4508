/** Times of a scenario file as people give them, and back. */
import type { Time } from '../../src/scenario/schema.ts';

export interface Quick {
  quick: number;
  usual: number;
  slow: number;
}

/** The kinds a time can be of, in the words of the page. */
export const TIME_KINDS = [
  { value: 'people', label: 'quick, usual, slow' },
  { value: 'fixed', label: 'always the same' },
  { value: 'lognormal', label: 'mean and spread' },
  { value: 'triangular', label: 'least, likeliest, most' },
  { value: 'uniform', label: 'anywhere between two' },
  { value: 'gamma', label: 'gamma, by mean and spread' },
  { value: 'weibull', label: 'Weibull, by shape and scale' },
  { value: 'exponential', label: 'exponential, by mean' },
  { value: 'observed', label: 'as observed' },
] as const;
export type TimeKind = (typeof TIME_KINDS)[number]['value'];

export function kindOf(time: Time): TimeKind {
  if (typeof time === 'number') return 'fixed';
  if ('quick' in time) return 'people';
  return 'curve' in time ? time.curve : 'lognormal';
}

/**
 * Mean of a time where it is written in the file or follows from it by plain arithmetic; the middle value
 * where people gave it.
 */
function middle(time: Time): { mean: number; cv: number } {
  if (typeof time === 'number') return { mean: time, cv: 0 };
  if ('quick' in time)
    return {
      mean: time.usual,
      cv: Math.max(0.02, (Math.log(time.slow / Math.max(1e-6, time.quick)) || 0) / (2 * TENTH)),
    };
  if (!('curve' in time)) return time;
  switch (time.curve) {
    case 'triangular':
      return { mean: (time.least + time.likeliest + time.most) / 3, cv: 0.2 };
    case 'uniform':
      return {
        mean: (time.least + time.most) / 2,
        cv: time.most > 0 ? (time.most - time.least) / Math.sqrt(3) / (time.least + time.most) : 0,
      };
    case 'gamma':
      return time;
    case 'weibull':
      return { mean: time.scale * 0.9, cv: Math.min(5, 1.2 / time.shape) };
    case 'exponential':
      return { mean: time.mean, cv: 1 };
    case 'observed': {
      const mean = time.values.reduce((sum, value) => sum + value, 0) / time.values.length;
      const square = time.values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / time.values.length;
      return { mean, cv: mean > 0 ? Math.sqrt(square) / mean : 0 };
    }
  }
}

/** The standard normal's 90th percentile. */
const TENTH = 1.2815515655446004;
const tidy = (value: number): number => Math.round(value * 10) / 10;

/**
 * About how quick, usual and slow a time is: as given, or of the lognormal curve of the same mean and spread,
 * to a tenth of a minute.
 */
export function asPeopleSay(time: Time): Quick {
  if (typeof time !== 'number' && 'quick' in time) return time;
  const { mean, cv } = middle(time);
  const sigma = Math.sqrt(Math.log1p(cv * cv));
  const usual = mean / Math.sqrt(1 + cv * cv);
  return {
    quick: tidy(usual * Math.exp(-TENTH * sigma)),
    usual: tidy(usual),
    slow: tidy(usual * Math.exp(TENTH * sigma)),
  };
}

/** A file wants the three to rise; a time that hardly varies gets a tenth of a minute between them. */
function rising({ quick, usual, slow }: Quick): Quick {
  const second = Math.max(usual, tidy(quick + 0.1));
  return { quick, usual: second, slow: Math.max(slow, tidy(second + 0.1)) };
}

/**
 * A time of another kind that is about like this one: where a page changes the kind and nothing typed is to
 * be lost.
 */
export function asKind(time: Time, kind: TimeKind): Time {
  if (kindOf(time) === kind) return time;
  const { mean, cv } = middle(time);
  const { quick, usual, slow } = asPeopleSay(time);
  const some = Math.max(0.1, tidy(mean));
  const spread = Math.max(0.01, Math.round(cv * 100) / 100);
  switch (kind) {
    case 'people':
      return rising({ quick, usual, slow });
    case 'fixed':
      return tidy(mean);
    case 'lognormal':
      return { mean: some, cv: Math.round(cv * 100) / 100 };
    case 'triangular':
      return { curve: 'triangular', least: quick, likeliest: usual, most: Math.max(0.1, slow) };
    case 'uniform':
      return { curve: 'uniform', least: quick, most: Math.max(0.1, slow) };
    case 'gamma':
      return { curve: 'gamma', mean: some, cv: spread };
    case 'weibull':
      return {
        curve: 'weibull',
        shape: Math.min(100, Math.max(0.1, Math.round(12 / spread) / 10)),
        scale: Math.max(0.1, tidy(mean / 0.9)),
      };
    case 'exponential':
      return { curve: 'exponential', mean: some };
    case 'observed':
      return { curve: 'observed', values: [quick, usual, slow] };
  }
}

/** "usually 14, one in ten under 9.7, one in ten over 20 min". */
export function timeInWords(time: Time): string {
  if (typeof time === 'number') return `always ${time} min`;
  const { quick, usual, slow } = asPeopleSay(time);
  return `usually ${usual}, one in ten under ${quick}, one in ten over ${slow} min`;
}

/** Fields of a kind, for kinds with plain numbers. */
export const TIME_FIELDS: Partial<
  Record<
    TimeKind,
    { key: string; label: string; unit: string; least: number; most: number; share?: boolean }[]
  >
> = {
  lognormal: [
    { key: 'mean', label: 'Mean', unit: 'min', least: 0, most: 100_000 },
    {
      key: 'cv',
      label: 'Spread (standard deviation over mean)',
      unit: '%',
      least: 0,
      most: 500,
      share: true,
    },
  ],
  gamma: [
    { key: 'mean', label: 'Mean', unit: 'min', least: 0.001, most: 100_000 },
    {
      key: 'cv',
      label: 'Spread (standard deviation over mean)',
      unit: '%',
      least: 0.1,
      most: 500,
      share: true,
    },
  ],
  triangular: [
    { key: 'least', label: 'Least', unit: 'min', least: 0, most: 100_000 },
    { key: 'likeliest', label: 'Likeliest', unit: 'min', least: 0, most: 100_000 },
    { key: 'most', label: 'Most', unit: 'min', least: 0.001, most: 100_000 },
  ],
  uniform: [
    { key: 'least', label: 'Least', unit: 'min', least: 0, most: 100_000 },
    { key: 'most', label: 'Most', unit: 'min', least: 0.001, most: 100_000 },
  ],
  weibull: [
    { key: 'shape', label: 'Shape', unit: '', least: 0.1, most: 100 },
    { key: 'scale', label: 'Scale', unit: 'min', least: 0.001, most: 100_000 },
  ],
  exponential: [{ key: 'mean', label: 'Mean', unit: 'min', least: 0.001, most: 100_000 }],
};

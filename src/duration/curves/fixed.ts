import type { Curve } from '../curve.ts';
import { constant } from '../distribution.ts';
import { minutes } from '../entries.ts';

/** A plain number: always so many minutes. Its variance is 0, its distribution one step from 0 to 1. */
export const fixed: Curve<'fixed', number> = {
  kind: 'fixed',
  everyday: true,
  words: { name: 'always the same', choice: 'always the same', short: String },
  schema: minutes.describe('Always this many minutes.'),
  fields: [
    {
      kind: 'number',
      key: '',
      label: 'Always',
      hint: '',
      unit: 'min',
      least: 0,
      most: 100_000,
      step: 0.5,
      get: (time) => time,
      set: (_, value) => value,
    },
  ],
  is: (time): time is number => typeof time === 'number',
  faults: () => [],
  distribution: constant,
  typical: (time) => time,
  timings: () => [],
  mapMinutes: (time, change) => change(time),
  spread: (time) => time,
  later: (time, minutes) => (time + minutes > 0 ? time + minutes : null),
  about: ({ typical }) => typical,
};

import { z } from '../../zod.ts';
import { isCurve, type Curve } from '../curve.ts';
import { constant } from '../distribution.ts';
import { minutes } from '../entries.ts';

const schema = z
  .strictObject({ curve: z.literal('observed'), values: z.array(minutes).min(1).max(100_000) })
  .describe('The observations themselves, each as likely as the next.');
type Observed = z.output<typeof schema>;

const meanOf = ({ values }: Observed): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * The observations themselves, each as likely as the next (the empirical distribution): the quantile is the
 * value at place floor(u n) of the n in ascending order; variance with divisor n. All alike are always the
 * same.
 */
export const observed: Curve<'observed', Observed> = {
  kind: 'observed',
  everyday: false,
  words: {
    name: 'the times themselves',
    choice: 'as observed',
    short: ({ values }) => `${values.length} timings`,
  },
  schema,
  fields: [
    {
      kind: 'list',
      label: 'Times taken, minutes',
      hint: 'One a line, or with spaces between.',
      get: (time) => time.values,
      set: (time, values) => ({ ...time, values }),
    },
  ],
  is: (time): time is Observed => isCurve(time, 'observed'),
  faults: () => [],
  distribution: (time) => {
    const values = Float64Array.from(time.values).sort();
    const first = values[0]!;
    return first === values[values.length - 1] ? constant(first) : { kind: 'empirical', values };
  },
  typical: meanOf,
  timings: ({ values }) => values,
  mapMinutes: (time, change) => ({ ...time, values: time.values.map(change) }),
  spread: (time, factor) => {
    const mean = meanOf(time);
    return { ...time, values: time.values.map((value) => Math.max(0, mean + (value - mean) * factor)) };
  },
  later: () => null,
  about: ({ quick, usual, slow }) => ({ curve: 'observed', values: [quick, usual, slow] }),
};

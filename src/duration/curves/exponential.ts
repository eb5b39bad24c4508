import { z } from '../../zod.ts';
import { log } from '../../random/exact.ts';
import { isCurve, type Curve } from '../curve.ts';
import { byQuantile } from '../distribution.ts';
import { minutesField, positive, positiveMinutes } from '../entries.ts';

const schema = z.strictObject({ curve: z.literal('exponential'), mean: positiveMinutes });
type Exponential = z.output<typeof schema>;

/**
 * Exponential, as gaps between things that come at random: quantile -mean ln(1 - u), variance mean^2. No end,
 * no memory; its spread is part of its kind. Exact to the last few bits.
 */
export const exponential: Curve<'exponential', Exponential> = {
  kind: 'exponential',
  everyday: false,
  words: {
    name: 'exponential',
    choice: 'exponential, by mean',
    short: ({ mean }) => `exponential ${mean}`,
  },
  schema,
  fields: [minutesField('mean', 'Mean', { least: 'over 0' })],
  is: (time): time is Exponential => isCurve(time, 'exponential'),
  faults: () => [],
  distribution: ({ mean }) =>
    byQuantile(
      (u) => -mean * log(1 - u),
      () => ({ mean, variance: mean * mean }),
      Infinity,
    ),
  typical: ({ mean }) => mean,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, mean: change(time.mean) }),
  spread: (time) => time,
  later: () => null,
  about: ({ mean }) => ({ curve: 'exponential', mean: positive(mean) }),
};

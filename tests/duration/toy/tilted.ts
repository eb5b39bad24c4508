/** A curve that the project does not have: what somebody would write to add one, and nothing more. */
import { z } from '../../../src/zod.ts';
import { isCurve, type Curve } from '../../../src/duration/curve.ts';
import { byQuantile } from '../../../src/duration/distribution.ts';
import { minutesField, numberField, positive, positiveMinutes } from '../../../src/duration/entries.ts';
import { power } from '../../../src/random/exact.ts';

const schema = z.strictObject({
  curve: z.literal('tilted'),
  most: positiveMinutes,
  tilt: z.number().gt(0).max(20),
});
export type Tilted = z.output<typeof schema>;

const meanOf = ({ most, tilt }: Tilted): number => most / (1 + tilt);

/** Quantile most u^tilt: the power function distribution. Mean most / (1 + tilt). */
export const tilted: Curve<'tilted', Tilted> = {
  kind: 'tilted',
  everyday: false,
  words: {
    name: 'tilted',
    choice: 'tilted, by its most',
    short: ({ most, tilt }) => `up to ${most} (tilt ${tilt})`,
  },
  schema,
  fields: [minutesField('most', 'Most', { least: 'over 0' }), numberField('tilt', 'Tilt', 0.1, 20)],
  is: (time): time is Tilted => isCurve(time, 'tilted'),
  faults: ({ most, tilt }) =>
    tilt > most
      ? [
          {
            place: ['tilt'],
            found: String(tilt),
            allowed: `at most "most" (${most})`,
            remedy: 'lower the tilt',
          },
        ]
      : [],
  distribution: (time) =>
    byQuantile(
      (u) => time.most * power(u, time.tilt),
      () => {
        const mean = meanOf(time);
        return { mean, variance: (time.most * time.most) / (1 + 2 * time.tilt) - mean * mean };
      },
      time.most,
    ),
  typical: meanOf,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, most: change(time.most) }),
  spread: (time) => time,
  later: () => null,
  about: ({ mean }) => ({ curve: 'tilted', most: 2 * Math.max(1, positive(mean)), tilt: 1 }),
};

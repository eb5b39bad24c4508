import { z } from '../../zod.ts';
import { gammaFunction, log, power } from '../../random/exact.ts';
import { isCurve, type Curve } from '../curve.ts';
import { byQuantile, type Moments } from '../distribution.ts';
import { minutesField, numberField, positive, positiveMinutes } from '../entries.ts';

const LEAST_SHAPE = 0.1;
const MOST_SHAPE = 100;

const schema = z.strictObject({
  curve: z.literal('weibull'),
  shape: z.number().min(LEAST_SHAPE).max(MOST_SHAPE),
  scale: positiveMinutes,
});
type Weibull = z.output<typeof schema>;

function momentsOf({ shape, scale }: Weibull): Moments {
  const first = gammaFunction(1 + 1 / shape);
  const second = gammaFunction(1 + 2 / shape);
  return { mean: scale * first, variance: scale * scale * (second - first * first) };
}

/**
 * Weibull: the quantile is scale (-ln(1 - u))^(1/shape), the k-th moment scale^k gamma(1 + k/shape). Shape 1
 * is the exponential; the larger the shape, the smaller the spread, which is part of its kind.
 */
export const weibull: Curve<'weibull', Weibull> = {
  kind: 'weibull',
  everyday: false,
  words: {
    name: 'Weibull',
    choice: 'Weibull, by shape and scale',
    short: ({ shape, scale }) => `Weibull ${scale} (shape ${shape})`,
  },
  schema,
  fields: [
    numberField('shape', 'Shape', LEAST_SHAPE, MOST_SHAPE),
    minutesField('scale', 'Scale', { least: 'over 0' }),
  ],
  is: (time): time is Weibull => isCurve(time, 'weibull'),
  faults: () => [],
  distribution: (time) =>
    byQuantile(
      (u) => time.scale * power(-log(1 - u), 1 / time.shape),
      () => momentsOf(time),
      Infinity,
    ),
  typical: (time) => momentsOf(time).mean,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, scale: change(time.scale) }),
  spread: (time) => time,
  later: () => null,
  // The shape is 1.2 / cv within a tenth where it matters (cv 0.1 to 1), and the mean 0.9 of the scale.
  about: ({ mean, cv }) => ({
    curve: 'weibull',
    shape: Math.min(MOST_SHAPE, Math.max(LEAST_SHAPE, Math.round(12 / Math.max(0.01, cv)) / 10)),
    scale: positive(Math.round((mean / 0.9) * 10) / 10),
  }),
};

import { z } from '../../zod.ts';
import { gammaQuantile } from '../../random/exact.ts';
import { isCurve, type Curve } from '../curve.ts';
import { byNormal, byQuantile, type Distribution, type Moments } from '../distribution.ts';
import {
  cvField,
  LEAST_CV,
  minutesField,
  MOST_CV,
  positive,
  positiveMinutes,
  roundCv,
  withinCv,
} from '../entries.ts';

const schema = z.strictObject({
  curve: z.literal('gamma'),
  mean: positiveMinutes,
  cv: z.number().min(LEAST_CV).max(MOST_CV),
});
type Gamma = z.output<typeof schema>;

/**
 * From this shape on (a cv under 0.05) the quantile is taken from its expansion: the library's inversion goes
 * astray from shape 900 on by up to 0.04 of the standard deviation, while the expansion is within 2e-8 of it.
 */
const LARGE_SHAPE = 400;

/**
 * Gamma by its mean and coefficient of variation: shape 1 / cv^2, scale mean cv^2, variance (mean cv)^2.
 * A cv of 1 is the exponential. Quantiles are within 2e-8 of the standard deviation for a cv under 0.05.
 */
export const gamma: Curve<'gamma', Gamma> = {
  kind: 'gamma',
  everyday: false,
  words: {
    name: 'gamma',
    choice: 'gamma, by mean and spread',
    short: ({ mean }) => `gamma ${mean}`,
  },
  schema,
  fields: [minutesField('mean', 'Mean', { least: 'over 0' }), cvField(LEAST_CV)],
  is: (time): time is Gamma => isCurve(time, 'gamma'),
  faults: () => [],
  distribution,
  typical: ({ mean }) => mean,
  timings: () => [],
  mapMinutes: (time, change) => ({ ...time, mean: change(time.mean) }),
  spread: (time, factor) => ({ ...time, cv: withinCv(time.cv * factor) }),
  later: (time, minutes) => {
    const mean = time.mean + minutes;
    const cv = (time.cv * time.mean) / mean;
    return mean > 0 && cv <= MOST_CV ? { ...time, mean, cv: withinCv(cv) } : null;
  },
  about: ({ mean, cv }) => ({ curve: 'gamma', mean: positive(mean), cv: roundCv(cv) }),
};

function distribution({ mean, cv }: Gamma): Distribution {
  const shape = 1 / (cv * cv);
  const scale = mean * cv * cv;
  const moments = (): Moments => ({ mean, variance: mean * scale });
  return shape < LARGE_SHAPE
    ? byQuantile((u) => scale * gammaQuantile(u, shape), moments, Infinity)
    : byNormal((z) => scale * largeShapeQuantile(z, shape), moments);
}

/**
 * Cornish-Fisher expansion in powers of 1 / sqrt(shape), to the order -5/2 (Goldberg and Levine 1946,
 * "Approximate formulas for the percentage points and normalization of t and chi squared"; coefficients from
 * memory, checked against exact quantiles).
 */
function largeShapeQuantile(z: number, shape: number): number {
  const z2 = z * z;
  const root = Math.sqrt(shape);
  const terms = [
    (z2 - 1) / 3,
    (z * (z2 - 7)) / 36,
    -((3 * z2 + 7) * z2 - 16) / 810,
    (z * ((9 * z2 + 256) * z2 - 433)) / 38_880,
    (((12 * z2 - 243) * z2 - 923) * z2 + 1472) / 204_120,
    -(z * (((3753 * z2 + 4353) * z2 - 289_517) * z2 - 289_717)) / 146_966_400,
  ];
  let sum = 0;
  for (let i = terms.length - 1; i >= 0; i--) sum = terms[i]! + sum / root;
  return shape + root * z + sum;
}

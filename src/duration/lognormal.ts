import type { Time } from '../scenario/schema.ts';
import { exp, log } from '../random/exact.ts';
import { byNormal, fixedAt, type AnyCurve } from './curve.ts';

/**
 * Lognormal by its mean and coefficient of variation: sigma^2 = ln(1 + cv^2), mu = ln(mean) - sigma^2 / 2. A
 * cv or mean of 0 is fixed.
 */
export function lognormal(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('cv' in time) || 'curve' in time) return null;
  const { mean, cv } = time;
  if (mean === 0 || cv === 0) return fixedAt(mean);
  const sigmaSquared = log(1 + cv * cv);
  const sigma = Math.sqrt(sigmaSquared);
  const mu = log(mean) - sigmaSquared / 2;
  return byNormal(
    (z) => exp(mu + sigma * z),
    () => ({ mean, variance: mean * mean * cv * cv }),
  );
}

import type { Time } from '../scenario/schema.ts';
import { log } from '../random/exact.ts';
import { byQuantile, type AnyCurve } from './curve.ts';

/** Exponential: the quantile is -mean ln(1 - u). */
export function exponential(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'exponential') return null;
  const { mean } = time;
  return byQuantile(
    (u) => -mean * log(1 - u),
    () => ({ mean, variance: mean * mean }),
  );
}

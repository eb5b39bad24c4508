import type { Time } from '../../scenario/schema.ts';
import { log } from '../exact.ts';
import type { AnyCurve } from './curve.ts';

/** Exponential: the quantile is -mean ln(1 - u). */
export function exponential(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'exponential') return null;
  const { mean } = time;
  return { kind: 'curve', mean, variance: mean * mean, kinks: [], quantile: (u) => -mean * log(1 - u) };
}

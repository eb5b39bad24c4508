import type { Time } from '../scenario/schema.ts';
import { gammaFunction, log, power } from '../random/exact.ts';
import { byQuantile, type AnyCurve, type Moments } from './curve.ts';

/** Weibull: the quantile is scale (-ln(1 - u))^(1/shape), the k-th moment scale^k gamma(1 + k/shape). */
export function weibull(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'weibull') return null;
  const { shape, scale } = time;
  const moments = (): Moments => {
    const first = gammaFunction(1 + 1 / shape);
    const second = gammaFunction(1 + 2 / shape);
    return { mean: scale * first, variance: scale * scale * (second - first * first) };
  };
  return byQuantile((u) => scale * power(-log(1 - u), 1 / shape), moments);
}

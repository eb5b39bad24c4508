/**
 * Every time curve of the scenario file: the first that knows the shape of a time makes its curve. A new
 * curve is one file and one line.
 */
import type { Time } from '../scenario/schema.ts';
import type { AnyCurve } from './curve.ts';
import { exponential } from './exponential.ts';
import { fixed } from './fixed.ts';
import { gamma } from './gamma.ts';
import { lognormal } from './lognormal.ts';
import { observed } from './observed.ts';
import { quickUsualSlow } from './quick-usual-slow.ts';
import { triangular } from './triangular.ts';
import { uniformCurve } from './uniform.ts';
import { weibull } from './weibull.ts';

const CURVES: readonly ((time: Time) => AnyCurve | null)[] = [
  fixed,
  quickUsualSlow,
  lognormal,
  triangular,
  gamma,
  weibull,
  exponential,
  uniformCurve,
  observed,
];

/** The curve of a checked time. Throws on a time no curve knows, which the check of the file refuses. */
export function curveOf(time: Time): AnyCurve {
  for (const make of CURVES) {
    const curve = make(time);
    if (curve !== null) return curve;
  }
  throw new RangeError(`no curve for the time ${JSON.stringify(time)}`);
}

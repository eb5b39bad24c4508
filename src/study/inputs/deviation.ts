/** How far an input may lie from what the file takes for it: a standard deviation and what it stands on. */
import { compileTime } from '../../duration/compile.ts';
import type { Time } from '../../duration/time.ts';
import { log, normalQuantile } from '../../random/exact.ts';
import type { InputPlace, UncertainInput } from '../../scenario/inputs.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';

export interface Deviation {
  /** Standard deviation of the logarithm of a mean time, of the log odds of a share; 0 or more. */
  deviation: number;
  /** Degrees of freedom the deviation is known with; Infinity where it is taken as given. */
  degrees: number;
  /** Coefficient of variation of single times; null for shares. */
  variation: number | null;
}

/** Half a normal 95 % range is so many standard deviations. */
export const HALF_RANGE = normalQuantile(0.975);

/**
 * - From memory, the mean to a share h either way at 95 %: log(1 + h) over 1.96.
 * - From n timings of mean m and standard deviation s: s / (m sqrt n), with n - 1 degrees of freedom.
 * - A share counted over n: its log odds by the delta method with Jeffreys' half a case either side,
 *   sqrt(1 / (x + 1/2) + 1 / (n - x + 1/2)) (Agresti, Categorical Data Analysis, section 3.1; from memory).
 */
export function deviationOfInput(shift: ResolvedShift, { place, known }: UncertainInput): Deviation {
  if (known.kind === 'counted') {
    const cases = known.share * known.of;
    const deviation = Math.sqrt(1 / (cases + 0.5) + 1 / (known.of - cases + 0.5));
    return { deviation, degrees: Infinity, variation: null };
  }
  const time = timeAt(shift, place);
  const curve = time === null ? null : compileTime(time);
  const variation = curve === null || !(curve.mean > 0) ? 0 : curve.standardDeviation / curve.mean;
  if (known.kind === 'within')
    return { deviation: log(1 + known.share) / HALF_RANGE, degrees: Infinity, variation };
  const mean = known.mean ?? curve?.mean ?? 0;
  const spread = known.spread ?? variation * mean;
  return {
    deviation: mean > 0 ? spread / mean / Math.sqrt(known.count) : 0,
    degrees: known.count - 1,
    variation: mean > 0 ? spread / mean : variation,
  };
}

function timeAt(shift: ResolvedShift, place: InputPlace): Time | null {
  if (place.kind !== 'time') return null;
  const step = shift.steps.find(({ id }) => id === place.step);
  if (step === undefined) return null;
  if (place.repeat) return step.repeatTime;
  if (place.product === null) return step.time;
  return shift.products.find(({ id }) => id === place.product)?.tasks[place.step]?.time ?? null;
}

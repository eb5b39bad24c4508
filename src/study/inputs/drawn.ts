/**
 * Inputs drawn anew for every replication, for plans that are compared by what single shifts make: a chance
 * found so is the one that a promise has in a shop of which no more is known. The same replication draws the
 * same inputs for every plan.
 */
import { exp, normalQuantile } from '../../random/exact.ts';
import { seedKey } from '../../random/keys.ts';
import { threefry, uniform } from '../../random/threefry.ts';
import type { VariedInputs } from '../../record/job.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { studentQuantile } from '../intervals/student-quantile.ts';
import { HALF_RANGE } from './deviation.ts';
import { inputsOfCases } from './input-study.ts';

/**
 * Of replications `from` on; undefined where everything is known. Deviates are normal, wider by Student's
 * quantile over the normal one where an input is known from few timings.
 */
export function drawnInputs(shifts: ResolvedShift[], from: number, count: number): VariedInputs | undefined {
  const inputs = inputsOfCases([{ shifts }]);
  const seed = shifts[0]?.seed;
  if (inputs.length === 0 || seed === undefined) return undefined;
  const wide = inputs.map(
    ({ deviation, degrees }) => (deviation * studentQuantile(0.95, Math.max(1, degrees))) / HALF_RANGE,
  );
  const keys = inputs.map(({ id }) => seedKey(`${id} of ${seed}`));
  const factors = new Float64Array(count * inputs.length);
  for (let i = 0; i < count; i++)
    keys.forEach((key, k) => {
      const deviate = normalQuantile(uniform(threefry(key, 0, (from + i) | 0, 0)));
      factors[i * inputs.length + k] = exp(deviate * wide[k]!);
    });
  return { places: inputs.map(({ place }) => place), factors };
}

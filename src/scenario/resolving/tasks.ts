/** This product's time at this step, and where it goes from there: decided here and nowhere else. */
import { DEFAULTS } from '../defaults.ts';
import type { ResolvedProduct, ResolvedShift, ResolvedStep, ResolvedTask } from '../resolved.ts';
import type { Product } from '../schema.ts';

/** Tasks of one product at every step. A repeat visit has the step's repeat time where there is one. */
export function resolveTasks(product: Product, steps: ResolvedStep[]): Record<string, ResolvedTask> {
  const skips = product.skips ?? [];
  return Object.fromEntries(
    steps.map((step) => {
      const own = product.times?.[step.id];
      const time = own ?? step.time;
      const factor = product.factors?.[step.id] ?? DEFAULTS.product.factor;
      const task: ResolvedTask = {
        time,
        repeat: step.repeatTime ?? time,
        own: own !== undefined,
        factor,
        next: nextOf(steps, skips, step),
      };
      return [step.id, task];
    }),
  );
}

/** Bounded by the number of steps: a file that has not been checked may lead round in a circle. */
function nextOf(steps: ResolvedStep[], skips: string[], from: ResolvedStep): string | null {
  let { next } = from;
  for (let i = 0; i < steps.length && next !== null && skips.includes(next); i++) {
    const skipped = next;
    next = steps.find((step) => step.id === skipped)?.next ?? null;
  }
  return next;
}

/**
 * The task of a piece at a step. A piece whose product is not known has the step's own time, unless there is
 * only one product it can be.
 * @throws RangeError for a step the cell does not have.
 */
export function taskOf(
  shift: Pick<ResolvedShift, 'products' | 'steps'>,
  product: string | null,
  step: string,
): ResolvedTask {
  const known: ResolvedProduct | undefined =
    shift.products.length === 1 ? shift.products[0] : shift.products.find((one) => one.id === product);
  const task = known?.tasks[step];
  if (task !== undefined) return task;
  const plain = shift.steps.find((one) => one.id === step);
  if (plain === undefined) throw new RangeError(`There is no step "${step}" in this cell.`);
  const { time, repeatTime, next } = plain;
  return { time, repeat: repeatTime ?? time, own: false, factor: DEFAULTS.product.factor, next };
}

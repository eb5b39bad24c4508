/** Whether a shift is the same every time. */
import { isFixed } from '../../duration/compile.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import type { Time } from '../../duration/time.ts';

/**
 * Every time is fixed, nothing is left to chance: rework, scrap, attendance, failures, random arrivals, a mix
 * of products.
 */
export function cellIsFixed(shift: ResolvedShift): boolean {
  const fixed = (time: Time): boolean => isFixed(time);
  return (
    shift.products.length <= 1 &&
    shift.products.every((product) =>
      Object.values(product.tasks).every((task) => fixed(task.time) && fixed(task.repeat)),
    ) &&
    shift.steps.every((step) => step.scrap === 0 && step.rework.every((branch) => branch.share === 0)) &&
    shift.people.every((person) => (person.chance === 0 || person.chance === 1) && person.lateChance === 0) &&
    shift.gear.every((gear) => gear.fails === null) &&
    shift.intake.kind !== 'random'
  );
}

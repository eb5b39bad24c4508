/**
 * From a checked scenario file to a shift with every default filled in and every clock time as minutes from
 * its start. Nothing is checked here: `check` (check.ts) has done so; what it refuses never gets here.
 */
import { minutesAfter } from './clock.ts';
import { DEFAULTS } from './defaults.ts';
import { inputsOf } from './inputs.ts';
import { resolvePay } from './pay.ts';
import type { ResolvedProduct, ResolvedShift, ResolvedStep } from './resolved.ts';
import { resolveBreaks, resolvePeople } from './resolving/people.ts';
import { resolveGear, resolveSteps } from './resolving/steps.ts';
import { resolveTasks } from './resolving/tasks.ts';
import { intakeOf, resolveCarried, resolveHold, resolveIntake } from './resolving/units.ts';
import type { Product, Scenario } from './schema.ts';

export type * from './resolved.ts';
export { nameOf } from './resolving/names.ts';
export { resolveLimits, resolveMoney, resolveOption, resolvePlant } from './resolving/plant.ts';
export { benchesOf, benchOf } from './resolving/steps.ts';
export { taskOf } from './resolving/tasks.ts';
export { carriedOf, holdOf, intakeOf } from './resolving/units.ts';

/**
 * The first shift of a checked scenario, defaults filled in. The shifts that follow: `shiftsOf` (options.ts).
 */
export function resolve(scenario: Scenario, startsAfter = 0): ResolvedShift {
  const { shift = {} } = scenario;
  const start = shift.start ?? DEFAULTS.shift.start;
  const after = (clock: string): number => minutesAfter(start, clock);
  const length = after(shift.end ?? DEFAULTS.shift.end) || 1440;
  const breaks = resolveBreaks(shift.breaks ?? [], after);
  const steps = resolveSteps(scenario, after);
  const products: Record<string, Product> = scenario.products ?? { [DEFAULTS.product.id]: {} };
  const { overtime = {}, target = DEFAULTS.shift.target } = shift;
  const { outRack } = scenario;
  return {
    name: scenario.name,
    seed: scenario.seed ?? DEFAULTS.seed,
    start,
    startsAfter,
    length,
    tidyUp: shift.tidyUp ?? DEFAULTS.shift.tidyUp,
    atEnd: shift.atEnd ?? DEFAULTS.shift.atEnd,
    allowance: shift.allowance ?? DEFAULTS.shift.allowance,
    target,
    overtime: {
      until: overtime.until ?? DEFAULTS.shift.overtime.until,
      cap: overtime.cap ?? DEFAULTS.shift.overtime.cap,
      who: overtime.who ?? null,
    },
    products: Object.entries(products).map(([id, product]) => resolveProduct(id, product, steps)),
    steps,
    gear: resolveGear(scenario, steps, after),
    people: resolvePeople(scenario, breaks, length, after),
    intake: resolveIntake(intakeOf(scenario), after),
    carryOver: (scenario.carryOver ?? []).map((unit) => resolveCarried(unit, after)),
    holds: (scenario.holds ?? []).map((hold) => resolveHold(hold, after)),
    outRack:
      outRack === undefined
        ? null
        : {
            size: outRack.size,
            racks: outRack.racks ?? DEFAULTS.outRack.racks,
            back: outRack.back ?? DEFAULTS.outRack.back,
            standing: outRack.standing ?? DEFAULTS.outRack.standing,
            away: outRack.away ?? [],
          },
    breaks,
    pay: resolvePay(scenario),
    inputs: inputsOf(scenario),
  };
}

function resolveProduct(id: string, product: Product, steps: ResolvedStep[]): ResolvedProduct {
  const skips = product.skips ?? [];
  const mainPath = steps.filter((step) => !step.aside).map((step) => step.id);
  return {
    id,
    name: product.name ?? id,
    share: product.share ?? DEFAULTS.product.share,
    returned: product.returned ?? DEFAULTS.product.returned,
    skips,
    enters: product.enters ?? mainPath.find((step) => !skips.includes(step)) ?? mainPath[0]!,
    tasks: resolveTasks(product, steps),
  };
}

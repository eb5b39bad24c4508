/** What holds for all shifts of a file alike: money, limits, how sure an answer must be, options by name. */
import { DEFAULTS } from '../defaults.ts';
import type {
  ResolvedLimits,
  ResolvedMoney,
  ResolvedOption,
  ResolvedPlant,
  ResolvedStudy,
} from '../resolved.ts';
import type { Scenario } from '../schema.ts';

export const resolvePlant = (scenario: Scenario): ResolvedPlant => ({
  seed: scenario.seed ?? DEFAULTS.seed,
  money: resolveMoney(scenario.money),
  limits: resolveLimits(scenario.limits),
  study: resolveStudy(scenario.study),
  options: Object.entries(scenario.options ?? {}).map(([id, option]) => resolveOption(id, option)),
});

/** One option, of the file or on trial. */
export const resolveOption = (
  id: string,
  option: Pick<NonNullable<Scenario['options']>[string], 'name' | 'price'>,
): ResolvedOption => ({ id, name: option.name ?? id, price: option.price ?? DEFAULTS.option.price });

export const resolveMoney = (given: Scenario['money'] = {}): ResolvedMoney => ({
  currency: given.currency ?? DEFAULTS.money.currency,
  margin: given.margin ?? DEFAULTS.money.margin,
  sellsMore: given.sellsMore ?? DEFAULTS.money.sellsMore,
  shiftsPerYear: given.shiftsPerYear ?? DEFAULTS.money.shiftsPerYear,
  discount: given.discount ?? DEFAULTS.money.discount,
  benchPrice: given.benchPrice ?? DEFAULTS.money.benchPrice,
});

export const resolveLimits = (given: Scenario['limits'] = {}): ResolvedLimits => ({
  vibration: Object.fromEntries(
    Object.entries(given.vibration ?? {}).map(([step, level]) => [
      step,
      { level, trigger: (given.trigger?.[step] ?? DEFAULTS.limits.trigger) / 100 },
    ]),
  ),
  vibrationPoints: given.vibrationPoints ?? DEFAULTS.limits.vibrationPoints,
  hoursPerDay: given.hoursPerDay ?? DEFAULTS.limits.hoursPerDay,
});

const resolveStudy = (given: Scenario['study'] = {}): ResolvedStudy => ({
  precision: given.precision ?? DEFAULTS.study.precision,
  confidence: (given.confidence ?? DEFAULTS.study.confidence) / 100,
  difference: given.difference ?? DEFAULTS.study.difference,
  most: given.most ?? DEFAULTS.study.most,
  promise: (given.promise ?? DEFAULTS.study.promise) / 100,
});

/**
 * The shift forecast with what is not known about the times in it: resamples of the observations, each fitted
 * and run anew.
 */
import { shiftsOf } from '../scenario/options.ts';
import { resolve, resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { layoutOfShift } from '../record/layout.ts';
import { scalarAt } from '../record/report.ts';
import { luckOf } from './luck.ts';
import { resampleScenario } from './resample.ts';
import { splitUncertainty, type UncertaintySplit } from './split-uncertainty.ts';
import type { StepFit } from './step-fit.ts';

export interface TimesForecast {
  /** Null where too little was run. */
  split: UncertaintySplit | null;
  target: number | null;
  /**
   * Of the target, over all resamples, with its range (as `meanRange`) for what is not known of the times.
   */
  chance: { chance: number; low: number; high: number } | null;
  /** By resample: good units of each of its shifts. */
  goods: number[][];
}

export interface ForecastSettings {
  resamples: number;
  /** Shifts of each. */
  shifts: number;
}

export const FORECAST: ForecastSettings = { resamples: 60, shifts: 20 };

/**
 * Good units of the first shift when its times are known only from these observations. Every resample has
 * shifts of its own, so that what differs between resamples beyond luck is the times. Throws and stops as the
 * runner does.
 */
export async function forecastWithTimes(
  scenario: Scenario,
  fits: readonly StepFit[],
  runner: Runner,
  settings: Partial<ForecastSettings> = {},
  signal?: AbortSignal,
): Promise<TimesForecast> {
  const { resamples, shifts: count } = { ...FORECAST, ...settings };
  const { seed } = resolvePlant(scenario);
  const goods = await Promise.all(
    Array.from({ length: resamples }, async (_, resample) => {
      const [first] = shiftsOf({
        ...resampleScenario(scenario, fits, luckOf(seed, resample, 0)),
        nextShifts: [],
      });
      const layout = layoutOfShift(first!);
      const { rows } = await runner.run({ shifts: [first!], from: resample * count, count }, signal);
      return Array.from(
        { length: count },
        (_one, row) => rows[0]![row * layout.size + scalarAt(layout, 'good')]!,
      );
    }),
  );
  const target = resolve(scenario).target;
  return {
    split: splitUncertainty(goods),
    target,
    chance: target === null ? null : chanceOf(goods, target),
    goods,
  };
}

function chanceOf(goods: readonly number[][], target: number): TimesForecast['chance'] {
  const split = splitUncertainty(goods.map((group) => group.map((good) => (good >= target ? 1 : 0))));
  if (split === null) return null;
  return {
    chance: split.mean,
    low: Math.max(0, split.meanRange.low),
    high: Math.min(1, split.meanRange.high),
  };
}

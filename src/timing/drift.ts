/** Has a step's time moved away from the one the scenario works with? */
import { compileTime } from '../duration/compile.ts';
import { exp, log } from '../random/exact.ts';
import type { Time } from '../duration/time.ts';
import type { Scenario } from '../scenario/schema.ts';
import { shared } from '../study/intervals/interval.ts';
import { studentQuantile } from '../study/intervals/student-quantile.ts';
import { groupsOf, type BaseOptions, type TimePlace } from './groups.ts';
import type { Observation } from './observation.ts';

export interface Drift extends TimePlace {
  count: number;
  /** How many times as long as the scenario's time pieces now take (geometric), with its range. */
  ratio: number;
  low: number;
  high: number;
  verdict: 'slower' | 'quicker' | 'as before' | 'cannot tell';
  confidence: number;
  /** Mean of the recent times and of the scenario's time, base minutes. */
  recent: number;
  model: number;
}

/**
 * A change under this share does not matter: a range wholly inside it is "as before", even one that leaves
 * out 1.
 */
const MATTERS = 0.1;
const FEWEST = 3;
const PARTS = 2000;

/**
 * Student's range of the mean logarithm of recent times, against the mean logarithm of the scenario's time.
 * @param several how many steps are looked at together (Bonferroni).
 */
export function driftOf(
  place: TimePlace,
  recent: readonly number[],
  model: Time,
  confidence = 0.95,
  several = 1,
): Drift {
  const count = recent.length;
  const base = {
    step: place.step,
    product: place.product,
    repeat: place.repeat,
    count,
    confidence,
    recent: recent.reduce((sum, value) => sum + value, 0) / count,
    model: compileTime(model).mean,
  };
  const expected = meanLogOf(model);
  if (count < FEWEST || !Number.isFinite(expected))
    return { ...base, ratio: NaN, low: NaN, high: NaN, verdict: 'cannot tell' };
  const logs = recent.map((value) => log(value) - expected);
  const mean = logs.reduce((sum, value) => sum + value, 0) / count;
  const deviation = Math.sqrt(
    logs.reduce((sum, value) => sum + (value - mean) * (value - mean), 0) / (count - 1),
  );
  const half = (studentQuantile(shared(confidence, several), count - 1) * deviation) / Math.sqrt(count);
  const [ratio, low, high] = [exp(mean), exp(mean - half), exp(mean + half)];
  const verdict =
    low > 1 - MATTERS && high < 1 + MATTERS
      ? 'as before'
      : low > 1
        ? 'slower'
        : high < 1
          ? 'quicker'
          : 'cannot tell';
  return { ...base, ratio, low, high, verdict };
}

/** Every step that has recent observations, each against the scenario's time for it. */
export function driftsOf(
  scenario: Scenario,
  recent: readonly Observation[],
  options: BaseOptions = {},
  confidence = 0.95,
): Drift[] {
  const groups = groupsOf(scenario, recent, options);
  return groups.map((group) =>
    driftOf(group, group.minutes, modelTime(scenario, group), confidence, groups.length),
  );
}

/** What the scenario has at a place. */
export function modelTime(scenario: Scenario, group: TimePlace): Time {
  const step = scenario.steps[group.step]!;
  if (group.product !== null) return scenario.products![group.product]!.times![group.step]!;
  return group.repeat ? step.repeatTime! : step.time;
}

/** Mean of the logarithm of a time, by equal parts of its quantile; -Infinity where it can be nothing. */
function meanLogOf(time: Time): number {
  const curve = compileTime(time);
  let sum = 0;
  for (let part = 0; part < PARTS; part += 1) sum += log(curve.quantile((part + 0.5) / PARTS));
  return sum / PARTS;
}

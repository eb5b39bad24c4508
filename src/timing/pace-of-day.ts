/** How the times of one day lay against those the scenario works with: by step, the ratio of the means. */
import type { Scenario } from '../scenario/schema.ts';
import { driftsOf } from './drift.ts';
import type { Observation } from './observation.ts';

/**
 * By step: how many times the mean of the model the mean of the day was, product, person and allowance taken
 * out; where a step has several times (repeat visits, a product's own), weighted by how often each was met.
 */
export function paceOfDay(scenario: Scenario, observations: readonly Observation[]): Record<string, number> {
  const sums = new Map<string, { day: number; model: number }>();
  for (const drift of driftsOf(scenario, observations, { withAllowance: true })) {
    const sum = sums.get(drift.step) ?? { day: 0, model: 0 };
    sums.set(drift.step, {
      day: sum.day + drift.recent * drift.count,
      model: sum.model + drift.model * drift.count,
    });
  }
  return Object.fromEntries(
    [...sums].filter(([, { model }]) => model > 0).map(([step, { day, model }]) => [step, day / model]),
  );
}

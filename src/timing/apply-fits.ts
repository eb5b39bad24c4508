/** Fitted times into a scenario, each with where it came from. */
import type { Time } from '../duration/time.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { TimePlace } from './groups.ts';
import type { StepFit } from './step-fit.ts';

/**
 * The scenario with every chosen time put in its place; the given one is left alone. Fits without a choice
 * change nothing.
 */
export function applyFits(scenario: Scenario, fits: readonly StepFit[]): Scenario {
  let changed = scenario;
  for (const fit of fits)
    if (fit.chosen !== null) changed = withTime(changed, fit, fit.chosen.time, fit.note);
  return changed;
}

/** The scenario with one time replaced. @param note where it came from; empty leaves what stood there. */
export function withTime(scenario: Scenario, place: TimePlace, time: Time, note = ''): Scenario {
  if (place.product !== null) {
    const product = scenario.products?.[place.product];
    const from = note === '' ? {} : { timesFrom: { ...product?.timesFrom, [place.step]: note } };
    const changed = { ...product, times: { ...product?.times, [place.step]: time }, ...from };
    return { ...scenario, products: { ...scenario.products, [place.product]: changed } };
  }
  const step = scenario.steps[place.step];
  if (step === undefined) return scenario;
  const which = place.repeat ? 'repeatTime' : 'time';
  const from = note === '' ? {} : { timesFrom: { ...step.timesFrom, [which]: note } };
  return { ...scenario, steps: { ...scenario.steps, [place.step]: { ...step, [which]: time, ...from } } };
}

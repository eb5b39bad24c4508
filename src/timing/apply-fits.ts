/** Fitted times into a scenario, each with where it came from and how well it is known. */
import type { Time } from '../duration/time.ts';
import type { TimeKnown } from '../scenario/known.ts';
import type { Scenario } from '../scenario/schema.ts';

import type { TimePlace } from './groups.ts';
import { sixFigures } from './maximum-likelihood.ts';
import type { StepFit } from './step-fit.ts';

/**
 * The scenario with every chosen time put in its place; the given one is left alone. Fits without a choice
 * change nothing.
 */
export function applyFits(scenario: Scenario, fits: readonly StepFit[]): Scenario {
  let changed = scenario;
  for (const fit of fits)
    if (fit.chosen !== null) changed = withTime(changed, fit, fit.chosen.time, fit.note, knownFrom(fit));
  return changed;
}

/** How many timings there are behind a fit, their standard deviation, whose and when. */
function knownFrom({ count, deviation, by, on }: StepFit): TimeKnown {
  return {
    times: count,
    ...(deviation > 0 ? { spread: sixFigures(deviation) } : {}),
    ...(by === null ? {} : { by }),
    ...(on === null ? {} : { on }),
  };
}

/**
 * The scenario with one time replaced. @param note where it came from; empty leaves what stood there.
 * @param known how well its mean is known; left out: as before.
 */
export function withTime(
  scenario: Scenario,
  place: TimePlace,
  time: Time,
  note = '',
  known?: TimeKnown,
): Scenario {
  if (place.product !== null) {
    const product = scenario.products?.[place.product];
    const from = note === '' ? {} : { timesFrom: { ...product?.timesFrom, [place.step]: note } };
    const said = known === undefined ? {} : { known: { ...product?.known, [place.step]: known } };
    const changed = { ...product, times: { ...product?.times, [place.step]: time }, ...from, ...said };
    return { ...scenario, products: { ...scenario.products, [place.product]: changed } };
  }
  const step = scenario.steps[place.step];
  if (step === undefined) return scenario;
  const which = place.repeat ? 'repeatTime' : 'time';
  const from = note === '' ? {} : { timesFrom: { ...step.timesFrom, [which]: note } };
  const said = known === undefined ? {} : { known: { ...step.known, [which]: known } };
  return {
    ...scenario,
    steps: { ...scenario.steps, [place.step]: { ...step, [which]: time, ...from, ...said } },
  };
}

/** Fitted times into a scenario, each with where it came from and how well it is known. */
import type { Time } from '../duration/time.ts';
import { clockOfMinutes } from '../scenario/clock.ts';
import type { Mind, TimeKnown } from '../scenario/known.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Doubt } from './doubts.ts';
import type { TimePlace } from './groups.ts';
import { sixFigures } from './maximum-likelihood.ts';
import type { StepFit } from './step-fit.ts';

/**
 * The scenario with every chosen time put in its place; the given one is left alone. Fits without a choice
 * change nothing.
 *
 * @param doubts by fit: what a range made of it cannot know; kept with it.
 */
export function applyFits(
  scenario: Scenario,
  fits: readonly StepFit[],
  doubts: readonly (readonly Doubt[])[] = [],
): Scenario {
  let changed = scenario;
  fits.forEach((fit, i) => {
    if (fit.chosen !== null)
      changed = withTime(changed, fit, fit.chosen.time, fit.note, knownFrom(fit, doubts[i] ?? []));
  });
  return changed;
}

/** How many timings there are behind a fit, their standard deviation, whose and when, and what to mind. */
function knownFrom({ count, deviation, by, on }: StepFit, doubts: readonly Doubt[]): TimeKnown {
  const mind = mindOf(doubts);
  return {
    times: count,
    ...(deviation > 0 ? { spread: sixFigures(deviation) } : {}),
    ...(by === null ? {} : { by }),
    ...(on === null ? {} : { on }),
    ...(Object.keys(mind).length === 0 ? {} : { mind }),
  };
}

/** That all are of one day is told by the day itself. */
function mindOf(doubts: readonly Doubt[]): Mind {
  const mind: Mind = {};
  for (const doubt of doubts)
    switch (doubt.kind) {
      case 'people differ':
        mind.people = 'differ';
        break;
      case 'whose':
        mind.people = 'not named';
        break;
      case 'part of the day':
        mind.between = [clockOf(doubt.from), clockOf(doubt.to)];
        break;
      case 'the hour matters':
        mind.hourly = sixFigures(doubt.anHour);
        break;
      case 'days differ':
        mind.days = 'differ';
        break;
      case 'one day':
        break;
    }
  return mind;
}

const clockOf = (minutes: number): string => clockOfMinutes(Math.floor(minutes));

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

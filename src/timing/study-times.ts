/**
 * Everything the observations say, place by place: the fit, what products and people do to it, and whether it
 * has moved.
 */
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { driftOf, modelTime, type Drift } from './drift.ts';
import { doubtsOf, type Doubt } from './doubts.ts';
import { effectsOf, type Effects } from './effects.ts';
import { groupsOf, placeKey, type BaseOptions, type TimePlace } from './groups.ts';
import { asSeen, timeKey, type TimeSeen } from './left-out.ts';
import type { Observation } from './observation.ts';
import { fitStep, type CandidateKind, type FitOptions, type StepFit } from './step-fit.ts';

export interface PlaceStudy {
  fit: StepFit;
  /**
   * Of the minutes as they were observed: the scenario's factors are not taken out, so that they can be
   * judged.
   */
  effects: Effects;
  /** Against the scenario's own time. */
  drift: Drift;
  /** What a range made from them cannot know. */
  doubts: Doubt[];
  /** Those far from the rest, and those that were left out. */
  far: TimeSeen[];
  left: TimeSeen[];
}

export interface TimesStudy {
  places: PlaceStudy[];
  /** Times of the scenario without an observation. */
  unseen: TimePlace[];
  precision: number;
  confidence: number;
}

export interface TimesOptions extends FitOptions, BaseOptions {
  /** The kind of curve chosen by a person, by `placeKey`. */
  uses?: Record<string, CandidateKind>;
  /** Times left out by a person, by `timeKey`: shown, and in no figure. */
  leaveOut?: ReadonlySet<string>;
  /** Told of each place as it is done, in order: how many are, and of how many. */
  onPlace?: (place: PlaceStudy, done: number, of: number) => void;
}

/**
 * Never throws; the same observations always give the same answer. Steps the scenario does not have are left
 * out.
 */
export function studyTimes(
  scenario: Scenario,
  observations: readonly Observation[],
  options: TimesOptions = {},
): TimesStudy {
  const leaveOut = options.leaveOut ?? new Set<string>();
  const isLeft = (one: Observation): boolean => leaveOut.has(timeKey(one));
  const used = leaveOut.size === 0 ? observations : observations.filter((one) => !isLeft(one));
  const groups = groupsOf(scenario, used, options);
  const without = leaveOut.size === 0 ? [] : groupsOf(scenario, observations.filter(isLeft), options);
  // A place of which all was left out is there to take something in again.
  groups.push(
    ...without
      .filter((group) => !groups.some((one) => placeKey(one) === placeKey(group)))
      .map((group) => ({ ...group, observations: [], minutes: [] })),
  );
  const confidence = options.confidence ?? 0.95;
  const places = groups.map((group, i): PlaceStudy => {
    const use = options.uses?.[placeKey(group)] ?? options.use;
    const effects = effectsOf(group.observations, confidence);
    const fit = fitStep(group, { ...options, ...(use === undefined ? {} : { use }) });
    const left = without.find((one) => placeKey(one) === placeKey(group));
    const place: PlaceStudy = {
      fit,
      effects,
      drift: driftOf(group, group.minutes, modelTime(scenario, group), confidence, groups.length),
      doubts: doubtsOf(scenario, group, confidence, groups.length),
      far: fit.outliers.map(({ at }) => asSeen(group.observations[at]!)),
      left: left === undefined ? [] : left.observations.map(asSeen),
    };
    options.onPlace?.(place, i + 1, groups.length);
    return place;
  });
  const seen = new Set(groups.map(placeKey));
  return {
    places,
    unseen: placesOf(scenario).filter((place) => !seen.has(placeKey(place))),
    precision: options.precision ?? 0.05,
    confidence,
  };
}

/** Every time a scenario has, in the order of its steps. */
export function placesOf(scenario: Scenario): TimePlace[] {
  const { steps, products } = resolve(scenario);
  return steps.flatMap((step): TimePlace[] => [
    { step: step.id, product: null, repeat: false },
    ...products
      .filter((product) => product.tasks[step.id]!.own)
      .map((product) => ({ step: step.id, product: product.id, repeat: false })),
    ...(step.repeatTime === null ? [] : [{ step: step.id, product: null, repeat: true }]),
  ]);
}

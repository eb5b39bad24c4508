/**
 * Which observations speak about which time of the scenario, and what they say about it: a base time. The
 * scenario makes a piece's time from the base time x product factor x person's factor x allowance, so a base
 * time is what was observed over these.
 */
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Observation } from './observation.ts';
import { normalTime } from './work-measurement.ts';

/** One time of the scenario: a step's, its time for repeat visits, or a product's own. */
export interface TimePlace {
  step: string;
  /** The product where the scenario gives it a time of its own at this step; null: the step's time. */
  product: string | null;
  repeat: boolean;
}

export interface Group extends TimePlace {
  observations: Observation[];
  /** Base minutes, one for each observation. */
  minutes: number[];
}

export interface BaseOptions {
  /**
   * How differences in pace are taken out: by the scenario's factor of the person (default), by the rating
   * (normal time = observed x rating; unrated ones stay as they are, by the person's factor), or not at all.
   */
  pace?: 'factors' | 'rating' | 'none';
  /**
   * The observed times contain the scenario's allowance (as those between two events of a log do). Default
   * false: a watch stops for them.
   */
  withAllowance?: boolean;
}

export const placeKey = (place: TimePlace): string =>
  `${place.step}|${place.product ?? ''}|${place.repeat ? 'again' : ''}`;

/** The groups in the scenario's order of steps; only those with observations. */
export function groupsOf(
  scenario: Scenario,
  observations: readonly Observation[],
  options: BaseOptions = {},
): Group[] {
  const shift = resolve(scenario);
  const steps = new Map(shift.steps.map((step, order) => [step.id, { step, order }]));
  const products = new Map(shift.products.map((product) => [product.id, product]));
  const people = new Map(shift.people.map((person) => [person.id, person]));
  const groups = new Map<string, Group>();
  for (const one of observations) {
    const known = steps.get(one.step);
    if (known === undefined) continue;
    const product = one.product === null ? undefined : products.get(one.product);
    const repeat = one.repeat && known.step.repeatTime !== null;
    const task = product?.tasks[one.step];
    const own = !repeat && product !== undefined && task?.own === true;
    const place: TimePlace = { step: one.step, product: own ? product.id : null, repeat };
    const hands = known.step.kind === 'hands';
    const person = one.person === null ? undefined : people.get(one.person);
    const pace = hands ? paceOf(one, person?.skills[one.step]?.factor ?? 1, options.pace ?? 'factors') : 1;
    const factor = task?.factor ?? 1;
    const allowance = hands && options.withAllowance === true ? shift.allowance : 1;
    const key = placeKey(place);
    let group = groups.get(key);
    if (group === undefined) groups.set(key, (group = { ...place, observations: [], minutes: [] }));
    group.observations.push(one);
    group.minutes.push((one.minutes * pace) / (factor * allowance));
  }
  const order = (group: Group): number => steps.get(group.step)!.order;
  return [...groups.values()].sort(
    (a, b) =>
      order(a) - order(b) ||
      Number(a.repeat) - Number(b.repeat) ||
      ((a.product ?? '') < (b.product ?? '') ? -1 : 1),
  );
}

/** What an observed time is multiplied with to be at normal pace. */
function paceOf(one: Observation, factor: number, pace: 'factors' | 'rating' | 'none'): number {
  if (pace === 'none') return 1;
  return pace === 'rating' && one.rating !== null ? normalTime(1, one.rating) : 1 / factor;
}

/** The file with one of its inputs changed: times, shares, who comes, when parts come. */
import { DEFAULTS } from '../defaults.ts';
import { intakeOf } from '../resolving/units.ts';
import type { Time } from '../../duration/time.ts';
import type { Person, Scenario, Step } from '../schema.ts';

/** The scenario with one step changed; the same where it has no such step. */
export function withStep(scenario: Scenario, id: string, change: (step: Step) => Step): Scenario {
  const step = scenario.steps[id];
  return step === undefined ? scenario : { ...scenario, steps: { ...scenario.steps, [id]: change(step) } };
}

/** Every time of a step, products' own and repeat visits in. */
export function withTimes(scenario: Scenario, id: string, change: (time: Time) => Time): Scenario {
  const moved = withStep(scenario, id, (step) => ({
    ...step,
    time: change(step.time),
    ...(step.repeatTime === undefined ? {} : { repeatTime: change(step.repeatTime) }),
  }));
  if (scenario.products === undefined) return moved;
  const products = Object.entries(scenario.products).map(([product, one]) => {
    const time = one.times?.[id];
    return [
      product,
      time === undefined ? one : { ...one, times: { ...one.times, [id]: change(time) } },
    ] as const;
  });
  return { ...moved, products: Object.fromEntries(products) };
}

/**
 * A share of what leaves a step, per cent, times a factor, but only as far as the step's other shares leave
 * room.
 */
function upTo({ rework = [], scrap = DEFAULTS.step.scrap }: Step, percent: number, factor: number): number {
  const all = rework.reduce((sum, branch) => sum + branch.percent, scrap);
  return Math.min(percent * factor, percent + (99 - Math.min(99, all)));
}

/** So many times as many sent back on one of a step's ways back, as far as there is room. */
export const withRework = (scenario: Scenario, id: string, at: number, factor: number): Scenario =>
  withStep(scenario, id, (step) => ({
    ...step,
    rework: step.rework?.map((branch, i) =>
      i === at ? { ...branch, percent: upTo(step, branch.percent, factor) } : branch,
    ),
  }));

/** So many times as many scrapped at a step, as far as there is room. */
export const withScrap = (scenario: Scenario, id: string, factor: number): Scenario =>
  withStep(scenario, id, (step) => ({
    ...step,
    scrap: upTo(step, step.scrap ?? DEFAULTS.step.scrap, factor),
  }));

/** Everybody's absence changed, per cent. */
export const withAbsence = (scenario: Scenario, change: (absence: number) => number): Scenario => ({
  ...scenario,
  people: Object.fromEntries(
    Object.entries(scenario.people).map(([id, person]): [string, Person] => {
      const { percent = DEFAULTS.person.attendance } = person.attendance ?? {};
      return [id, { ...person, attendance: { ...person.attendance, percent: 100 - change(100 - percent) } }];
    }),
  ),
});

/** Everything coming so many minutes later. */
export function comingLater(scenario: Scenario, minutes: number): Scenario {
  const intake = intakeOf(scenario);
  return { ...scenario, intake: { ...intake, late: (intake.late ?? DEFAULTS.intake.late) + minutes } };
}

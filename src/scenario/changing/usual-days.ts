/** The file's day, or its shifts in a row, over and over: days as they usually come. */
import { DEFAULTS } from '../defaults.ts';
import type { Scenario } from '../schema.ts';

/** Shifts at the start that bring the cell to where it usually stands, and those that count, at least. */
const WARM_UP = 2;
const COUNTED = 3;

export interface UsualDays {
  /** The file with as many shifts following each other as are run. */
  scenario: Scenario;
  /** So many shifts of the first do not count. */
  warmUp: number;
  /** So many shifts after those count. */
  counted: number;
}

/**
 * What stands over goes on to the next day, parts come each day as the file says; tonight's stock is only how
 * the first day begins. Holds are of the day they are written for. Days are days at work: there is no weekend
 * in between.
 */
export function usualDays(scenario: Scenario): UsualDays {
  const following = scenario.nextShifts ?? [];
  const daysOf = (next: (typeof following)[number]): number => next.days ?? DEFAULTS.nextShift.days;
  const shifts = following.length + 1;
  const apart = 1 + Math.max(0, ...following.map(daysOf));
  const [before, after] = [Math.ceil(WARM_UP / shifts), Math.ceil(COUNTED / shifts)];
  const nextShifts = Array.from({ length: before + after }, (_, cycle) => [
    ...(cycle === 0 ? [] : [{ name: `day ${cycle * apart + 1}`, days: cycle * apart }]),
    ...following.map((next) => ({ ...next, days: cycle * apart + daysOf(next) })),
  ]).flat();
  return { scenario: { ...scenario, nextShifts }, warmUp: before * shifts, counted: after * shifts };
}

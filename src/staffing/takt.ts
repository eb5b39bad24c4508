/** The floor under a crew: takt and work content, before skills, sharing and variation. */

/**
 * Minutes between finished units that meet the demand: `minutes` at hand (breaks and the like off) over
 * `demand` units of the same period. Infinity where nothing is due.
 */
export function takt(minutes: number, demand: number): number {
  return demand === 0 ? Infinity : minutes / demand;
}

export interface WorkStep {
  /** Mean hands minutes of a visit, allowance in. */
  minutes: number;
  /** Hands at once. */
  people: number;
  /** Mean visits a good unit takes, rework and scrap in (1: neither). */
  visits: number;
}

/** Hands minutes in one good unit. Waits have none and are left out by the caller. */
export function workContent(steps: WorkStep[]): number {
  return steps.reduce((sum, step) => sum + step.minutes * step.people * step.visits, 0);
}

/**
 * The fewest people whose minutes cover the work: work content over takt, rounded up (to within one part in a
 * thousand million).
 */
export function crewFloor(content: number, taktMinutes: number): number {
  return Math.ceil((content / taktMinutes) * (1 - 1e-9));
}

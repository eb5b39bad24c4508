/**
 * Hand-arm vibration of a plan, in the exposure points of the Health and Safety Executive's ready-reckoner: 2
 * a^2 t, with the vibration of the tool a in m/s2 and the trigger time t in hours; points of several tools
 * add up. 100 points are the daily exposure action value (2.5 m/s2 over eight hours), 400 the limit value (5
 * m/s2) of directive 2002/44/EC and of the UK's Control of Vibration at Work Regulations 2005. Noise is not
 * reckoned here, and dust is a caution in words only.
 */
import type { ResolvedLimits } from '../scenario/resolve.ts';

export const ACTION_POINTS = 100;
const LIMIT_POINTS = 400;

export type ExposureLevel = 'under the action value' | 'at or over the action value' | 'over the limit value';

export interface Exposure {
  points: number;
  level: ExposureLevel;
  /** By step, the largest first; steps without vibration are left out. */
  steps: { step: string; triggerMinutes: number; points: number }[];
}

/** Points of `minutes` of trigger time at `vibration` m/s2. */
export function vibrationPoints(vibration: number, minutes: number): number {
  return (2 * vibration * vibration * minutes) / 60;
}

/** Minutes of trigger time that make so many points; Infinity for a tool that does not vibrate. */
export function triggerMinutesTo(points: number, vibration: number): number {
  return vibration === 0 ? Infinity : (points * 60) / (2 * vibration * vibration);
}

/**
 * A person's exposure in a day, from their minutes at each step. The limits say for what share of these
 * minutes the trigger is held. Reaching a value exactly counts as under the limit and over the
 * action, as the regulations have it: action is due *at* the action value, the limit must not be *exceeded*.
 */
export function exposureOf(
  minutesAtStep: Record<string, number>,
  limits: Pick<ResolvedLimits, 'vibration'>,
): Exposure {
  const steps = Object.entries(limits.vibration)
    .map(([step, { level, trigger }]) => {
      const triggerMinutes = (minutesAtStep[step] ?? 0) * trigger;
      return { step, triggerMinutes, points: vibrationPoints(level, triggerMinutes) };
    })
    .filter((one) => one.points > 0)
    .sort((a, b) => b.points - a.points);
  const points = steps.reduce((sum, one) => sum + one.points, 0);
  return { points, level: levelOf(points), steps };
}

/** Where so many points stand between the action and the limit value. */
export function levelOf(points: number): ExposureLevel {
  if (points > LIMIT_POINTS) return 'over the limit value';
  return points >= ACTION_POINTS ? 'at or over the action value' : 'under the action value';
}

/** Whether a plan with these points may be offered under the file's limits. */
export function mayOffer(points: number, limits: Pick<ResolvedLimits, 'vibrationPoints'>): boolean {
  return points <= limits.vibrationPoints;
}

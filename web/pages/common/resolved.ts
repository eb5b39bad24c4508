/**
 * The resolved forms of a scenario, worked out once for each: pages ask for them at every drawing, and a
 * scenario of the store is never changed, only replaced.
 */
import {
  resolve,
  resolvePlant,
  type ResolvedPlant,
  type ResolvedShift,
} from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';

const shifts = new WeakMap<Scenario, ResolvedShift>();
const plants = new WeakMap<Scenario, ResolvedPlant>();

/** The file's own shift. */
export function shiftOf(scenario: Scenario): ResolvedShift {
  const known = shifts.get(scenario) ?? resolve(scenario);
  shifts.set(scenario, known);
  return known;
}

/** What holds for all its shifts: money, limits, study, options by name. */
export function plantOf(scenario: Scenario): ResolvedPlant {
  const known = plants.get(scenario) ?? resolvePlant(scenario);
  plants.set(scenario, known);
  return known;
}

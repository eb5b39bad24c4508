/** From a scenario and the names of its options to what a study asks. */
import { applyOption, shiftsOf } from '../scenario/options.ts';
import { nameOf, resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { STOPPING, type StoppingSettings } from './stopping.ts';
import type { StudyCase, StudyRequest } from './study.ts';

export const BASE = 'base';

/** The scenario as it is, as a case. */
export function baseCase(scenario: Scenario, name = 'As it is'): StudyCase {
  return { id: BASE, name, shifts: shiftsOf(scenario) };
}

/** One of its options, as a case. Throws RangeError for a name it does not have. */
export function optionCase(scenario: Scenario, option: string): StudyCase {
  return {
    id: option,
    name: nameOf(resolvePlant(scenario).options, option),
    shifts: shiftsOf(applyOption(scenario, option)),
  };
}

export function settingsOf(scenario: Scenario): StoppingSettings {
  const { precision, confidence, most } = resolvePlant(scenario).study;
  return { ...STOPPING, precision, confidence, most };
}

export const differenceThatMatters = (scenario: Scenario): number => resolvePlant(scenario).study.difference;
export const promiseShare = (scenario: Scenario): number => resolvePlant(scenario).study.promise;

/** The base and the options (all of the file's where none are named), each option against the base. */
export function comparison(
  scenario: Scenario,
  options: string[] = resolvePlant(scenario).options.map(({ id }) => id),
): StudyRequest {
  const cases = [baseCase(scenario), ...options.map((option) => optionCase(scenario, option))];
  return {
    cases,
    pairs: options.map((_, i) => ({ before: 0, after: i + 1 })),
    settings: settingsOf(scenario),
  };
}

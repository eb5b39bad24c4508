/** What file-defaults.mjs must find, and what it must let pass; never run. */
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

export const found = (scenario: Scenario): unknown[] => {
  const { seed = 'other' } = scenario;
  return [
    seed,
    scenario.shift?.start ?? '07:00',
    scenario.products?.['leaf']?.factors?.['sand'] ?? 1,
    scenario.money?.currency || '€',
  ];
};

export const passed = (scenario: Scenario): unknown[] => {
  const { lastStart } = resolve(scenario).steps[0]!;
  return [lastStart ?? 0, new Map<string, number>().get(scenario.name) ?? 0];
};

/** The changes of an option in words of the trade. */
import type { Scenario } from './schema.ts';

/** One short phrase a change. */
export function describeChanges(_base: Scenario, changes: Record<string, unknown>): string[] {
  return Object.keys(changes);
}

/** A change to a file that the shifts that follow take part in. */
import { mergePatch } from '../merge-patch.ts';
import type { Scenario } from '../schema.ts';

export type Change = Record<string, unknown>;

/**
 * Applies a change to the file's shift, and to the changes of each shift that follows what `later` makes of
 * them.
 */
export function changedThroughout(
  scenario: Scenario,
  change: Change,
  later: (changes: Change) => Change,
): Scenario {
  const { options: _options, ...base } = scenario;
  const nextShifts = scenario.nextShifts?.map((next) => {
    const more = later(next.changes ?? {});
    return Object.keys(more).length === 0 ? next : { ...next, changes: overlaid(next.changes ?? {}, more) };
  });
  return mergePatch(base, { ...change, ...(nextShifts === undefined ? {} : { nextShifts }) }) as Scenario;
}

/** One patch on top of another; a null stays what it is, as it still has something to take away. */
function overlaid(patch: Change, more: Change): Change {
  const isGroup = (value: unknown): value is Change =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  const entries = Object.entries(more).map(
    ([key, value]) =>
      [key, isGroup(value) && isGroup(patch[key]) ? overlaid(patch[key], value) : value] as const,
  );
  return { ...patch, ...Object.fromEntries(entries) };
}

/** The number at a place of a change; undefined where it does not touch it. */
export function numberAt(changes: Change, path: string[]): number | undefined {
  const value = path.reduce<unknown>(
    (at, key) => (typeof at === 'object' && at !== null ? (at as Change)[key] : undefined),
    changes,
  );
  return typeof value === 'number' ? value : undefined;
}

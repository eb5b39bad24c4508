/** Options and following shifts: changes to one base, worked out when asked for. */
import { minutesOfClock } from './clock.ts';
import { mergePatch } from './merge-patch.ts';
import { nearest } from './reading/fault.ts';
import { DEFAULTS } from './defaults.ts';
import { resolve, type ResolvedShift } from './resolve.ts';
import type { Scenario } from './schema.ts';

export { diffPatch, mergePatch } from './merge-patch.ts';
export { describeChanges } from './describe-changes.ts';

/**
 * The scenario with one of its options applied and all options left out. The scenario must have been checked:
 * then the result is valid too.
 * @throws RangeError where the scenario has no such option; the message offers the nearest.
 */
export function applyOption(scenario: Scenario, optionId: string): Scenario {
  const options = scenario.options ?? {};
  if (!Object.hasOwn(options, optionId)) {
    const ids = Object.keys(options);
    const near = nearest(optionId, ids);
    throw new RangeError(
      `There is no option "${optionId}" in this file; it has ${ids.join(', ') || 'none'}.${near === null ? '' : ` Did you mean "${near}"?`}`,
    );
  }
  return applyChanges(scenario, options[optionId]!.changes);
}

/**
 * The scenario with changes (a merge patch) applied and all options left out. Valid only if the check says
 * so.
 */
export function applyChanges(scenario: Scenario, changes: Record<string, unknown>): Scenario {
  const { options: _options, ...base } = scenario;
  const { options: _changed, ...patch } = changes;
  return mergePatch(base, patch) as Scenario;
}

/**
 * The scenario of a shift that follows, 0 being the first after the file's own: what comes over from the
 * shift before is the run's to say, and holds belong to the shift they are written in.
 */
export function followingScenario(scenario: Scenario, index: number): Scenario {
  const { options: _options, nextShifts, carryOver: _carried, holds: _holds, ...base } = scenario;
  return mergePatch(base, nextShifts?.[index]?.changes ?? {}) as Scenario;
}

/** Minutes from the start of the file's first shift to the start of a following one. */
export function startsAfter(scenario: Scenario, index: number): number {
  const start = (one: Scenario): number => minutesOfClock(one.shift?.start ?? DEFAULTS.shift.start);
  return (
    (scenario.nextShifts?.[index]?.days ?? DEFAULTS.nextShift.days) * 1440 +
    start(followingScenario(scenario, index)) -
    start(scenario)
  );
}

/**
 * The file's shift and those that follow it, in order, defaults filled in. A following shift has no
 * carry-over of its own (the run hands it what was left), and its own seed, so that its units do not have the
 * luck of the first shift's.
 */
export function shiftsOf(scenario: Scenario): ResolvedShift[] {
  const following = (scenario.nextShifts ?? []).map((next, i): ResolvedShift => {
    const shift = resolve(followingScenario(scenario, i), startsAfter(scenario, i));
    const seed = `${shift.seed}, shift ${i + 2}`;
    return { ...shift, seed, name: next.name ?? `${scenario.name}, shift ${i + 2}` };
  });
  return [resolve(scenario), ...following];
}

/** The times of the last days put into the file where they have surely moved, and what that changes. */
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { settingsOf } from '../study/from-scenario.ts';
import { runStudy } from '../study/study.ts';
import { summarize, type StudySummary } from '../study/summary.ts';
import { applyFits } from './apply-fits.ts';
import type { Drift } from './drift.ts';
import type { TimePlace } from './groups.ts';
import type { Observation } from './observation.ts';
import { studyTimes } from './study-times.ts';

export interface NewTimes {
  /** The file with the new times in it, each with where it came from. */
  scenario: Scenario;
  /** Mean base minutes of the file, and of the new time. */
  places: (TimePlace & { before: number; after: number })[];
}

export const hasMoved = ({ verdict }: Drift): boolean => verdict === 'slower' || verdict === 'quicker';

/** @param recent times read off records of days: the allowance is in them. Null where none has moved. */
export function newTimes(scenario: Scenario, recent: readonly Observation[]): NewTimes | null {
  const { places } = studyTimes(scenario, recent, { withAllowance: true });
  const moved = places.filter(({ drift, fit }) => hasMoved(drift) && fit.chosen !== null);
  if (moved.length === 0) return null;
  return {
    scenario: applyFits(
      scenario,
      moved.map(({ fit }) => fit),
      moved.map(({ doubts }) => doubts),
    ),
    places: moved.map(({ fit: { step, product, repeat, chosen }, drift }) => ({
      step,
      product,
      repeat,
      before: drift.model,
      after: chosen!.mean,
    })),
  };
}

/** One shift with the file's times and with the new ones, on the same luck. Throws as `runStudy`. */
export async function studyNewTimes(
  scenario: Scenario,
  { scenario: changed }: NewTimes,
  runner: Runner,
  signal?: AbortSignal,
  count?: number,
): Promise<StudySummary> {
  const state = await runStudy(
    {
      cases: [
        { id: 'file', name: 'With the times of the file', shifts: [resolve(scenario)] },
        { id: 'new', name: 'With the new times', shifts: [resolve(changed)] },
      ],
      pairs: [{ before: 0, after: 1 }],
      settings: settingsOf(scenario),
      ...(count === undefined ? {} : { count }),
    },
    runner,
    undefined,
    signal,
  );
  return summarize(state);
}

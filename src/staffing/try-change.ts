/** A sheet changed by hand against the planner's, on the same shifts. */
import { checkScenario, type Fault } from '../scenario/check.ts';
import { applyChanges } from '../scenario/options.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Runner } from '../record/job.ts';
import { ROWS_KEPT } from '../study/case-record.ts';
import { settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import type { Asked } from '../study/one-more.ts';
import { runStudy, type StudyState } from '../study/study.ts';
import { summarize, type StudySummary } from '../study/summary.ts';
import { exposuresOf, type ExposureOf } from './accounts.ts';
import type { CrewPlan } from './plan-crew.ts';
import { openDay, type CrewQuestion } from './question.ts';
import { brokenRules, type BrokenRule } from './rules.ts';
import { sheetOf, type CrewSheet } from './sheet.ts';

export type TriedChange =
  /** The changed sheet cannot be run. */
  | { kind: 'wrong'; faults: Fault[] }
  | {
      kind: 'tried';
      /** Good units, cost and overtime minutes a shift: the changed sheet's less the planner's. */
      good: Interval;
      cost: Interval;
      overtime: Interval;
      /** Chance of the target: planner's, changed; null without a target. */
      chances: [Interval, Interval] | null;
      /** Hard rules the change breaks: such a sheet is shown, and never offered. */
      broken: BrokenRule[];
      /** Exposure with the change. */
      exposure: ExposureOf[];
      sheet: CrewSheet;
      /** Cases `plan` and `changed`. */
      study: StudySummary;
    };

/**
 * Tries a change to a plan. @param change a merge patch on the plan's scenario, for example `{ people: {
 * ines: { covers: ['clean', 'sand'] } } }`. @param question the one the plan answers, for its rules and
 * limits. Runs until the difference in good units is known to the precision of the file, or exactly
 * `asked.count` shifts.
 */
export async function tryChange(
  question: CrewQuestion,
  plan: Pick<CrewPlan, 'scenario'>,
  change: Record<string, unknown>,
  runner: Runner,
  asked: Asked = {},
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<TriedChange> {
  const changed = applyChanges(plan.scenario, change);
  const reading = checkScenario(changed);
  if (reading.kind === 'wrong') return { kind: 'wrong', faults: reading.faults };
  const day = openDay(question);
  const cases = [
    { id: 'plan', name: 'The plan', shifts: [resolve(plan.scenario)] },
    { id: 'changed', name: 'With your change', shifts: [resolve(reading.scenario)] },
  ];
  const state = await runStudy(
    {
      cases,
      pairs: [{ before: 0, after: 1 }],
      settings: { ...settingsOf(plan.scenario), ...asked.settings },
      ...(asked.count === undefined ? {} : { count: asked.count }),
    },
    runner,
    onLook,
    signal,
  );
  const study = summarize(state);
  const [before, after] = [study.cases[0]!.target, study.cases[1]!.target];
  const record = state.records[1]!;
  const rows = {
    rows: record.kept[0]!,
    count: Math.min(record.count, ROWS_KEPT),
    layout: record.layouts[0]!,
  };
  return {
    kind: 'tried',
    ...study.pairs[0]!,
    chances: before === null || after === null ? null : [before.chance, after.chance],
    broken: brokenRules(day, reading.scenario),
    exposure: exposuresOf(rows, resolve(reading.scenario), day.limits),
    sheet: sheetOf(day, reading.scenario),
    study,
  };
}

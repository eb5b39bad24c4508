/**
 * What choices bring on usual days in a row: each on the same luck as things as they are, stock carried over
 * from day to day, the first days cut. Purchases and policies are priced on this; tomorrow, with tonight's
 * stock, is another question.
 */
import { scalarAt } from '../record/report.ts';
import type { Runner } from '../record/job.ts';
import { usualDays } from '../scenario/changing/usual-days.ts';
import { shiftsOf } from '../scenario/options.ts';
import type { Scenario } from '../scenario/schema.ts';
import { momentsOf, type CaseRecord } from './case-record.ts';
import { BASE, baseCase, settingsOf } from './from-scenario.ts';
import type { Asked } from './one-more.ts';
import { runStudy, type StudyCase, type StudyRequest, type StudyState } from './study.ts';
import { summarize, type PairSummary, type StudySummary } from './summary.ts';

export interface UsualChoice {
  id: string;
  name: string;
  scenario: Scenario;
}

export interface OnUsualDays {
  study: Pick<StudySummary, 'kind' | 'count' | 'inputs' | 'confidence'>;
  /** Shifts cut at the start, and those that count. */
  warmUp: number;
  counted: number;
  /** As things are: units in the cell, or waiting for room in it, when what counts begins, and at its end. */
  begins: number;
  ends: number;
  /** As things are: good units of each shift that counts, on average. */
  byShift: number[];
  /** Over things as they are, a shift. */
  pairs: PairSummary[];
}

export function usualRequest(
  scenario: Scenario,
  choices: readonly UsualChoice[],
  asked: Asked = {},
): StudyRequest {
  const onUsualDays = (one: StudyCase, cell: Scenario): StudyCase => {
    const days = usualDays(cell);
    return { ...one, shifts: shiftsOf(days.scenario), warmUp: days.warmUp };
  };
  return {
    cases: [
      onUsualDays(baseCase(scenario), scenario),
      ...choices.map(({ id, name, scenario: changed }) => onUsualDays({ id, name, shifts: [] }, changed)),
    ],
    pairs: choices.map((_, i) => ({ before: 0, after: i + 1 })),
    settings: { ...settingsOf(scenario), ...asked.settings },
    ...(asked.count === undefined ? {} : { count: asked.count }),
  };
}

/** Null where there is nothing to price, or it was stopped before the end. */
export async function onUsualDays(
  scenario: Scenario,
  choices: readonly UsualChoice[],
  runner: Runner,
  asked: Asked = {},
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<OnUsualDays | null> {
  if (choices.length === 0 || signal?.aborted === true) return null;
  const state = await runStudy(usualRequest(scenario, choices, asked), runner, onLook, signal);
  return usualAnswer(state);
}

/** Null while it is not over. */
export function usualAnswer(state: StudyState): OnUsualDays | null {
  const study = summarize(state, false);
  if (study.kind !== 'final') return null;
  const record = state.records[0]!;
  const { layouts, skip } = record;
  const counted = layouts.length - skip;
  return {
    study: { kind: study.kind, count: study.count, inputs: study.inputs, confidence: study.confidence },
    warmUp: skip,
    counted,
    begins: stockAfter(record, skip - 1),
    ends: stockAfter(record, layouts.length - 1),
    byShift: layouts
      .slice(skip)
      .map((layout, i) => momentsOf(record, skip + i).mean[scalarAt(layout, 'good')]!),
    pairs: study.pairs,
  };
}

/** Units in the cell, or waiting for room in it, at the end of a shift. */
function stockAfter(record: CaseRecord, shift: number): number {
  const [{ mean }, layout] = [momentsOf(record, shift), record.layouts[shift]!];
  return mean[scalarAt(layout, 'inside')]! + mean[scalarAt(layout, 'outside')]!;
}

/** What a choice brings on usual days; undefined where it was not priced. */
export const usualPair = (usual: OnUsualDays | null, id: string): PairSummary | undefined =>
  usual?.pairs.find((pair) => pair.before === BASE && pair.after === id);

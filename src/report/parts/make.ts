/**
 * Runs what a brief needs: the question itself, the staircase of the cell it starts from, and every input
 * moved.
 */
import { cellIsFixed } from './fixed-times.ts';
import type { Runner } from '../../record/job.ts';
import { applyOption, shiftsOf } from '../../scenario/options.ts';
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { fluidCeiling } from '../../study/ceilings/fluid-ceiling.ts';
import { askOneMore } from '../../study/clamp-question.ts';
import { BASE, comparison, differenceThatMatters } from '../../study/from-scenario.ts';
import { moreGear } from '../../scenario/changing/more.ts';
import { extrasOf, oneMoreOfEach, type Asked, type OneMoreOfEach } from '../../study/one-more.ts';
import { inputsOf } from '../../study/sensitivity/inputs.ts';
import { runSensitivity, type Asking } from '../../study/sensitivity/sensitivity.ts';
import { runStaircase } from '../../study/staircase.ts';
import type { StoppingSettings } from '../../study/stopping.ts';
import { runStudy, type StudyState } from '../../study/study.ts';
import { summarize, type PairSummary, type StudySummary } from '../../study/summary.ts';
import { between } from './between.ts';
import type { BriefAnswer, BriefData, BriefQuestion } from './data.ts';

export type BriefStage = 'question' | 'then' | 'staircase' | 'inputs';

export interface BriefOptions {
  asked?: Asked;
  /** How sure the moved answers are to be, where not as by default (study/sensitivity). */
  moved?: Partial<StoppingSettings>;
  onStage?: (stage: BriefStage) => void;
  /** During the stages "question" and "then". */
  onLook?: (state: StudyState) => void;
  /**
   * Told of what stands before everything does: the answer, then the staircase with it; what is still to come
   * is null in it.
   */
  onPart?: (data: BriefData) => void;
  signal?: AbortSignal;
}

/** The staircase has seven cells to run; beyond so many shifts of each it says nothing more. */
const MOST_ON_STAIRS = 1000;

/**
 * Throws RangeError for gear or options the file does not have, RunawayError, and what the runner throws.
 * Aborted, it answers with what it has.
 */
export async function makeBrief(
  scenario: Scenario,
  question: BriefQuestion,
  runner: Runner,
  options: BriefOptions = {},
): Promise<BriefData> {
  const { onStage, onPart, signal } = options;
  onStage?.('question');
  const answer = await answerOf(scenario, question, runner, options);
  const cell = question.kind === 'crew' ? question.plan.scenario : scenario;
  const shows = answer.kind === 'one more' || answer.kind === 'limits';
  const standing = { question, answer, staircase: null, sensitivity: null, reach: reachOf(cell) };
  onPart?.(standing);
  if (shows) onStage?.('staircase');
  const staircase = shows ? await stairsOf(cell, studyOf(answer).count, runner, signal) : null;
  if (staircase !== null) onPart?.({ ...standing, staircase });
  onStage?.('inputs');
  const asking = askingOf(scenario, answer);
  const sensitivity =
    asking === null
      ? null
      : await runSensitivity(asking, inputsOf(cell), runner, options.moved, undefined, signal);
  return { ...standing, staircase, sensitivity };
}

/**
 * As many shifts as the answer rests on, so that the last tread is the answer's own mean; null where that
 * many were not run.
 */
async function stairsOf(
  cell: Scenario,
  shifts: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<BriefData['staircase']> {
  const [shift, ...following] = shiftsOf(cell);
  const count = Math.min(MOST_ON_STAIRS, shifts);
  if (following.length > 0 || count < 2) return null;
  const stairs = await runStaircase(shift!, { first: count, most: count, precision: 1e9 }, runner, signal);
  return stairs === null || stairs.count < count || !Number.isFinite(stairs.spreadsheet)
    ? null
    : without(stairs, 'summary');
}

function reachOf(cell: Scenario): BriefData['reach'] {
  const [shift, ...following] = shiftsOf(cell);
  const ceiling = following.length > 0 ? NaN : fluidCeiling(shift!).good;
  return Number.isFinite(ceiling) ? { ceiling, alwaysSame: cellIsFixed(shift!) } : null;
}

function without<T extends object, K extends keyof T>(whole: T, key: K): Omit<T, K> {
  const { [key]: _left, ...rest } = whole;
  return rest;
}

async function answerOf(
  scenario: Scenario,
  question: BriefQuestion,
  runner: Runner,
  options: BriefOptions,
): Promise<BriefAnswer> {
  const { asked = {}, onStage, onLook, signal } = options;
  switch (question.kind) {
    case 'one more': {
      const one = await askOneMore(
        scenario,
        question.gear,
        runner,
        asked,
        (state, stage) => {
          if (stage === 'each') onStage?.('then');
          onLook?.(state);
        },
        signal,
      );
      return { kind: 'one more', one };
    }
    case 'limits':
      return { kind: 'limits', each: await oneMoreOfEach(scenario, runner, asked, onLook, signal) };
    case 'crew':
      return { kind: 'crew', plan: question.plan };
    case 'options':
      return optionsAnswer(scenario, question.ids, runner, options);
  }
}

async function optionsAnswer(
  scenario: Scenario,
  ids: string[],
  runner: Runner,
  { asked = {}, onStage, onLook, signal }: BriefOptions,
): Promise<BriefAnswer> {
  if (ids.length === 0) throw new RangeError('A brief on options needs at least one.');
  const request = comparison(scenario, ids);
  const study = summarize(
    await runStudy(
      {
        ...request,
        pairs: [...request.pairs, ...everyTwo(ids.length)],
        settings: { ...request.settings, ...asked.settings },
        ...(asked.count === undefined ? {} : { count: asked.count }),
      },
      runner,
      onLook,
      signal,
    ),
  );
  const leading = leadingOf(scenario, ids, study.pairs);
  const withLeading = between(study.pairs, BASE, leading).low >= differenceThatMatters(scenario);
  onStage?.('then');
  const then =
    study.kind === 'final'
      ? await oneMoreOfEach(
          withLeading ? applyOption(scenario, leading) : scenario,
          runner,
          asked,
          onLook,
          signal,
        )
      : null;
  return { kind: 'options', study, leading, then, withLeading };
}

/**
 * Options are told apart on their own differences while there are few; more would cost every range too much
 * of its width.
 */
const FEW = 4;
const everyTwo = (count: number): { before: number; after: number }[] =>
  count > FEW
    ? []
    : Array.from({ length: count }, (_, i) =>
        Array.from({ length: count - i - 1 }, (__, j) => ({ before: i + 1, after: i + j + 2 })),
      ).flat();

/**
 * The option that gains most; or the cheapest of those that surely come within what matters of it, where both
 * prices are known and it gains what matters itself.
 */
export function leadingOf(scenario: Scenario, ids: string[], pairs: PairSummary[]): string {
  const best = ids.reduce((most, id) =>
    between(pairs, BASE, id).estimate > between(pairs, BASE, most).estimate ? id : most,
  );
  const matters = differenceThatMatters(scenario);
  const { options } = resolvePlant(scenario);
  const priceOf = (id: string): number => options.find((one) => one.id === id)?.price ?? NaN;
  const alike = ids.filter(
    (id) =>
      priceOf(id) < priceOf(best) &&
      between(pairs, BASE, id).low >= matters &&
      between(pairs, id, best).high < matters,
  );
  return alike.reduce((cheapest, id) => (priceOf(id) < priceOf(cheapest) ? id : cheapest), best);
}

/** The study the answer rests on. */
export function studyOf(answer: Exclude<BriefAnswer, { kind: 'crew' }>): StudySummary {
  switch (answer.kind) {
    case 'one more':
      return answer.one.study;
    case 'options':
      return answer.study;
    case 'limits':
      return answer.each.study;
  }
}

/** What is asked again with each input moved; null while there is no answer. */
function askingOf(scenario: Scenario, answer: BriefAnswer): Asking | null {
  if (answer.kind === 'crew') return { kind: 'makes', after: answer.plan.scenario };
  if (studyOf(answer).kind !== 'final') return null;
  switch (answer.kind) {
    case 'one more':
      return { kind: 'gain', before: scenario, after: moreGear(scenario, answer.one.gear.id, 1) };
    case 'options':
      return { kind: 'gain', before: scenario, after: applyOption(scenario, answer.leading) };
    case 'limits':
      return bestExtra(scenario, answer.each);
  }
}

function bestExtra(scenario: Scenario, { rows }: OneMoreOfEach): Asking | null {
  const extra = extrasOf(scenario).find(({ id }) => id === rows[0]?.id);
  return extra === undefined ? null : { kind: 'gain', before: scenario, after: extra.scenario };
}

/**
 * Runs what a brief needs: the question itself, the staircase of the cell it starts from, and every input
 * moved.
 */
import type { ReasonSums } from '../../record/why/sums.ts';
import { cellIsFixed } from './fixed-times.ts';
import type { Runner } from '../../record/job.ts';
import { applyOption, shiftsOf } from '../../scenario/options.ts';
import { resolve, resolvePlant, type ResolvedShift } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { stoodOf } from '../../study/by-reason.ts';
import { fluidCeiling } from '../../study/ceilings/fluid-ceiling.ts';
import { askOneMore, isPriced } from '../../study/clamp-question.ts';
import { onUsualDays, type OnUsualDays, type UsualChoice } from '../../study/usual-days.ts';
import { BASE, comparison, differenceThatMatters } from '../../study/from-scenario.ts';
import { moreGear } from '../../scenario/changing/more.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import { leadingOf } from '../../study/leading.ts';
import { goodBetween } from '../../study/ranges.ts';
import { fixesOf } from '../../study/fixes.ts';
import { ledgerOf } from '../../study/ledger.ts';
import { extrasOf, oneMoreOfEach, type Asked, type OneMoreOfEach } from '../../study/one-more.ts';
import { REASON_SHIFTS, sumReasons } from '../../study/reasons.ts';
import { inputsOf } from '../../study/sensitivity/inputs.ts';
import { runSensitivity, type Asking } from '../../study/sensitivity/sensitivity.ts';
import { runStaircase, STAIR_SHIFTS } from '../../study/staircase.ts';
import type { StoppingSettings } from '../../study/stopping.ts';
import { runStudy, type StudyState } from '../../study/study.ts';
import { summarize, type PairSummary, type StudySummary } from '../../study/summary.ts';
import { between } from './between.ts';
import type { BriefAnswer, BriefData, BriefQuestion } from './data.ts';
import { SPOKEN_OF } from './first-then.ts';

export type BriefStage = 'question' | 'then' | 'usual' | 'staircase' | 'inputs' | 'ledger';

export interface BriefOptions {
  asked?: Asked;
  /** How sure the moved answers are to be, where not as by default (study/sensitivity). */
  moved?: Partial<StoppingSettings>;
  /** The same of what can be done first, where not as `asked`; false: nothing is said of it. */
  ledger?: Asked | false;
  onStage?: (stage: BriefStage) => void;
  /** During the stages that run a study of their own. */
  onLook?: (state: StudyState) => void;
  /**
   * Told of what stands before everything does: the answer, then the staircase with it, then the inputs; what
   * is still to come is null in it.
   */
  onPart?: (data: BriefData) => void;
  /** Adds up minutes by reason; left out: here and now. */
  sums?: SumsOf;
  signal?: AbortSignal;
}

type SumsOf = (shifts: ResolvedShift[], count: number, signal?: AbortSignal) => Promise<ReasonSums[]>;

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
  const standing = {
    question,
    answer,
    staircase: null,
    stood: null,
    sensitivity: null,
    ledger: null,
    reach: reachOf(cell),
  };
  onPart?.(standing);
  if (shows) onStage?.('staircase');
  const staircase = shows ? await stairsOf(cell, studyOf(answer).count, runner, signal) : null;
  const stood =
    answer.kind === 'crew' ? null : await stoodAt(cell, studyOf(answer).count, options.sums, signal);
  const why = { ...standing, staircase, stood };
  if (staircase !== null) onPart?.(why);
  onStage?.('inputs');
  const asking = askingOf(scenario, answer);
  const sensitivity =
    asking === null
      ? null
      : await runSensitivity(asking, inputsOf(cell), runner, options.moved, undefined, signal);
  if (options.ledger === false) return { ...why, sensitivity };
  onPart?.({ ...why, sensitivity });
  const ledger = await briefLedger(scenario, answer, runner, options);
  return { ...why, sensitivity, ledger };
}

/** What to do first, to buy then and to leave; a crew is a question of its own. */
async function briefLedger(
  scenario: Scenario,
  answer: BriefAnswer,
  runner: Runner,
  { asked, ledger, onStage, onLook, signal }: BriefOptions,
): Promise<BriefData['ledger']> {
  if (answer.kind === 'crew' || studyOf(answer).kind !== 'final') return null;
  onStage?.('ledger');
  const fixes = fixesOf(scenario).filter(({ group }) => SPOKEN_OF.has(group));
  return ledgerOf(scenario, runner, (ledger === false ? null : ledger) ?? asked, onLook, signal, fixes);
}

/**
 * As many shifts as the answer rests on, as far as that many are needed; null where they were not run.
 */
async function stairsOf(
  cell: Scenario,
  shifts: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<BriefData['staircase']> {
  const [shift, ...following] = shiftsOf(cell);
  const count = Math.min(STAIR_SHIFTS, shifts);
  if (following.length > 0 || count < 2) return null;
  const stairs = await runStaircase(shift!, { first: count, most: count, precision: 1e9 }, runner, signal);
  return stairs === null || stairs.count < count || !Number.isFinite(stairs.most)
    ? null
    : without(stairs, 'summary');
}

/** Of the first shifts that the answer rests on; null where none was run, or it was stopped. */
async function stoodAt(
  cell: Scenario,
  count: number,
  sums: SumsOf = (shifts, most) => Promise.resolve(sumReasons(shifts, most)),
  signal?: AbortSignal,
): Promise<BriefData['stood']> {
  const stopped = (): boolean => signal?.aborted === true;
  if (count < 1 || stopped()) return null;
  const shifts = shiftsOf(cell);
  try {
    return stoodOf(shifts, await sums(shifts, Math.min(REASON_SHIFTS, count), signal));
  } catch (error) {
    if (stopped()) return null;
    throw error;
  }
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
          if (stage !== 'more') onStage?.(stage === 'each' ? 'then' : 'usual');
          onLook?.(state);
        },
        signal,
      );
      return { kind: 'one more', one };
    }
    case 'limits':
      return limitsAnswer(scenario, runner, options);
    case 'crew':
      return { kind: 'crew', plan: question.plan };
    case 'options':
      return optionsAnswer(scenario, question.ids, runner, options);
  }
}

async function limitsAnswer(scenario: Scenario, runner: Runner, options: BriefOptions): Promise<BriefAnswer> {
  const { asked = {}, onLook, signal } = options;
  const each = await oneMoreOfEach(scenario, runner, asked, onLook, signal);
  const best = extrasOf(scenario).find(({ id }) => id === each.rows[0]?.id);
  const priced = best?.price === null || best === undefined || each.study.kind !== 'final' ? [] : [best];
  return { kind: 'limits', each, usual: await usualOf(scenario, priced, runner, options) };
}

/** What choices with a price bring on usual days. */
function usualOf(
  scenario: Scenario,
  choices: readonly UsualChoice[],
  runner: Runner,
  { asked = {}, onStage, onLook, signal }: BriefOptions,
): Promise<OnUsualDays | null> {
  if (!isPriced(scenario)) return Promise.resolve(null);
  onStage?.('usual');
  return onUsualDays(scenario, choices, runner, asked, onLook, signal);
}

async function optionsAnswer(
  scenario: Scenario,
  ids: string[],
  runner: Runner,
  options: BriefOptions,
): Promise<BriefAnswer> {
  const { asked = {}, onStage, onLook, signal } = options;
  if (ids.length === 0) throw new RangeError('A brief on options needs at least one.');
  const request = comparison(scenario, ids);
  const state = await runStudy(
    {
      ...request,
      settings: { ...request.settings, ...asked.settings },
      ...(asked.count === undefined ? {} : { count: asked.count }),
    },
    runner,
    onLook,
    signal,
  );
  const study = summarize(state);
  const { leading, over } = leadOf(scenario, ids, state, study.pairs);
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
  const { name, price } = resolvePlant(scenario).options.find(({ id }) => id === leading)!;
  const priced =
    price === null || study.kind !== 'final'
      ? []
      : [{ id: leading, name, scenario: applyOption(scenario, leading) }];
  const usual = await usualOf(scenario, priced, runner, options);
  return { kind: 'options', study, leading, over, then, withLeading, usual };
}

/** Whether there is more of anything than before: it has a price, even where the file does not say which. */
const buys = (before: Scenario, after: Scenario): boolean => {
  const had = new Map(resolve(before).gear.map(({ id, count }) => [id, count]));
  return resolve(after).gear.some(({ id, count }) => count > (had.get(id) ?? 0));
};

/** The choice to go for, and what it makes above each of the others on the same luck, all together. */
export function leadOf(
  scenario: Scenario,
  ids: readonly string[],
  state: StudyState,
  pairs: readonly PairSummary[],
): { leading: string; over: { id: string; good: Interval }[] } {
  const caseOf = (id: string): number => ids.indexOf(id) + 1;
  const over = (id: string, other: string): Interval =>
    goodBetween(state, caseOf(other), caseOf(id), ids.length - 1);
  const pairOf = (id: string): PairSummary => pairs.find((one) => one.before === BASE && one.after === id)!;
  const { options, money } = resolvePlant(scenario);
  const leading = leadingOf(
    ids.map((id) => {
      const { price } = options.find((one) => one.id === id)!;
      const paid = price ?? (buys(scenario, applyOption(scenario, id)) ? null : 0);
      return {
        id,
        outlay: paid === null ? null : paid + pairOf(id).cost.estimate * money.shiftsPerYear,
      };
    }),
    (id) => pairOf(id).good,
    over,
    differenceThatMatters(scenario),
  );
  return {
    leading,
    over: ids.filter((id) => id !== leading).map((id) => ({ id, good: over(leading, id) })),
  };
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

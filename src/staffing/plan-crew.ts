/**
 * The answer to a crew question: the sheet, what it makes and costs, what it leans on, how it was found and
 * how sure that is.
 */
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { layoutWith } from '../record/layout.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { oneMoreOfEach, type OneMoreOfEach } from '../study/one-more.ts';
import { chanceReaching } from '../study/ranges.ts';
import type { StudyState } from '../study/study.ts';
import { summarize, type StudySummary } from '../study/summary.ts';
import { absencesOf, type Absence } from './absences.ts';
import {
  exposuresOf,
  overtimeOf,
  type ExposureOf,
  type OvertimeOf,
  type Rows,
  ACCOUNT_LISTS,
} from './accounts.ts';
import { RACE_CHOICE, type Contest, type RaceChoice } from './contest.ts';
import { withDraft } from './draft.ts';
import {
  filedPosts,
  patchTo,
  rowOf,
  runnerUp,
  settle,
  type FiledPosts,
  type PlanRow,
  type RunnerUp,
} from './plan-rows.ts';
import { leansOn, type Lean } from './leans-on.ts';
import { movesOf, type CrewMove } from './moves.ts';
import { openDay, type CrewQuestion, type Day, type DayObjective, type Vary } from './question.ts';
import { findDrafts, SEARCH, type Found, type SearchSettings } from './search.ts';
import { sheetOf, type CrewSheet } from './sheet.ts';
import { openTrials } from './trials.ts';
import { whatWouldDo, type WouldDo } from './would-do.ts';

export interface CrewSettings {
  search: SearchSettings;
  race: RaceChoice;
  /** Shifts of the plan, the runner-up and the file's posts that the figures are taken from. */
  report: number;
  /** Shifts of the plan with each of its moves left out; 0 leaves these out. */
  moves: number;
  /** Shifts of each "one more" and of each absence; 0 leaves these out. */
  oneMore: number;
  absence: number;
}

export const CREW: CrewSettings = {
  search: SEARCH,
  race: RACE_CHOICE,
  report: 1000,
  moves: 200,
  oneMore: 200,
  absence: 150,
};

export type Stage = 'search' | 'race' | 'figures' | 'one more of each' | 'absences';
/** `done`: shifts run in all so far; `of`: about how many there will be. */
export type OnProgress = (progress: { stage: Stage; done: number; of: number }) => void;

export interface SearchAccount {
  /** All the plans there are were raced, or the finalists of a search. */
  kind: 'all' | 'searched';
  vary: Vary;
  tried: number;
  rounds: number;
  raced: number;
  /** Struck out: over an exposure limit (in the search and in the race), by the ceiling. */
  overLimit: number;
  byCeiling: number;
  /** Struck out: surely makes fewer good units than the file's posts. */
  byFewer: number;
  shifts: { search: number; race: number; equal: number };
  guarantee: number;
  zone: number;
  matters: number;
  change: number;
  /** Some answer was forced by the cap on shifts: no guarantee. */
  capped: boolean;
  economy: 'cost' | 'overtime minutes';
}

export interface CrewPlan {
  cell: string;
  seed: string;
  /**
   * Makes the target; promises less; promises nothing of what was asked about; breaks a limit whatever is
   * tried.
   */
  kind: 'makes' | 'promises' | 'nothing' | 'over the limit';
  target: number | null;
  confidence: number;
  /**
   * The most that can be promised at the confidence, as the race found it: the target itself where it can.
   */
  promise: number | null;
  /** Chance of the target, and of the promise, in the shifts run for the report. */
  chance: Interval | null;
  promiseChance: Interval | null;
  /** The day with the plan in it, and the changes that make it from the scenario asked about. */
  scenario: Scenario;
  changes: Record<string, unknown>;
  /** Those of the plan alone, on the day with the file's posts. */
  planChanges: Record<string, unknown>;
  sheet: CrewSheet;
  /** Cases: `plan`, `runner-up` where there is one, `as-filed`; pairs against the plan. */
  study: StudySummary;
  objective: DayObjective;
  row: PlanRow;
  filed: FiledPosts;
  /** Who stands otherwise than in the file, and what each move does; null where it was not asked for. */
  moves: CrewMove[] | null;
  overtime: OvertimeOf[];
  exposure: ExposureOf[];
  constraint: OneMoreOfEach | null;
  leansOn: Lean[];
  runnerUp: RunnerUp | null;
  absences: Absence[] | null;
  wouldDo: WouldDo[] | null;
  search: SearchAccount;
}

/**
 * Plans the crew. The answer depends on the question and the settings alone, not on who runs the shifts.
 * Throws RangeError for a question that cannot be asked; rejects with the signal's reason when it is aborted.
 */
export async function planCrew(
  question: CrewQuestion,
  runner: Runner,
  given: Partial<CrewSettings> = {},
  onProgress?: OnProgress,
  signal?: AbortSignal,
): Promise<CrewPlan> {
  const settings = { ...CREW, ...given };
  const day = openDay(question);
  const progress = progressOf(day, settings, onProgress);
  const trials = openTrials(day, runner, signal, progress.shifts);
  progress.stage('search');
  const found = await findDrafts(trials, settings.search);
  const searched = trials.spent;
  const { raced, draft, second, state } = await settle(trials, found, settings, runner, progress, signal);
  const { result } = raced;
  const study = summarize(state);
  const plan = withDraft(day, draft);
  const sheet = sheetOf(day, plan);
  const rows = await rowsOf(plan, runner, settings.report, signal);
  const moves =
    settings.moves === 0 ? null : await movesOf(trials, draft, result.level ?? day.target, settings.moves);
  progress.stage('one more of each');
  const constraint =
    settings.oneMore === 0
      ? null
      : await oneMoreOfEach(plan, runner, { count: settings.oneMore }, progress.look, signal);
  const kind =
    result.chosen !== null
      ? day.target !== null && result.level! >= day.target
        ? 'makes'
        : 'promises'
      : raced.drafts.length === 0
        ? 'over the limit'
        : 'nothing';
  const short = kind !== 'makes' && day.target !== null && settings.oneMore > 0;
  const wouldDo =
    short && constraint !== null
      ? await whatWouldDo(day, draft, constraint, runner, settings.oneMore, signal)
      : null;
  progress.stage('absences');
  const absences =
    settings.absence === 0
      ? null
      : await absencesOf(day, draft, runner, settings.absence, signal, progress.shifts);
  signal?.throwIfAborted();
  return {
    cell: day.scenario.name,
    seed: study.seed,
    kind,
    target: day.target,
    confidence: day.confidence,
    promise: result.level,
    chance: day.target === null ? null : chanceReaching(state, 0, day.target),
    promiseChance: result.level === null ? null : chanceReaching(state, 0, result.level),
    scenario: plan,
    changes: patchTo(question.scenario, plan),
    planChanges: patchTo(day.scenario, plan),
    sheet,
    study,
    objective: day.objective,
    row: rowOf(day, state, study, 0, result.level),
    filed: await filedPosts(day, draft, trials, state, study, result.level),
    moves,
    overtime: overtimeOf(rows, resolve(plan), study.confidence),
    exposure: exposuresOf(rows, resolve(plan), day.limits),
    constraint,
    leansOn: leansOn(day, plan, sheet, study.cases[0]!),
    runnerUp: second === null ? null : runnerUp(day, question.scenario, second, state, study, raced),
    absences,
    wouldDo,
    search: accountOf(day, found, raced, searched, settings, trials.economy),
  };
}

/** Shifts run so far and about how many in all; stages are told as they begin. */
function progressOf(
  day: Day,
  settings: CrewSettings,
  onProgress?: OnProgress,
): { stage(stage: Stage): void; shifts(spent: number): void; look(state: StudyState): void } {
  const people = day.present.length;
  const extras = 2 * people + day.shift.gear.length + 1;
  const of =
    settings.search.shifts * 2 +
    settings.report * 4 +
    settings.moves * (people + 1) +
    extras * settings.oneMore +
    people * 6 * settings.absence;
  let [now, before, here]: [Stage, number, number] = ['search', 0, 0];
  const tell = (): void => onProgress?.({ stage: now, done: before + here, of: Math.max(of, before + here) });
  return {
    stage: (stage) => {
      // The race goes on with the count of the search.
      if (stage !== 'race') [before, here] = [before + here, 0];
      now = stage;
      tell();
    },
    shifts: (spent) => {
      here = spent;
      tell();
    },
    look: (state) => {
      here = state.look.done * state.request.cases.length;
      tell();
    },
  };
}

/** What everybody did in every shift of the report: a study keeps only the first of its rows. */
async function rowsOf(plan: Scenario, runner: Runner, count: number, signal?: AbortSignal): Promise<Rows> {
  const shift = resolve(plan);
  const { rows } = await runner.run({ shifts: [shift], from: 0, count, lists: ACCOUNT_LISTS }, signal);
  return { rows: rows[0]!, count, layout: layoutWith(shift, ACCOUNT_LISTS) };
}

function accountOf(
  day: Day,
  found: Found,
  raced: Contest,
  searched: number,
  settings: CrewSettings,
  economy: SearchAccount['economy'],
): SearchAccount {
  const { result } = raced;
  return {
    kind: found.kind,
    vary: day.vary,
    tried: found.tried,
    rounds: found.rounds,
    raced: raced.drafts.length,
    overLimit: found.overLimit + raced.byLimit,
    byCeiling: raced.byCeiling,
    byFewer: raced.byFewer,
    shifts: { search: searched, race: result.replications, equal: result.equalReplications },
    guarantee: settings.race.guarantee,
    zone: settings.race.zone,
    matters: raced.matters,
    change: raced.change,
    capped: result.capped,
    economy,
  };
}

/**
 * The plan, the runner-up and the file's own posts side by side: run on the same luck, which neither the
 * search nor the race has seen.
 */
import { diffPatch } from '../scenario/merge-patch.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import { settingsOf } from '../study/from-scenario.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { chanceReaching } from '../study/ranges.ts';
import { runStudy, type StudyState } from '../study/study.ts';
import { summarize, type StudySummary } from '../study/summary.ts';
import { contest, type Contest, type RaceChoice } from './contest.ts';
import { keyOf, withDraft, type Draft } from './draft.ts';
import { simpler } from './moves.ts';
import type { Day } from './question.ts';
import type { Found } from './search.ts';
import { sheetOf, type CrewSheet } from './sheet.ts';
import { asFiled } from './starts.ts';
import { LUCK, type Trials } from './trials.ts';

/** One of the plans side by side: as the report's shifts have it. */
export interface PlanRow {
  good: Interval;
  /** Chance of the target, and of what is promised; null where there is no such number. */
  chance: Interval | null;
  promiseChance: Interval | null;
  cost: Interval;
  /** Margin times wanted units less cost, a shift; null where the file has no margin or no pay. */
  worth: number | null;
}

/** The file's own posts, beside the plan. */
export interface FiledPosts extends PlanRow {
  sheet: CrewSheet;
  /** The plan is the file's posts. */
  isPlan: boolean;
  /** Share of shifts in which somebody goes over an exposure limit. */
  overLimit: number;
  /** Good units and cost of the plan less these, a shift, on the same luck. */
  gain: { good: Interval; cost: Interval };
}

export interface RunnerUp extends PlanRow {
  sheet: CrewSheet;
  changes: Record<string, unknown>;
  /** What it is behind in; or as good within what matters; or it makes the level too seldom. */
  lostBy: 'worth' | 'chance' | 'cost' | 'nothing that matters' | 'too seldom';
  /** Its good units and cost less the plan's, a shift. */
  more: { good: Interval; cost: Interval };
}

/** The race's answer and the report's shifts of it. */
export interface Settled {
  raced: Contest;
  draft: Draft;
  second: { draft: Draft; tooSeldom: boolean } | null;
  state: StudyState;
}

/** How often at most another plan is looked for where the report shows it to make fewer than the file. */
const LOOKS = 3;

/**
 * The race and the report of its plan. Where the report's own luck shows the plan to make surely fewer good
 * units than the file's posts, which the race had not seen, it is not offered either.
 */
export async function settle(
  trials: Trials,
  found: Found,
  settings: { race: RaceChoice; report: number },
  runner: Runner,
  progress: { stage(stage: 'race' | 'figures'): void; look(state: StudyState): void },
  signal?: AbortSignal,
): Promise<Settled> {
  const { day } = trials;
  const barred = new Set<string>();
  for (let looks = 0; ; looks++) {
    progress.stage('race');
    const raced = await simplified(trials, found, settings.race, barred);
    const { chosen } = raced.result;
    const draft = (chosen === null ? found.finalists[0] : raced.drafts[chosen]) ?? asFiled(day);
    const second = runnerUpOf(raced, draft);
    progress.stage('figures');
    const state = await reportOn(day, draft, second, settings.report, runner, progress.look, signal);
    const gain = summarize(state).pairs.at(-1)!.good;
    const fewer = chosen !== null && day.objective.by !== 'cost' && gain.low > 0;
    if (!fewer || looks === LOOKS) return { raced, draft, second, state };
    barred.add(keyOf(draft));
  }
}

/**
 * Of the plans that make the level the last to fall; where there is none, of the others the one that makes it
 * most often.
 */
function runnerUpOf({ result, drafts }: Contest, chosen: Draft): Settled['second'] {
  if (result.runnerUp !== null) return { draft: drafts[result.runnerUp]!, tooSeldom: false };
  const others = result.standings.filter(
    (standing) => drafts[standing.candidate] !== chosen && standing.lostBy === 'target',
  );
  if (others.length === 0 || result.level === null) return null;
  const best = others.reduce((a, b) => (b.chance > a.chance ? b : a));
  return { draft: drafts[best.candidate]!, tooSeldom: true };
}

async function reportOn(
  day: Day,
  draft: Draft,
  second: { draft: Draft } | null,
  count: number,
  runner: Runner,
  onLook: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<StudyState> {
  const named = [
    { id: 'plan', name: 'The plan', draft },
    ...(second === null ? [] : [{ id: 'runner-up', name: 'The runner-up', draft: second.draft }]),
    { id: 'as-filed', name: 'The file’s posts', draft: asFiled(day) },
  ];
  const cases = named.map(({ id, name, draft: one }) => ({
    id,
    name,
    shifts: [resolve(withDraft(day, one))],
  }));
  const pairs = cases.slice(1).map((_, at) => ({ before: 0, after: at + 1 }));
  const state = await runStudy(
    { cases, pairs, settings: settingsOf(day.scenario), count },
    runner,
    onLook,
    signal,
  );
  signal?.throwIfAborted();
  return state;
}

/** How often at most the plan chosen is raced against itself with a move left out. */
const SIMPLER = 3;

/**
 * The race, and again with the plan it chose less each of its moves in turn: a move that does nothing is not
 * asked of anybody.
 */
async function simplified(
  trials: Trials,
  found: Found,
  choice: RaceChoice,
  barred: ReadonlySet<string>,
): Promise<Contest> {
  const known = new Map(found.finalists.map((draft) => [keyOf(draft), draft]));
  for (let rounds = 0; ; rounds++) {
    const raced = await contest(trials, { ...found, finalists: [...known.values()] }, choice, barred);
    const { chosen } = raced.result;
    const fewer = chosen === null ? [] : simpler(trials.day, raced.drafts[chosen]!);
    const unknown = fewer.filter((draft) => !known.has(keyOf(draft)));
    if (found.kind === 'all' || unknown.length === 0 || rounds === SIMPLER) return raced;
    for (const draft of unknown) known.set(keyOf(draft), draft);
  }
}

/** The figures of one of the report's plans. */
export function rowOf(
  day: Day,
  state: StudyState,
  study: StudySummary,
  at: number,
  promise: number | null,
): PlanRow {
  const { good, cost, spread } = study.cases[at]!;
  const { by, margin, wanted } = day.objective;
  const sold = spread.counts.reduce((sum, { value, shifts }) => sum + Math.min(value, wanted) * shifts, 0);
  return {
    good,
    chance: day.target === null ? null : chanceReaching(state, at, day.target),
    promiseChance: promise === null ? null : chanceReaching(state, at, promise),
    cost,
    worth: by === 'output' || margin === 0 ? null : (margin * sold) / study.cases[at]!.count - cost.estimate,
  };
}

export async function filedPosts(
  day: Day,
  draft: Draft,
  trials: Trials,
  state: StudyState,
  study: StudySummary,
  promise: number | null,
): Promise<FiledPosts> {
  const file = asFiled(day);
  const at = study.cases.length - 1;
  const { good, cost } = study.pairs.at(-1)!;
  const seen = await trials.see(file, 0, LUCK.race);
  return {
    ...rowOf(day, state, study, at, promise),
    sheet: sheetOf(day, withDraft(day, file)),
    isPlan: keyOf(file) === keyOf(draft),
    overLimit: seen.good.length === 0 ? 0 : seen.overLimit / seen.good.length,
    gain: { good: negated(good), cost: negated(cost) },
  };
}

const negated = (interval: Interval): Interval => ({
  ...interval,
  estimate: -interval.estimate,
  low: -interval.high,
  high: -interval.low,
});

export function runnerUp(
  day: Day,
  asked: Scenario,
  second: NonNullable<Settled['second']>,
  state: StudyState,
  study: StudySummary,
  { result, drafts }: Contest,
): RunnerUp {
  const plan = withDraft(day, second.draft);
  const { good, cost } = study.pairs[0]!;
  const standing = result.standings[drafts.indexOf(second.draft)]!;
  const lostBy = standing.lostBy === 'target' || standing.lostBy === null ? 'too seldom' : standing.lostBy;
  return {
    ...rowOf(day, state, study, 1, result.level),
    sheet: sheetOf(day, plan),
    changes: patchTo(asked, plan),
    lostBy,
    more: { good, cost },
  };
}

/** The changes that make the plan of a file: options and following shifts are left as they are. */
export function patchTo(file: Scenario, plan: Scenario): Record<string, unknown> {
  const { options: _options, nextShifts: _next, ...base } = file;
  return diffPatch(base, plan) as Record<string, unknown>;
}

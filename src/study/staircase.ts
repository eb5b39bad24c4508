/**
 * From the most that crew and gear could make, nobody ever waiting, down to what the cell makes, one cause a
 * tread. What a cause takes depends on what else is put right; so each is tried in two orders, one the
 * reverse of the other, its tread is the mean of both, and the treads add up to the whole. Beside it stands
 * what the cause gives when it alone is put right in the cell as it is: a trial that anybody can repeat.
 */
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Runner } from '../record/job.ts';
import { spreadsheetNumber } from './ceilings/spreadsheet.ts';
import { around, type Interval } from './intervals/interval.ts';
import { caseOf, causesOf, mostOf, type Cause } from './loss-causes.ts';
import { goodBetween } from './ranges.ts';
import type { StoppingSettings } from './stopping.ts';
import { runStudy, type StudyCase, type StudyState } from './study.ts';
import { summarize, type StudySummary } from './summary.ts';

export type Loss = Cause | 'posts';

export interface StaircaseTread {
  /**
   * One cause; two that cancel each other by the order they are tried in; or several of which none is told
   * from nothing. `posts`: what is left when all are put right.
   */
  losses: Loss[];
  /** Good units after it and all treads before; and what it changes, under 0 where it takes some. */
  units: number;
  change: Interval;
  /**
   * Good units more with this alone put right in the cell as it is; null for `posts` and what is not
   * told from nothing.
   */
  alone: Interval | null;
  /** What the first order says less the mean of both. */
  byOrder: number;
}

export interface StaircaseResult {
  /** A spreadsheet's number, NaN where nothing limits, and the most that crew and gear could make. */
  spreadsheet: number;
  most: number;
  treads: StaircaseTread[];
  /** What the cell makes: the last tread. */
  units: Interval;
  count: number;
  summary: StudySummary;
}

/** It has some twenty cells to run; beyond so many shifts of each it says nothing more. */
export const STAIR_SHIFTS = 400;

/**
 * Runs the staircase of one shift. Throws and stops as `runStudy`; null where it was stopped before the first
 * look.
 */
export async function runStaircase(
  shift: ResolvedShift,
  settings: Partial<StoppingSettings>,
  runner: Runner,
  signal?: AbortSignal,
): Promise<StaircaseResult | null> {
  const causes = causesOf(shift);
  const { cases, at } = casesOf(shift, causes);
  const pairs = cases.slice(1).map((_, i) => ({ before: 0, after: i + 1 }));
  const state = await runStudy({ cases, pairs, settings }, runner, undefined, signal);
  if (state.stopping.done < 2) return null;
  const summary = summarize(state, false);
  const most = mostOf(shift);
  const units = summary.cases[0]!.good;
  const right = summary.cases[at(causes)]!.good;
  const posts: Change = {
    losses: ['posts'],
    change: around(right.estimate - most, right.half, right.count, right.confidence),
    alone: null,
    byOrder: 0,
  };
  const each = causes.map((cause, i): Change => {
    const steps = stepsOf(causes, i, at);
    const [one, other] = steps.map(([before, after]) => goodBetween(state, before, after).estimate);
    return {
      losses: [cause],
      change: takenIn(state, steps),
      alone: goodBetween(state, 0, at([cause])),
      byOrder: (other! - one!) / 2,
    };
  });
  const joined = await tried(shift, cancelled(each), { settings, runner, signal });
  const treads = levelled(most, [posts, ...folded(joined)]);
  return { spreadsheet: spreadsheetNumber(shift).units, most, treads, units, count: summary.count, summary };
}

type Change = Omit<StaircaseTread, 'units'>;
interface Running {
  settings: Partial<StoppingSettings>;
  runner: Runner;
  signal: AbortSignal | undefined;
}
type At = (causes: readonly Cause[]) => number;
type Step = readonly [before: number, after: number];

/** As it is first; then the causes put right one after another in both orders, and each alone. */
function casesOf(shift: ResolvedShift, causes: readonly Cause[]): { cases: StudyCase[]; at: At } {
  const keyOf = (some: readonly Cause[]): string =>
    some.length === 0 ? 'as it is' : causes.filter((cause) => some.includes(cause)).join(', ');
  const sets = [
    [],
    ...causes.map((_, i) => causes.slice(0, i + 1)),
    ...causes.map((_, i) => causes.slice(i)),
    ...causes.map((cause) => [cause]),
  ];
  const keys = [...new Set(sets.map(keyOf))];
  const cases = keys.map((key) =>
    caseOf(
      shift,
      sets.find((some) => keyOf(some) === key)!,
      key,
    ),
  );
  return { cases, at: (some) => keys.indexOf(keyOf(some)) };
}

/** Where a cause is put right in each of the two orders. */
const stepsOf = (causes: readonly Cause[], i: number, at: At): [Step, Step] => [
  [at(causes.slice(0, i)), at(causes.slice(0, i + 1))],
  [at(causes.slice(i + 1)), at(causes.slice(i))],
];

/**
 * What is lost when steps are not taken, the mean of both orders. The mean of two is known at least as well
 * as they are on average, however they hang together.
 */
function takenIn(state: StudyState, [one, other]: readonly [Step, Step]): Interval {
  const [first, second] = [one, other].map(([before, after]) => goodBetween(state, before, after));
  const half = (first!.half + second!.half) / 2;
  return around(-(first!.estimate + second!.estimate) / 2, half, first!.count, first!.confidence);
}

const surely = ({ change }: Change): boolean => change.low > 0 || change.high < 0;

/** A cause that gives something by the order alone, and the one that takes it then, are one. */
function cancelled(each: readonly Change[]): Change[] {
  const up = each.find(
    (one) => surely(one) && one.change.estimate > 0 && Math.abs(one.byOrder) > one.change.estimate / 2,
  );
  if (up === undefined) return [...each];
  const [other] = each
    .filter((one) => one.change.estimate < 0)
    .sort((a, b) => Math.abs(a.byOrder + up.byOrder) - Math.abs(b.byOrder + up.byOrder));
  if (other === undefined) return [...each];
  return cancelled([...each.filter((one) => one !== up && one !== other), together([other, up])]);
}

function together(some: readonly Change[]): Change {
  const sum = (of: (one: Change) => number): number => some.reduce((all, one) => all + of(one), 0);
  const { count, confidence } = some[0]!.change;
  const half = Math.hypot(...some.map(({ change }) => change.half));
  return {
    losses: some.flatMap(({ losses }) => losses),
    change: around(
      sum(({ change }) => change.estimate),
      half,
      count,
      confidence,
    ),
    alone: null,
    byOrder: sum(({ byOrder }) => byOrder),
  };
}

/** Those that were made one are put right together in the cell as it is. */
async function tried(
  shift: ResolvedShift,
  changes: readonly Change[],
  { settings, runner, signal }: Running,
): Promise<Change[]> {
  const missing = changes.filter((one) => one.alone === null && surely(one));
  if (missing.length === 0) return [...changes];
  const cases = [
    caseOf(shift, [], 'as it is'),
    ...missing.map(({ losses }) => caseOf(shift, losses as Cause[], losses.join(', '))),
  ];
  const pairs = missing.map((_, i) => ({ before: 0, after: i + 1 }));
  const state = await runStudy({ cases, pairs, settings }, runner, undefined, signal);
  if (state.stopping.done < 2) return [...changes];
  return changes.map((one) =>
    missing.includes(one) ? { ...one, alone: goodBetween(state, 0, missing.indexOf(one) + 1) } : one,
  );
}

/** What is not told from nothing makes one tread; the most comes first, gains and the folded last. */
function folded(each: readonly Change[]): Change[] {
  const open = each.filter((one) => !surely(one));
  const firm = each.filter(surely).sort((a, b) => a.change.estimate - b.change.estimate);
  return open.length === 0 ? firm : [...firm, { ...together(open), alone: null }];
}

function levelled(most: number, changes: readonly Change[]): StaircaseTread[] {
  let units = most;
  return changes.map((one) => {
    units += one.change.estimate;
    return { ...one, units };
  });
}

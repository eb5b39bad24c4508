/** Drafts tried out: what the planner needs of each shift run, kept so that no shift is run twice. */
import { AWAY, ON_BREAK, personPresence, workingAt } from '../engine/states.ts';
import type { Job, Runner } from '../record/job.ts';
import { layoutWith } from '../record/layout.ts';
import type { ListName } from '../record/measures.ts';
import { scalarAt, type ReportLayout } from '../record/report.ts';
import { resolve, type ResolvedLimits, type ResolvedShift } from '../scenario/resolve.ts';
import { drawnInputs } from '../study/inputs/drawn.ts';
import { mayOffer, vibrationPoints } from './exposure.ts';
import { keyOf, withDraft, type Draft } from './draft.ts';
import type { Day } from './question.ts';

/** What so many shifts of a draft made, cost and kept people over for, one entry a shift. */
export interface Figures {
  good: number[];
  /** Labour cost; overtime minutes where the file has no pay. */
  cost: number[];
  /** When the target was met, minutes from the start; NaN where it was not. */
  met: number[];
  /** Shifts in which somebody went over the exposure limit. */
  overLimit: number;
  /**
   * By how much of a limit people are over nine tenths of theirs, all shifts together: tells drafts apart
   * that come near.
   */
  excess: number;
}

/**
 * A plan keeps an exposure limit if it does in 99 shifts in 100. A single shift over proves nothing; the
 * second does, in fewer than 200.
 */
const OVER_AT_MOST = 0.01;
export const breaksLimit = ({ good, overLimit }: Figures): boolean =>
  overLimit > Math.max(1, OVER_AT_MOST * good.length);

/**
 * Which luck: the search, the race and the report each have their own shifts, so that none is judged by those
 * it was picked by.
 */
export const LUCK = { race: 1_000_000, search: 2_000_000, aside: 3_000_000 };

export interface Trials {
  day: Day;
  /** Shifts run so far. */
  spent: number;
  /** The first `count` shifts of a draft on this luck; those already run are not run again. */
  see(draft: Draft, count: number, luck: number): Promise<Figures>;
  /** What was seen of the file's own posts on the search's luck; null before that. */
  filed: Figures | null;
  /** What plans are compared by. */
  economy: 'cost' | 'overtime minutes';
}

interface Known {
  shifts: ResolvedShift[];
  figures: Figures;
  before: Promise<void>;
}

export function openTrials(
  day: Day,
  runner: Runner,
  signal?: AbortSignal,
  onShifts?: (spent: number) => void,
): Trials {
  // A search runs thousands of drafts, and reads little of each.
  const lists: ListName[] =
    Object.keys(day.limits.vibration).length === 0 ? [] : ['personMinutes', 'personOvertime'];
  const layout = layoutWith(day.shift, lists);
  const economy = day.shift.people.some((person) => person.pay > 0) ? 'cost' : 'overtime minutes';
  const known = new Map<string, Known>();
  const open = (draft: Draft, luck: number): Known => {
    const key = `${luck} ${keyOf(draft)}`;
    const entry = known.get(key) ?? {
      shifts: [resolve(withDraft(day, draft))],
      figures: { good: [], cost: [], met: [], overLimit: 0, excess: 0 },
      before: Promise.resolve(),
    };
    known.set(key, entry);
    return entry;
  };
  const more = async ({ shifts, figures }: Known, count: number, luck: number): Promise<void> => {
    const done = figures.good.length;
    if (done >= count) return;
    const [from, left] = [luck + done, count - done];
    const varied = drawnInputs(shifts, from, left);
    const run = async (job: Job): Promise<Float64Array> => (await runner.run(job, signal)).rows[0]!;
    const plain: Job = { shifts, from, count: left, lists };
    const rows = await run(varied === undefined ? plain : { ...plain, varied });
    addRows(figures, rows, layout, economy);
    // Limits of exposure are kept by the times the file has: by all that those might be hardly any plan could
    // keep one, and no other crew would help.
    if (lists.length > 0)
      addExposures(figures, varied === undefined ? rows : await run(plain), layout, day.limits);
    trials.spent += count - done;
    onShifts?.(trials.spent);
  };
  const trials: Trials = {
    day,
    spent: 0,
    filed: null,
    economy,
    see: async (draft, count, luck) => {
      const entry = open(draft, luck);
      // One after another for one draft: asked twice at once, its shifts would be run and counted twice.
      entry.before = entry.before.then(() => more(entry, count, luck));
      await entry.before;
      return entry.figures;
    },
  };
  return trials;
}

function addRows(
  figures: Figures,
  rows: Float64Array,
  layout: ReportLayout,
  economy: Trials['economy'],
): void {
  const [good, met, cost] = [
    scalarAt(layout, 'good'),
    scalarAt(layout, 'targetAt'),
    scalarAt(layout, economy === 'cost' ? 'cost' : 'overtime'),
  ];
  for (let at = 0; at < rows.length; at += layout.size) {
    figures.good.push(rows[at + good]!);
    figures.cost.push(rows[at + cost]!);
    figures.met.push(rows[at + met]!);
  }
}

function addExposures(
  figures: Figures,
  rows: Float64Array,
  layout: ReportLayout,
  limits: ResolvedLimits,
): void {
  for (let at = 0; at < rows.length; at += layout.size) {
    const { over, excess } = exposureIn(rows, at, layout, limits);
    if (over) figures.overLimit += 1;
    figures.excess += excess;
  }
}

const NEAR = 0.9;

/**
 * Whether anybody is over a limit in a shift, and by how much of it people are over nine tenths of theirs.
 */
function exposureIn(
  rows: Float64Array,
  at: number,
  layout: ReportLayout,
  limits: ResolvedLimits,
): { over: boolean; excess: number } {
  let [over, excess] = [false, 0];
  const most = limits.vibrationPoints;
  for (let person = 0; person < layout.people.length; person++) {
    const points = pointsOf(rows, at, layout, limits, person);
    over ||= !mayOffer(points, limits);
    excess += Math.max(0, points / most - NEAR);
  }
  return { over, excess };
}

/**
 * Exposure points of a person in one shift: `exposureOf` (exposure.ts) without its account by step, which
 * thousands of shifts can do without.
 */
export function pointsOf(
  rows: ArrayLike<number>,
  at: number,
  layout: ReportLayout,
  limits: ResolvedLimits,
  person: number,
): number {
  const place = at + person * layout.personStates;
  let points = 0;
  for (const step in limits.vibration) {
    const state = place + workingAt(layout.gear.length, layout.steps.indexOf(step));
    const minutes = rows[layout.at.personMinutes + state]! + rows[layout.at.personOvertime + state]!;
    const { level, trigger } = limits.vibration[step]!;
    points += vibrationPoints(level, minutes * trigger);
  }
  return points;
}

/**
 * Minutes at work, before and after a person's own end, breaks and other lines off; and minutes on breaks and
 * on other lines.
 */
export function workMinutes(
  rows: ArrayLike<number>,
  at: number,
  layout: ReportLayout,
  person: number,
): { within: number; after: number; breaks: number; away: number } {
  const place = at + person * layout.personStates;
  const own = (state: number): number => rows[layout.at.personMinutes + place + state]!;
  const late = (state: number): number => rows[layout.at.personOvertime + place + state]!;
  let [within, after] = [0, 0];
  for (let state = 0; state < layout.personStates; state++) {
    const presence = personPresence(state);
    if (presence === 'gone') continue;
    if (presence === 'here') within += own(state);
    after += late(state);
  }
  return { within, after, breaks: own(ON_BREAK), away: own(AWAY) };
}

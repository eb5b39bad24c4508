/**
 * A study: several cases (a cell and named changes to it) on the same replications, until what is being
 * decided is known to the precision asked for. What comes out depends on the cases, the seed and the settings
 * alone, never on who ran which job.
 */
import type { Job, JobResult, Runner } from '../record/job.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { addCaseRows, createCaseRecord, perShiftRow, shiftsCounted, type CaseRecord } from './case-record.ts';
import { GoodsTogether } from './goods-together.ts';
import {
  createStopping,
  lookAt,
  stillCounts,
  STOPPING,
  tellRow,
  type Look,
  type Stopping,
  type StoppingSettings,
} from './stopping.ts';
import { runInputStudy, type InputStudy } from './inputs/input-study.ts';
import { addDifferences, createMoments, type Moments } from './intervals/moments.ts';
import { SCALARS } from '../record/report.ts';

export interface StudyCase {
  id: string;
  name: string;
  shifts: ResolvedShift[];
  /** So many shifts at the start load the cell and do not count. Default: none. */
  warmUp?: number;
}

export interface StudyRequest {
  cases: StudyCase[];
  /** Indices of cases: what `after` gains over `before` is decided on. Empty: the mean of every case. */
  pairs: { before: number; after: number }[];
  settings: Partial<StoppingSettings>;
  /** Run exactly so many instead of to a precision. */
  count?: number;
}

export interface StudyState {
  request: StudyRequest;
  records: CaseRecord[];
  goods: GoodsTogether;
  stopping: Stopping;
  /** By pair: moments of the differences of all scalars, a shift where they add up. */
  differences: Moments[];
  /** What is not known of the inputs; null until it was run, and where everything is known. */
  inputs: InputStudy | null;
  look: Look;
  /** Stopped before it was done. */
  partial: boolean;
}

/** Replications of the first, quick look; later blocks grow to this many a case. */
const FIRST_BLOCK = 10;
const LARGEST_BLOCK = 100;
/** Blocks asked for at a time: while one is told, the runner is at the next. */
const UNDER_WAY = 2;

/**
 * Runs a study. `onLook` is told after every block. Aborted, it ends with what it has, marked partial.
 * Throws RunawayError, and what the runner throws.
 */
export async function runStudy(
  request: StudyRequest,
  runner: Runner,
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
): Promise<StudyState> {
  const state = openStudy(request);
  const blocks = blocksOf(state, runner, signal);
  let inputsAsked = false;
  while (!state.look.enough) {
    const { count, results } = blocks.next();
    const parts = await results;
    if (parts === null) {
      state.partial = true;
      break;
    }
    blocks.begin();
    tellBlock(state, parts, count);
    if (!inputsAsked && state.stopping.variances !== null) {
      inputsAsked = true;
      const { first } = state.stopping.settings;
      state.inputs = await runInputStudy(request.cases, state.records, first, runner, signal);
      if (signal?.aborted === true) {
        state.partial = true;
        break;
      }
    }
    onLook?.(state);
  }
  return state;
}

interface Block {
  count: number;
  results: Promise<JobResult[][] | null>;
}

/**
 * The blocks of a study in order, begun ahead of being asked for, but never more replications than are known
 * to be needed.
 */
function blocksOf(state: StudyState, runner: Runner, signal?: AbortSignal): { begin(): void; next(): Block } {
  const ahead: Block[] = [];
  let from = 0;
  let size = FIRST_BLOCK;
  const begin = (): void => {
    while (ahead.length < UNDER_WAY && from < state.stopping.needed) {
      const count = Math.min(size, state.stopping.needed - from);
      const results = runBlock(state, runner, from, count, signal);
      // A block that fails is heard of when its turn comes, if it does.
      results.catch(() => {});
      ahead.push({ count, results });
      from += count;
      size = Math.min(LARGEST_BLOCK, size * 2);
    }
  };
  return {
    begin,
    next: () => {
      begin();
      return ahead.shift()!;
    },
  };
}

export function openStudy(request: StudyRequest): StudyState {
  const columns = request.pairs.length || request.cases.length;
  const settings =
    request.count === undefined
      ? request.settings
      : { ...request.settings, first: request.count, most: request.count, precision: 1e9 };
  const records = request.cases.map((one) => createCaseRecord(one.shifts, one.warmUp));
  const stopping = createStopping(columns, {
    ...settings,
    grain: grainOf(records, settings.grain),
    together: request.pairs.length === 0 ? 'all' : GAINS_TOGETHER,
  });
  return {
    request,
    records,
    // To a precision, each gain stops at a count of its own; at a fixed one all of them count.
    goods: new GoodsTogether(records.map(shiftsCounted), request.count === undefined),
    stopping,
    differences: request.pairs.map(() => createMoments(SCALARS.length)),
    inputs: null,
    look: lookAt(stopping),
    partial: false,
  };
}

/**
 * A gain holds together with one more figure: the gain of the next one, which the verdict is drawn from, or
 * the wages, which the payback is reckoned with. So it is the same range whichever other choices were asked
 * about at the same time; what is named among many is decided on differences that hold all together.
 */
export const GAINS_TOGETHER = 2;

/** Whole units over so many shifts are parts of a unit a shift; the coarsest of the cases' steps. */
function grainOf(records: CaseRecord[], ofDay = STOPPING.grain): number {
  return ofDay / Math.min(...records.map(shiftsCounted));
}

/** One result list a case, in order; null where it was aborted. */
async function runBlock(
  state: StudyState,
  runner: Runner,
  from: number,
  count: number,
  signal?: AbortSignal,
): Promise<JobResult[][] | null> {
  // A case in one piece where there are cases enough to keep the runner busy: each job is told to somebody
  // and heard of.
  const share = Math.max(5, Math.ceil(count / Math.ceil(runner.width / state.request.cases.length)));
  try {
    return await Promise.all(
      state.request.cases.map(({ shifts }) => {
        const jobs: Job[] = [];
        for (let at = from; at < from + count; at += share)
          jobs.push({ shifts, from: at, count: Math.min(share, from + count - at) });
        return Promise.all(jobs.map((job) => runner.run(job, signal)));
      }),
    );
  } catch (error) {
    if (signal?.aborted === true) return null;
    throw error;
  }
}

/** Tells the rows of a block in the order of their replications. */
function tellBlock(state: StudyState, results: JobResult[][], count: number): void {
  const { request, records, stopping, differences } = state;
  const days = results.map((parts, index) => addCaseRows(records[index]!, parts));
  state.goods.add(
    days.map(({ goods }) => goods),
    count,
  );
  const shifts = records.map(shiftsCounted);
  const good = (index: number, i: number): number => days[index]!.goods[i]! / shifts[index]!;
  const row = new Float64Array(stopping.moments.size);
  const [one, other] = [new Float64Array(SCALARS.length), new Float64Array(SCALARS.length)];
  for (let i = 0; i < count; i++) {
    if (request.pairs.length === 0) records.forEach((_, index) => (row[index] = good(index, i)));
    request.pairs.forEach(({ before, after }, pair) => {
      if (!stillCounts(stopping, pair)) return;
      row[pair] = good(after, i) - good(before, i);
      const at = i * SCALARS.length;
      perShiftRow(days[before]!.scalars, at, shifts[before]!, one);
      perShiftRow(days[after]!.scalars, at, shifts[after]!, other);
      addDifferences(differences[pair]!, one, 0, other, 0);
    });
    tellRow(stopping, row);
  }
  state.look = lookAt(stopping);
}

/**
 * A stretch of replications to be run, wherever: in line, on a thread, in a browser's worker. The same
 * numbers come back.
 */
import { compile } from '../engine/compile.ts';
import { CellRun } from '../engine/run.ts';
import type { InputPlace } from '../scenario/inputs.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { DayTally } from './row.ts';

/** Replications `from` to `from + count - 1` of a day: its shifts in order. */
export interface Job {
  shifts: ResolvedShift[];
  from: number;
  count: number;
  /** Inputs that are other ones in every replication; default: all as the file has them. */
  varied?: VariedInputs;
}

/** `factors` is [replications x places]: so many times the mean of a time, the odds of a share. */
export interface VariedInputs {
  places: InputPlace[];
  factors: Float64Array;
}

/** A stretch of a job: `count` replications from its `at`-th on. */
export function partOfJob({ shifts, from, varied }: Job, at: number, count: number): Job {
  if (varied === undefined) return { shifts, from: from + at, count };
  const { places, factors } = varied;
  const part = factors.subarray(at * places.length, (at + count) * places.length);
  return { shifts, from: from + at, count, varied: { places, factors: part } };
}

/** `rows[shift]` holds `count` rows of that shift's layout, one after another. */
export interface JobResult {
  from: number;
  count: number;
  rows: Float64Array[];
}

/** Runs jobs. A job that fails rejects; one whose signal is aborted rejects with the signal's reason. */
export interface Runner {
  /** Jobs under way at once that make sense. */
  readonly width: number;
  run(job: Job, signal?: AbortSignal): Promise<JobResult>;
  close(): Promise<void>;
}

interface Prepared {
  run: CellRun;
  day: DayTally;
}

const MOST_PREPARED = 40;
const prepared = new Map<string, Prepared>();
/** The same by identity: a job cut into slices is not spelt out again for each of them. */
const seen = new WeakMap<ResolvedShift[], Prepared>();

function prepare(shifts: ResolvedShift[]): Prepared {
  const known = seen.get(shifts);
  if (known !== undefined) return known;
  const made = prepareSpelt(shifts);
  seen.set(shifts, made);
  return made;
}

function prepareSpelt(shifts: ResolvedShift[]): Prepared {
  const key = JSON.stringify(shifts);
  const known = prepared.get(key);
  if (known !== undefined) {
    // Back to the end: the one at the front is the one asked for longest ago.
    prepared.delete(key);
    prepared.set(key, known);
    return known;
  }
  const cells = shifts.map(compile);
  const made = { run: new CellRun(cells), day: new DayTally(cells) };
  if (prepared.size >= MOST_PREPARED) prepared.delete(prepared.keys().next().value!);
  prepared.set(key, made);
  return made;
}

/**
 * Runs a job here and now; `after` hears of each replication how many are done. Throws RunawayError for a
 * shift that never gets on.
 */
export function runJob(job: Job, after?: (done: number) => void): JobResult {
  const { run, day } = prepare(job.shifts);
  const rows = day.tallies.map(({ layout }) => new Float64Array(job.count * layout.size));
  const { varied } = job;
  const vary = varied === undefined ? null : run.vary(varied.places);
  try {
    for (let i = 0; i < job.count; i++) {
      if (varied !== undefined) vary!(varied.factors, i * varied.places.length);
      day.run(run, job.from + i);
      day.write(rows, i);
      after?.(i + 1);
    }
  } finally {
    // The next job may be of the same cell as the file has it.
    if (varied !== undefined) vary!(new Float64Array(varied.places.length).fill(1), 0);
  }
  return { from: job.from, count: job.count, rows };
}

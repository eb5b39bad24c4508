/**
 * A stretch of replications to be run, wherever: in line, on a thread, in a browser's worker. The same
 * numbers come back.
 */
import { compile } from '../engine/compile.ts';
import { CellRun } from '../engine/run.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { InputPlace } from '../scenario/inputs.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { ListName } from './measures.ts';
import { DayTally } from './row.ts';

/** Replications `from` to `from + count - 1` of a day: its shifts in order. */
export interface Job {
  shifts: ResolvedShift[];
  from: number;
  count: number;
  /** Inputs that are other ones in every replication; default: all as the file has them. */
  varied?: VariedInputs;
  /** The lists of the measures that its rows have besides the single numbers; default: all. */
  lists?: readonly ListName[];
}

/** `factors` is [replications x places]: so many times the mean of a time, the odds of a share. */
export interface VariedInputs {
  places: InputPlace[];
  factors: Float64Array;
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
  cells: CompiledCell[];
  /** By the lists of their rows. */
  days: Map<string, DayTally>;
}

const MOST_PREPARED = 40;
const prepared = new Map<string, Prepared>();
/** The same by identity: who asks again with the same shifts need not have them spelt out again. */
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
  const made = { run: new CellRun(cells), cells, days: new Map<string, DayTally>() };
  if (prepared.size >= MOST_PREPARED) prepared.delete(prepared.keys().next().value!);
  prepared.set(key, made);
  return made;
}

function dayOf({ cells, days }: Prepared, lists: readonly ListName[] | undefined): DayTally {
  const key = lists === undefined ? 'all' : lists.join();
  const day = days.get(key) ?? new DayTally(cells, lists ?? null);
  days.set(key, day);
  return day;
}

/** A job that is run a few replications at a time, its rows in one piece. Others may run in between. */
export class RunningJob {
  readonly result: JobResult;
  private readonly job: Job;
  private readonly run: CellRun;
  private readonly day: DayTally;
  private done = 0;

  constructor(job: Job) {
    const made = prepare(job.shifts);
    this.job = job;
    this.run = made.run;
    this.day = dayOf(made, job.lists);
    const rows = this.day.tallies.map(({ layout }) => new Float64Array(job.count * layout.size));
    this.result = { from: job.from, count: job.count, rows };
  }

  get isDone(): boolean {
    return this.done >= this.job.count;
  }

  /** Runs up to `count` replications more. Throws RunawayError for a shift that never gets on. */
  go(count: number): void {
    const { varied } = this.job;
    const vary = varied === undefined ? null : this.run.vary(varied.places);
    const end = Math.min(this.job.count, this.done + count);
    try {
      for (; this.done < end; this.done++) {
        if (varied !== undefined) vary!(varied.factors, this.done * varied.places.length);
        this.day.run(this.run, this.job.from + this.done);
        this.day.write(this.result.rows, this.done);
      }
    } finally {
      // What runs next may be of the same cell as the file has it.
      if (varied !== undefined) vary!(new Float64Array(varied.places.length).fill(1), 0);
    }
  }
}

/** Runs a job here and now. Throws RunawayError for a shift that never gets on. */
export function runJob(job: Job): JobResult {
  const running = new RunningJob(job);
  running.go(job.count);
  return running.result;
}

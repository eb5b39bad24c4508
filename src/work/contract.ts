/** The one contract for running studies elsewhere: in line, on threads, in browser workers. Types only. */
import type { ResolvedShift } from '../scenario/resolve.ts';

/** Run replications `from` to `from + count - 1` of a day (its shifts in order). */
export interface Job {
  shifts: ResolvedShift[];
  from: number;
  count: number;
}

/** Rows of every shift: `rows[shift]` holds count x layout.size numbers. Same numbers wherever it ran. */
export interface JobResult {
  from: number;
  count: number;
  rows: Float64Array[];
}

/** Runs jobs; results come back in any order, each as asked. */
export interface Runner {
  /** Jobs under way at once that make sense. */
  width: number;
  run(job: Job, signal?: AbortSignal): Promise<JobResult>;
  close(): Promise<void>;
}

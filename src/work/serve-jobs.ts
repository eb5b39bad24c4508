/** The inside of a worker that runs jobs. */
import { RunningJob, type JobResult } from '../record/job.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { JobQuestion } from './jobs.ts';
import { serve, type Port } from './serve.ts';

/** Replications between two looks at the clock. */
const SLICE = 5;

/** Runs them in slices, so that it hears between two of them whether to stop. */
export function serveJobs(port: Port): void {
  const days = new Map<number, ResolvedShift[]>();
  serve<JobQuestion, JobResult>(port, {
    answer: async ({ day, shifts = days.get(day)!, from, count, varied, lists, forget }, { breathe }) => {
      days.set(day, shifts);
      if (forget !== undefined) days.delete(forget);
      const running = new RunningJob({
        shifts,
        from,
        count,
        ...(varied && { varied }),
        ...(lists && { lists }),
      });
      while (!running.isDone) {
        running.go(SLICE);
        const pause = breathe();
        if (pause !== null) await pause;
      }
      return running.result;
    },
    transfer: ({ rows }) => rows.map(({ buffer }) => buffer as ArrayBuffer),
  });
}

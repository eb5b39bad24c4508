/** Runs jobs in the thread that asks, one after another, letting others have a turn in between. */
import { runJob, type Job, type JobResult, type Runner } from '../record/job.ts';

export function inLineRunner(): Runner {
  return {
    width: 1,
    run: async (job: Job, signal?: AbortSignal): Promise<JobResult> => {
      await Promise.resolve();
      signal?.throwIfAborted();
      return runJob(job);
    },
    close: () => Promise.resolve(),
  };
}

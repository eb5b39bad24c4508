/** Which days a question is about, found by asking it of very few shifts. */
import type { Job, JobResult, Runner } from '../record/job.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { dayKey } from './about.ts';

export interface Collecting {
  runner: Runner;
  /** Each once, in the order they were first asked for. */
  days: Map<string, ResolvedShift[]>;
}

/** Notes every day that is run as the file has it; runs with other inputs are few, however many are asked. */
export function collecting(runner: Runner): Collecting {
  const days = new Map<string, ResolvedShift[]>();
  return {
    days,
    runner: {
      width: runner.width,
      run: (job: Job, signal?: AbortSignal): Promise<JobResult> => {
        if (job.varied === undefined) {
          const key = dayKey(job.shifts);
          if (!days.has(key)) days.set(key, job.shifts);
        }
        return runner.run(job, signal);
      },
      close: () => runner.close(),
    },
  };
}

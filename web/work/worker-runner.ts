/** Runs jobs on the page's workers. */
import type { JobResult, Runner } from '../../src/record/job.ts';
import { jobRunner, type JobQuestion } from '../../src/work/jobs.ts';
import { pool } from '../../src/work/pool.ts';
import { workers } from './worker.ts';

export interface WorkerSettings {
  /** Makes a worker that runs jobs (study-worker.ts). */
  make: () => Worker;
  /** Workers. Default: one a core, at most 8. */
  width?: number;
  /** A busy worker without a sign of life for so long is taken for hung, milliseconds. Default 20 s. */
  silence?: number;
  /** Told in words when a worker was lost and replaced. */
  lost?: (why: string) => void;
}

const TWENTY_SECONDS = 20_000;

export const usualWidth = (): number => Math.max(1, Math.min(8, navigator.hardwareConcurrency || 2));

export function workerRunner({
  make,
  width = usualWidth(),
  silence = TWENTY_SECONDS,
  lost = () => {},
}: WorkerSettings): Runner {
  const transport = workers<JobQuestion, JobResult, never>(make);
  return jobRunner(pool({ transport, width, silence, lost, early: true }), 'workers');
}

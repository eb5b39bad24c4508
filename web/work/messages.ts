/** What the page and its workers say to each other. Types only. */
import type { Job, JobResult } from '../../src/record/job.ts';

export type ToWorker = { kind: 'run'; id: number; job: Job } | { kind: 'stop'; id: number };

/** `beat`: still at it. `failed`: the job itself cannot be run (not: the worker died). */
export type FromWorker =
  | { kind: 'ready' }
  | { kind: 'beat'; id: number }
  | { kind: 'done'; id: number; result: JobResult }
  | { kind: 'stopped'; id: number }
  | { kind: 'failed'; id: number; error: Error };

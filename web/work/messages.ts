/** What the page and its workers say to each other. Types only. */
import type { JobResult } from '../../src/record/job.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';

/**
 * `run`: replications `from` on of the day with this number; its `shifts` come along the first time this
 * worker hears of it, and it keeps them until told to `forget`.
 */
export type ToWorker =
  | { kind: 'run'; id: number; day: number; shifts?: ResolvedShift[]; from: number; count: number }
  | { kind: 'forget'; day: number }
  | { kind: 'stop'; id: number };

/** `beat`: still at it. `failed`: the job itself cannot be run (not: the worker died). */
export type FromWorker =
  | { kind: 'ready' }
  | { kind: 'beat'; id: number }
  | { kind: 'done'; id: number; result: JobResult }
  | { kind: 'stopped'; id: number }
  | { kind: 'failed'; id: number; error: Error };

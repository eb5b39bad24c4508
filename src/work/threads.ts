/** The pool's workers as threads of node, and jobs run on them. */
import { Worker } from 'node:worker_threads';
import type { JobResult, Runner } from '../record/job.ts';
import { jobRunner, type JobQuestion } from './jobs.ts';
import type { FromWorker, Transport } from './messages.ts';
import { pool } from './pool.ts';

export interface ThreadSettings {
  /** Threads, 1 or more. */
  width: number;
  /** The built file of src/work/thread.ts. */
  entry: URL;
  /**
   * A busy thread without a sign of life for so long is taken for hung, milliseconds. Default two minutes.
   */
  silence?: number;
}

const TWO_MINUTES = 120_000;

/** @param entry the built file of a thread's inside. */
const threads =
  <Question, Answer, Stage>(entry: URL): Transport<Question, Answer, Stage> =>
  (hear, lost) => {
    const thread = new Worker(entry);
    thread.on('message', (message: FromWorker<Answer, Stage>) => hear(message));
    thread.on('messageerror', () => lost('said something that cannot be read'));
    thread.on('error', (error) => lost(`ended: ${error.message}`));
    thread.on('exit', (code) => lost(`ended with code ${code}`));
    return {
      send: (message) => thread.postMessage(message),
      end: async () => void (await thread.terminate()),
    };
  };

export function threadRunner({ width, entry, silence = TWO_MINUTES }: ThreadSettings): Runner {
  const transport = threads<JobQuestion, JobResult, never>(entry);
  return jobRunner(pool({ transport, width, silence }), 'threads');
}

/**
 * The inside of a thread: runs jobs, and beats after every few replications so that it is known to be alive.
 */
import { parentPort, workerData } from 'node:worker_threads';
import * as Comlink from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter';
import { runJob, type Job, type JobResult } from '../record/job.ts';

/** Replications between two beats. */
const SLICE = 5;

export interface ThreadData {
  /** One counter, shared with the thread that asks. */
  beats: SharedArrayBuffer;
}

const { beats } = workerData as ThreadData;
const counter = new Int32Array(beats);

const thread = {
  runJob(job: Job): JobResult {
    const result = runJob(job, (done) => {
      if (done % SLICE === 0) Atomics.add(counter, 0, 1);
    });
    return Comlink.transfer(
      result,
      result.rows.map((one) => one.buffer),
    );
  },
};

export type Thread = typeof thread;

if (parentPort === null) throw new Error('this file is the inside of a thread and does nothing on its own');
Comlink.expose(thread, nodeEndpoint(parentPort));

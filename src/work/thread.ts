/** The inside of a thread: runs jobs, and beats after every few replications so that it is known to be alive. */
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
    const parts: JobResult[] = [];
    for (let done = 0; done < job.count; done += SLICE) {
      parts.push(runJob({ shifts: job.shifts, from: job.from + done, count: Math.min(SLICE, job.count - done) }));
      Atomics.add(counter, 0, 1);
    }
    const rows = job.shifts.map((_, shift) => joined(parts.map((part) => part.rows[shift]!)));
    return Comlink.transfer({ from: job.from, count: job.count, rows }, rows.map((one) => one.buffer));
  },
};

function joined(parts: Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

export type Thread = typeof thread;

if (parentPort === null) throw new Error('this file is the inside of a thread and does nothing on its own');
Comlink.expose(thread, nodeEndpoint(parentPort));

/**
 * Runs jobs on threads of node. A thread that dies, or is silent for too long, is replaced and its job done
 * again; a job that ends threads time and again is given up. Aborting stops the work itself: waiting jobs are
 * dropped, busy threads ended.
 */
import { Worker } from 'node:worker_threads';
import * as Comlink from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter';
import type { Job, JobResult, Runner } from '../record/job.ts';
import type { Thread, ThreadData } from './thread.ts';

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

/** A job is tried on so many threads before it is given up. */
const MOST_TRIES = 3;
const TWO_MINUTES = 120_000;

interface Waiting {
  job: Job;
  tries: number;
  resolve: (result: JobResult) => void;
  reject: (reason: unknown) => void;
}

interface Seat {
  worker: Worker | null;
  remote: Comlink.Remote<Thread> | null;
  beats: Int32Array;
  task: Waiting | null;
  lastBeat: number;
  lastChange: number;
}

export function threadRunner({ width, entry, silence = TWO_MINUTES }: ThreadSettings): Runner {
  if (!Number.isInteger(width) || width < 1)
    throw new RangeError(`threads must be a whole number from 1, not ${width}`);
  const seats = Array.from({ length: width }, emptySeat);
  const waiting: Waiting[] = [];
  const watch = setInterval(() => seats.forEach(lookAfter), Math.max(20, Math.min(1000, silence / 4)));
  watch.unref();

  function lookAfter(seat: Seat): void {
    if (seat.task === null) return;
    const beat = Atomics.load(seat.beats, 0);
    if (beat !== seat.lastBeat) [seat.lastBeat, seat.lastChange] = [beat, Date.now()];
    else if (Date.now() - seat.lastChange > silence)
      failed(seat, `it gave no sign of life for ${Math.round(silence / 1000)} s`);
  }

  /** The seat's thread is of no more use: another will take its place, and its job. */
  function failed(seat: Seat, why: string): void {
    const { task } = seat;
    clear(seat);
    if (task !== null) {
      if (task.tries >= MOST_TRIES)
        task.reject(
          new Error(
            `replications from ${task.job.from} on could not be run: ${task.tries} threads in a row were lost with them; the last one: ${why}`,
          ),
        );
      else waiting.unshift(task);
    }
    next();
  }

  function next(): void {
    for (const seat of seats) {
      if (seat.task !== null) continue;
      const task = waiting.shift();
      if (task === undefined) return;
      begin(seat, task);
    }
  }

  function begin(seat: Seat, task: Waiting): void {
    seat.task = task;
    task.tries += 1;
    const remote = seat.remote ?? open(seat);
    [seat.lastBeat, seat.lastChange] = [Atomics.load(seat.beats, 0), Date.now()];
    const over = (settle: () => void): void => {
      if (seat.task !== task) return;
      seat.task = null;
      settle();
      next();
    };
    remote.runJob(task.job).then(
      (result) => over(() => task.resolve(result)),
      (reason: unknown) => over(() => task.reject(reason)),
    );
  }

  function open(seat: Seat): Comlink.Remote<Thread> {
    const beats = new SharedArrayBuffer(4);
    const data: ThreadData = { beats };
    const worker = new Worker(entry, { workerData: data });
    worker.on('error', (error) => seat.worker === worker && failed(seat, error.message));
    worker.on('exit', (code) => seat.worker === worker && failed(seat, `it ended with code ${code}`));
    seat.beats = new Int32Array(beats);
    seat.worker = worker;
    seat.remote = Comlink.wrap<Thread>(nodeEndpoint(worker));
    return seat.remote;
  }

  function drop(task: Waiting): void {
    const place = waiting.indexOf(task);
    if (place >= 0) waiting.splice(place, 1);
    const seat = seats.find((one) => one.task === task);
    if (seat !== undefined) clear(seat);
    next();
  }

  return {
    width,
    run: (job, signal) =>
      new Promise<JobResult>((resolve, reject) => {
        if (signal?.aborted === true) {
          reject(signal.reason);
          return;
        }
        const onAbort = (): void => {
          drop(task);
          reject(signal!.reason);
        };
        const settled =
          <T>(settle: (value: T) => void) =>
          (value: T): void => {
            signal?.removeEventListener('abort', onAbort);
            settle(value);
          };
        const task: Waiting = { job, tries: 0, resolve: settled(resolve), reject: settled(reject) };
        signal?.addEventListener('abort', onAbort, { once: true });
        waiting.push(task);
        next();
      }),
    close: async () => {
      clearInterval(watch);
      const workers = seats.map((seat) => seat.worker);
      const left = [...waiting.splice(0), ...seats.flatMap((seat) => seat.task ?? [])];
      seats.forEach((seat) => Object.assign(seat, emptySeat()));
      left.forEach((task) => task.reject(new Error('the threads were closed')));
      await Promise.all(workers.map((worker) => worker?.terminate()));
    },
  };
}

const emptySeat = (): Seat => ({
  worker: null,
  remote: null,
  beats: new Int32Array(1),
  task: null,
  lastBeat: 0,
  lastChange: 0,
});

/** Ends the seat's thread at once, whatever it is doing. */
function clear(seat: Seat): void {
  const { worker } = seat;
  Object.assign(seat, emptySeat());
  void worker?.terminate();
}

/**
 * Runs jobs on the page's workers. A worker that dies, or is silent for too long, is replaced and its job
 * done again; a job that ends workers time and again is given up. Aborting stops the work itself: waiting
 * jobs are dropped, a busy worker stops after the slice it is at.
 *
 * How a worker gets into the page, here and for any other: `import Maker from './some-worker.ts?worker'` and
 * `new Maker()`. Never `new Worker(new URL(…))`: in the single file the worker travels inside the page, and
 * only the first form is turned into that.
 */
import type { Job, JobResult, Runner } from '../../src/record/job.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { FromWorker, ToWorker } from './messages.ts';

export interface WorkerSettings {
  /** Makes a worker that speaks as messages.ts says. */
  make: () => Worker;
  /** Workers. Default: one a core, at most 8. */
  width?: number;
  /** A busy worker without a sign of life for so long is taken for hung, milliseconds. Default 20 s. */
  silence?: number;
  /** Told in words when a worker was lost and replaced. */
  lost?: (why: string) => void;
}

const MOST_TRIES = 3;
const TWENTY_SECONDS = 20_000;
/** A worker keeps so many days; the one it has heard of longest ago goes first. */
const MOST_DAYS = 48;

interface Task {
  id: number;
  job: Job;
  tries: number;
  resolve: (result: JobResult) => void;
  reject: (reason: unknown) => void;
}

/**
 * A worker's place. `stopping`: at a job nobody waits for any more. `days`: those its worker keeps, in the
 * order it heard of them.
 */
interface Seat {
  worker: Worker | null;
  days: Set<number>;
  task: Task | null;
  stopping: boolean;
  heard: number;
}

export const usualWidth = (): number => Math.max(1, Math.min(8, navigator.hardwareConcurrency || 2));

export function workerRunner({
  make,
  width = usualWidth(),
  silence = TWENTY_SECONDS,
  lost,
}: WorkerSettings): Runner {
  const seats = Array.from({ length: width }, (): Seat => ({
    worker: null,
    days: new Set(),
    task: null,
    stopping: false,
    heard: 0,
  }));
  const waiting: Task[] = [];
  const numbers = new WeakMap<ResolvedShift[], number>();
  let [count, days] = [0, 0];
  const watch = setInterval(() => seats.forEach(lookAfter), Math.max(20, Math.min(1000, silence / 4)));

  function lookAfter(seat: Seat): void {
    if (seat.task !== null && performance.now() - seat.heard > silence)
      failed(seat, `gave no sign of life for ${Math.round(silence / 100) / 10} s`);
  }

  function failed(seat: Seat, why: string): void {
    const { task, stopping } = seat;
    seat.worker?.terminate();
    Object.assign(seat, { worker: null, days: new Set(), task: null, stopping: false });
    if (task !== null && !stopping) {
      if (task.tries >= MOST_TRIES)
        task.reject(
          new Error(
            `Shifts from ${task.job.from} on could not be run: ${task.tries} workers in a row were lost with them; the last one ${why}.`,
          ),
        );
      else waiting.unshift(task);
    }
    lost?.(why);
    next();
  }

  function open(seat: Seat): Worker {
    const worker = make();
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => hear(seat, data);
    worker.onerror = (event) => {
      event.preventDefault();
      if (seat.worker === worker)
        failed(seat, event.message === undefined ? 'could not be started' : `ended: ${event.message}`);
    };
    worker.onmessageerror = () =>
      seat.worker === worker && failed(seat, 'said something that cannot be read');
    seat.worker = worker;
    return worker;
  }

  function hear(seat: Seat, message: FromWorker): void {
    seat.heard = performance.now();
    const { task, stopping } = seat;
    if (message.kind === 'ready' || message.kind === 'beat' || task === null || message.id !== task.id)
      return;
    seat.task = null;
    seat.stopping = false;
    if (!stopping && message.kind === 'done') task.resolve(message.result);
    if (!stopping && message.kind === 'failed') task.reject(message.error);
    next();
  }

  function next(): void {
    for (const seat of seats) {
      if (seat.task !== null) continue;
      const task = waiting.shift();
      if (task === undefined) return;
      const worker = seat.worker ?? open(seat);
      Object.assign(seat, { task, stopping: false, heard: performance.now() });
      task.tries += 1;
      send(seat, worker, task);
    }
  }

  /**
   * Shifts are said in full once: spelling them out takes the page longer than everything else about a job.
   */
  function send(seat: Seat, worker: Worker, { id, job: { shifts, from, count: replications } }: Task): void {
    const day = numbers.get(shifts) ?? (days += 1);
    numbers.set(shifts, day);
    const known = seat.days.has(day);
    worker.postMessage({
      kind: 'run',
      id,
      day,
      ...(known ? {} : { shifts }),
      from,
      count: replications,
    } satisfies ToWorker);
    seat.days.add(day);
    const [oldest] = seat.days;
    if (seat.days.size <= MOST_DAYS || oldest === undefined) return;
    seat.days.delete(oldest);
    worker.postMessage({ kind: 'forget', day: oldest } satisfies ToWorker);
  }

  function drop(task: Task): void {
    const place = waiting.indexOf(task);
    if (place >= 0) waiting.splice(place, 1);
    const seat = seats.find((one) => one.task === task);
    if (seat === undefined) return;
    seat.stopping = true;
    seat.worker?.postMessage({ kind: 'stop', id: task.id } satisfies ToWorker);
  }

  // Started before they are asked: the first answer need not wait for them.
  seats.forEach(open);

  return {
    width,
    run: (job, signal) =>
      new Promise<JobResult>((resolve, reject) => {
        if (signal?.aborted === true) return reject(signal.reason);
        const over =
          <T>(settle: (value: T) => void) =>
          (value: T): void => {
            signal?.removeEventListener('abort', onAbort);
            settle(value);
          };
        const task: Task = { id: (count += 1), job, tries: 0, resolve: over(resolve), reject: over(reject) };
        const onAbort = (): void => {
          drop(task);
          task.reject(signal!.reason);
        };
        signal?.addEventListener('abort', onAbort, { once: true });
        waiting.push(task);
        next();
      }),
    close: () => {
      clearInterval(watch);
      const left = [...waiting.splice(0), ...seats.flatMap((seat) => seat.task ?? [])];
      for (const seat of seats) {
        seat.worker?.terminate();
        Object.assign(seat, { worker: null, task: null });
      }
      for (const task of left) task.reject(new Error('The workers were closed.'));
      return Promise.resolve();
    },
  };
}

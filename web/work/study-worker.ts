/**
 * The inside of a worker of the page. Runs one job at a time in slices; between two slices it beats, and hears whether to stop.
 *
 * In the single file this is a classic script in a blob: no top-level await and no import() in here or in what it imports.
 */
import { runJob, type Job, type JobResult } from '../../src/record/job.ts';
import type { FromWorker, ToWorker } from './messages.ts';

/** Replications between two beats. */
const SLICE = 5;

const stopped = new Set<number>();
const tell = (message: FromWorker, transfer: Transferable[] = []): void => (self as unknown as Worker).postMessage(message, transfer);

/** Lets messages in. A channel, not a timer: timers are held back to some milliseconds when nested. */
const { port1, port2 } = new MessageChannel();
let turn = (): void => {};
port1.onmessage = () => turn();
const aTurn = (): Promise<void> => new Promise((resolve) => {
  turn = resolve;
  port2.postMessage(null);
});

async function run(id: number, job: Job): Promise<void> {
  stopped.clear();
  const parts: JobResult[] = [];
  for (let done = 0; done < job.count; done += SLICE) {
    if (stopped.delete(id)) return tell({ kind: 'stopped', id });
    parts.push(runJob({ shifts: job.shifts, from: job.from + done, count: Math.min(SLICE, job.count - done) }));
    tell({ kind: 'beat', id });
    await aTurn();
  }
  const rows = job.shifts.map((_, shift) => joined(parts.map((part) => part.rows[shift]!)));
  tell({ kind: 'done', id, result: { from: job.from, count: job.count, rows } }, rows.map((one) => one.buffer));
}

function joined(parts: Float64Array[]): Float64Array<ArrayBuffer> {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

self.onmessage = ({ data }: MessageEvent<ToWorker>): void => {
  if (data.kind === 'stop') stopped.add(data.id);
  else run(data.id, data.job).catch((error: unknown) => tell({ kind: 'failed', id: data.id, error: error instanceof Error ? error : new Error(String(error)) }));
};
tell({ kind: 'ready' });

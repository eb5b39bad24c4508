/**
 * The inside of a worker of the page. Runs one job at a time in slices; between two slices it hears whether
 * to stop, and now and then it beats.
 *
 * In the single file this is a classic script in a blob: no top-level await and no import() in here or in
 * what it imports.
 */
import { runJob, type JobResult } from '../../src/record/job.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { aTurn } from './turn.ts';

/** Replications between two looks at the clock. */
const SLICE = 5;
/** Milliseconds of work between two turns for messages, and between two beats: each weighs on the page. */
const BETWEEN_TURNS = 8;
const BETWEEN_BEATS = 250;

const days = new Map<number, ResolvedShift[]>();
const stopped = new Set<number>();
const tell = (message: FromWorker, transfer: Transferable[] = []): void =>
  (self as unknown as Worker).postMessage(message, transfer);

async function run(id: number, shifts: ResolvedShift[], from: number, count: number): Promise<void> {
  stopped.clear();
  const parts: JobResult[] = [];
  let [turned, beat] = [performance.now(), performance.now()];
  for (let done = 0; done < count; done += SLICE) {
    parts.push(runJob({ shifts, from: from + done, count: Math.min(SLICE, count - done) }));
    if (performance.now() - turned < BETWEEN_TURNS) continue;
    if (performance.now() - beat > BETWEEN_BEATS) {
      tell({ kind: 'beat', id });
      beat = performance.now();
    }
    await aTurn();
    if (stopped.delete(id)) return tell({ kind: 'stopped', id });
    turned = performance.now();
  }
  const rows = shifts.map((_, shift) => joined(parts.map((part) => part.rows[shift]!)));
  tell(
    { kind: 'done', id, result: { from, count, rows } },
    rows.map((one) => one.buffer),
  );
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
  switch (data.kind) {
    case 'stop':
      stopped.add(data.id);
      return;
    case 'forget':
      days.delete(data.day);
      return;
    case 'run': {
      if (data.shifts !== undefined) days.set(data.day, data.shifts);
      run(data.id, days.get(data.day)!, data.from, data.count).catch((error: unknown) =>
        tell({
          kind: 'failed',
          id: data.id,
          error: error instanceof Error ? error : new Error(String(error)),
        }),
      );
    }
  }
};
tell({ kind: 'ready' });

/** One shift written down in a worker; and which of the first so many shifts were bad, typical and good ones. */
import { layoutOfShift } from '../../src/record/layout.ts';
import type { ReplayShift } from '../../src/record/replay.ts';
import { scalarAt } from '../../src/record/report.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import type { Task } from './live.ts';
import Maker from './replay-worker.ts?worker';

export interface ToReplay {
  id: number;
  shifts: ResolvedShift[];
  replication: number;
}
export type FromReplay = { kind: 'told'; id: number; shifts: ReplayShift[] } | { kind: 'failed'; id: number; message: string };

/** A worker that says nothing for so long is taken for hung, milliseconds. */
const SILENCE = 20_000;
let count = 0;

/** The shifts of one replication. A worker of its own, ended when it has told or is not waited for any more. */
export function replay(shifts: ResolvedShift[], replication: number, signal: AbortSignal): Promise<ReplayShift[]> {
  return new Promise((resolve, reject) => {
    const worker = new Maker();
    const id = (count += 1);
    const over = (): void => {
      clearTimeout(timer);
      worker.terminate();
      signal.removeEventListener('abort', stopped);
    };
    const fail = (reason: unknown): void => {
      over();
      reject(reason);
    };
    const stopped = (): void => fail(signal.reason);
    const timer = setTimeout(() => fail(new Error('the worker gave no sign of life')), SILENCE);
    signal.addEventListener('abort', stopped, { once: true });
    worker.onerror = (event) => {
      event.preventDefault();
      fail(new Error(`the worker ended: ${event.message}`));
    };
    worker.onmessage = ({ data }: MessageEvent<FromReplay>) => {
      if (data.kind === 'failed') return fail(new Error(data.message));
      over();
      resolve(data.shifts);
    };
    worker.postMessage({ id, shifts, replication } satisfies ToReplay);
  });
}

export const replayTask = (shifts: ResolvedShift[], replication: number): Task<ReplayShift[]> => ({
  key: `${replication} ${JSON.stringify(shifts)}`,
  run: async ({ signal, show }) => show(await replay(shifts, replication, signal)),
});

/** How many shifts are looked through for a bad, a typical and a good one. */
export const LOOKED_THROUGH = 200;
const SLICE = 25;

export interface Ranked {
  /** Replications from the one with the fewest good units to the one with the most. */
  order: number[];
  /** Good units by replication, all shifts of the day together. */
  good: number[];
}

export const rankTask = (shifts: ResolvedShift[]): Task<Ranked> => ({
  key: JSON.stringify(shifts),
  run: async ({ runner, signal, show }) => {
    const slices = Array.from({ length: LOOKED_THROUGH / SLICE }, (_, i) => runner.run({ shifts, from: i * SLICE, count: SLICE }, signal));
    const results = await Promise.all(slices);
    const layouts = shifts.map(layoutOfShift);
    const good = results.flatMap(({ rows, count: rowsOf }) => Array.from({ length: rowsOf }, (_, i) =>
      rows.reduce((sum, row, shift) => sum + row[i * layouts[shift]!.size + scalarAt(layouts[shift]!, 'good')]!, 0)));
    const order = good.map((_, i) => i).sort((a, b) => good[a]! - good[b]! || a - b);
    show({ order, good });
  },
});

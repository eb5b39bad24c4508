/**
 * One shift written down in a worker; and which of the first so many shifts were bad, typical and good ones.
 */
import { layoutOfShift } from '../../src/record/layout.ts';
import type { ReplayShift } from '../../src/record/replay.ts';
import { scalarAt } from '../../src/record/report.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { pool, type Pool } from '../../src/work/pool.ts';
import type { Task } from './live.ts';
import { sayLost } from './lost.ts';
import Maker from './replay-worker.ts?worker';
import { workers } from './worker.ts';

export interface ReplayQuestion {
  shifts: ResolvedShift[];
  replication: number;
}

/** One shift is written down in a few milliseconds. */
const SILENCE = 20_000;
let shared: Pool<ReplayQuestion, ReplayShift[], never> | null = null;

/** The shifts of one replication. */
export function replay(
  shifts: ResolvedShift[],
  replication: number,
  signal: AbortSignal,
): Promise<ReplayShift[]> {
  shared ??= pool({
    transport: workers(() => new Maker()),
    width: 1,
    silence: SILENCE,
    tries: 2,
    lost: sayLost,
  });
  return shared.ask(() => ({ shifts, replication }), { signal });
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
    const slices = Array.from({ length: LOOKED_THROUGH / SLICE }, (_, i) =>
      runner.run({ shifts, from: i * SLICE, count: SLICE }, signal),
    );
    const results = await Promise.all(slices);
    const layouts = shifts.map(layoutOfShift);
    const good = results.flatMap(({ rows, count: rowsOf }) =>
      Array.from({ length: rowsOf }, (_, i) =>
        rows.reduce(
          (sum, row, shift) => sum + row[i * layouts[shift]!.size + scalarAt(layouts[shift]!, 'good')]!,
          0,
        ),
      ),
    );
    const order = good.map((_, i) => i).sort((a, b) => good[a]! - good[b]! || a - b);
    show({ order, good });
  },
});

/**
 * One shift written down in a worker; and which of the first so many shifts were bad, typical and good ones.
 */
import type { ReplayShift } from '../../src/record/replay.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { rankShifts, type Ranked } from '../../src/study/ranked.ts';
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

export const rankTask = (shifts: ResolvedShift[]): Task<Ranked> => ({
  key: JSON.stringify(shifts),
  run: async ({ runner, signal, show }) => show(await rankShifts(shifts, LOOKED_THROUGH, runner, signal)),
});

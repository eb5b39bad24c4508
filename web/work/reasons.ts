/** Where the minutes went by reason, added up in a worker; and each reason tried alone. */
import type { ReasonSums } from '../../src/record/why/sums.ts';
import { tellStood, type StoodTold } from '../../src/report/parts/stood.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { stoodOf, TRIAL_SHIFTS, tryRemedies } from '../../src/study/by-reason.ts';
import { REASON_SHIFTS } from '../../src/study/reasons.ts';
import { pool, type Pool } from '../../src/work/pool.ts';
import type { Task } from './live.ts';
import { sayLost } from './lost.ts';
import Maker from './reasons-worker.ts?worker';
import { workers } from './worker.ts';

export interface ReasonsQuestion {
  shifts: ResolvedShift[];
  count: number;
}

/** A hundred shifts are a second or two of work, on a slow tablet ten times that. */
const SILENCE = 120_000;
let shared: Pool<ReasonsQuestion, ReasonSums[], never> | null = null;

/** Sums of the first so many replications, one a shift of the day. */
export function reasonSums(
  shifts: ResolvedShift[],
  count = REASON_SHIFTS,
  signal?: AbortSignal,
): Promise<ReasonSums[]> {
  shared ??= pool({
    transport: workers(() => new Maker()),
    width: 1,
    silence: SILENCE,
    tries: 2,
    lost: sayLost,
  });
  return shared.ask(() => ({ shifts, count }), { ...(signal === undefined ? {} : { signal }) });
}

export const sumsTask = (shifts: ResolvedShift[]): Task<ReasonSums[]> => ({
  key: JSON.stringify(shifts),
  run: async ({ signal, show }) => show(await reasonSums(shifts, REASON_SHIFTS, signal)),
});

/** @param count shifts that the rest of the page rests on. */
export const stoodTask = (shifts: ResolvedShift[], count: number): Task<StoodTold> => ({
  key: `${count} ${JSON.stringify(shifts)}`,
  run: async ({ runner, signal, show }) => {
    const sums = await reasonSums(shifts, Math.min(REASON_SHIFTS, count), signal);
    const first = tellStood(shifts, sums);
    if (first === null) return;
    show(first);
    const most = Math.min(TRIAL_SHIFTS, count);
    const trials = await tryRemedies(shifts, stoodOf(shifts, sums), most, runner, signal);
    show({ ...first, trials });
  },
});

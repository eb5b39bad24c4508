/**
 * Jobs, stretches of replications, on a pool: what it is asked. What answers (serve-jobs.ts) has the engine
 * with it, which who asks has no need of.
 */
import type { Job, JobResult, Runner, VariedInputs } from '../record/job.ts';
import type { ListName } from '../record/measures.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Kept, Pool } from './pool.ts';

/**
 * Replications `from` on of the day with this number. Its `shifts` come along the first time a worker hears
 * of it: spelling them out takes longer than everything else about a job. The worker keeps them until it is
 * told to forget that day.
 */
export interface JobQuestion {
  day: number;
  shifts?: ResolvedShift[];
  from: number;
  count: number;
  varied?: VariedInputs;
  lists?: readonly ListName[];
  forget?: number;
}

/** A worker keeps so many days; the one it has heard of longest ago goes first. */
const MOST_DAYS = 48;

/** @param noun what the pool's workers are: "threads". */
export function jobRunner(pool: Pool<JobQuestion, JobResult, never>, noun: string): Runner {
  const numbers = new WeakMap<ResolvedShift[], number>();
  let days = 0;

  function spell({ shifts, from, count, varied, lists }: Job, kept: Kept): JobQuestion {
    const asked = { from, count, ...(varied && { varied }), ...(lists && { lists }) };
    const day = numbers.get(shifts) ?? (days += 1);
    numbers.set(shifts, day);
    if (kept.has(day)) return { day, ...asked };
    kept.add(day);
    const question = { day, shifts, ...asked };
    if (kept.size <= MOST_DAYS) return question;
    const [oldest] = kept as Set<number>;
    kept.delete(oldest);
    return { ...question, forget: oldest! };
  }

  return {
    width: pool.width,
    run: (job, signal) =>
      pool.ask((kept) => spell(job, kept), {
        signal,
        givenUp: (tries, why) =>
          `Shifts from ${job.from} on could not be run: ${tries} ${noun} in a row were lost with them; the last one ${why}.`,
      }),
    close: () => pool.close(),
  };
}

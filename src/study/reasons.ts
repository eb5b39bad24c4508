/** Where the minutes went by reason, over the first shifts: run here and now, one after another. */
import { ReasonsRun } from '../record/why/reasons.ts';
import { ReasonTally, type ReasonSums } from '../record/why/sums.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';

/** Shifts whose minutes are added up: each mean is then known to a few minutes. */
export const REASON_SHIFTS = 100;

/** Sums of replications 0 to `count - 1`, one a shift of the day. Throws RunawayError. */
export function sumReasons(shifts: ResolvedShift[], count: number): ReasonSums[] {
  const run = new ReasonsRun(shifts);
  const tallies = shifts.map(() => new ReasonTally());
  for (let replication = 0; replication < count; replication++)
    run.reasons(replication).forEach((shift, i) => tallies[i]!.add(shift));
  return tallies.map((tally) => tally.sums());
}

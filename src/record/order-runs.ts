/** When orders are out, as a run of many replications tells it; its stretches put together in their order. */
import type { ResolvedShift } from '../scenario/resolve.ts';

/** Pieces that belong together: those named so in the file, "school" or "school 1", "school 2" ... */
export interface OrderAsked {
  name: string;
  units: number;
}

export interface OrderRuns {
  /**
   * By order, one a replication: minutes from the start of the first shift until its last piece is out;
   * Infinity where it is not, by the end of the last shift.
   */
  out: Float64Array[];
  /** By order: replications in which some piece of it was scrapped. */
  scrapped: number[];
  /** Good pieces of each replication, all together and by order. */
  good: Float64Array;
  goodOf: Float64Array[];
  /** By order: pieces there are in the run; fewer than asked for where some were out before. */
  pieces: number[];
}

/** Runs a stretch of replications, wherever. */
export type RunOrders = (
  shifts: ResolvedShift[],
  orders: readonly OrderAsked[],
  stretch: { from: number; count: number },
  signal?: AbortSignal,
) => Promise<OrderRuns>;

/** Stretches, one after the other, as one run. */
export function joinOrderRuns(stretches: readonly OrderRuns[]): OrderRuns {
  const joined = (of: (one: OrderRuns) => Float64Array): Float64Array =>
    Float64Array.from(stretches.flatMap((one) => [...of(one)]));
  const [first] = stretches;
  const each = <T>(make: (order: number) => T): T[] => first!.out.map((_, order) => make(order));
  return {
    out: each((order) => joined(({ out }) => out[order]!)),
    scrapped: each((order) => stretches.reduce((sum, { scrapped }) => sum + scrapped[order]!, 0)),
    good: joined(({ good }) => good),
    goodOf: each((order) => joined(({ goodOf }) => goodOf[order]!)),
    pieces: each((order) => Math.max(...stretches.map(({ pieces }) => pieces[order]!))),
  };
}

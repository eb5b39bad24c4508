import { chanceInterval } from '../../../src/study/intervals/chance-interval.ts';
import type { Interval } from '../../../src/study/intervals/interval.ts';
import { conductNow, type Ask, type Procedure } from '../../../src/study/selection/procedure.ts';

export interface Rehearsal<Result, Rows> {
  /** Whole selections on fresh luck. */
  repeats: number;
  procedure: () => Procedure<Result, Rows>;
  /** Rows of one selection's candidates; the same whenever asked again. */
  sample: (repeat: number, ask: Ask) => Rows;
  /** Whether a selection kept the promise, on a problem whose answer is known. */
  right: (result: Result) => boolean;
  /** Replications a selection used. */
  cost: (result: Result) => number;
}

/** How often a procedure keeps its promise on a problem whose best answer is known, and what it costs. */
export function correctSelections<Result, Rows>(
  rehearsal: Rehearsal<Result, Rows>,
): { right: number; repeats: number; share: Interval; replications: number } {
  let [right, replications] = [0, 0];
  for (let repeat = 0; repeat < rehearsal.repeats; repeat++) {
    const result = conductNow(rehearsal.procedure(), (ask) => rehearsal.sample(repeat, ask));
    right += rehearsal.right(result) ? 1 : 0;
    replications += rehearsal.cost(result) / rehearsal.repeats;
  }
  return {
    right,
    repeats: rehearsal.repeats,
    share: chanceInterval(right, rehearsal.repeats, 0.99),
    replications,
  };
}

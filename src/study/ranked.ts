/** The first so many shifts in the order of what they made: which were bad, typical and good ones. */
import { layoutOfShift } from '../record/layout.ts';
import type { Runner } from '../record/job.ts';
import { scalarAt, type ReportLayout } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';

export interface Ranked {
  /** Replications from the one with the fewest good units to the one with the most. */
  order: number[];
  /** Good units by replication, all shifts of the day together. */
  good: number[];
  /** [shift] its rows, by replication. */
  rows: Float64Array[];
}

const SLICE = 25;

/** Runs replications 0 to `count - 1`. */
export async function rankShifts(
  shifts: ResolvedShift[],
  count: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<Ranked> {
  const slices = Array.from({ length: Math.ceil(count / SLICE) }, (_, i) =>
    runner.run({ shifts, from: i * SLICE, count: Math.min(SLICE, count - i * SLICE) }, signal),
  );
  const results = await Promise.all(slices);
  const layouts = shifts.map(layoutOfShift);
  const rows = layouts.map((_, shift) => joined(results.map((result) => result.rows[shift]!)));
  const good = Array.from({ length: count }, (_, i) => goodOf(layouts, rows, i));
  const order = good.map((_, i) => i).sort((a, b) => good[a]! - good[b]! || a - b);
  return { order, good, rows };
}

function joined(parts: Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const goodOf = (layouts: ReportLayout[], rows: Float64Array[], replication: number): number =>
  layouts.reduce(
    (sum, layout, shift) => sum + rows[shift]![replication * layout.size + scalarAt(layout, 'good')]!,
    0,
  );

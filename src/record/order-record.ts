/** When the pieces of orders are out, over many replications of a few shifts in a row. */
import { compile } from '../engine/compile.ts';
import { CellRun } from '../engine/run.ts';
import { SilentRecorder } from '../engine/silent.ts';
import type { CompiledCell } from '../engine/tables.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { listedNames, numbered } from './event-record.ts';
import type { OrderAsked, OrderRuns } from './order-runs.ts';

const MINUTE = 60_000;

/** Runs replications `from` to `from + count - 1`. Throws RunawayError. */
export function recordOrders(
  shifts: ResolvedShift[],
  orders: readonly OrderAsked[],
  { from, count }: { from: number; count: number },
): OrderRuns {
  const cells = shifts.map(compile);
  const order = new Map(
    orders.flatMap(({ name, units }, i) => [
      [name, i] as const,
      ...Array.from({ length: units }, (_, k) => [`${name} ${k + 1}`, i] as const),
    ]),
  );
  const day: Day = { order, of: new Map(), left: [], last: [], scrapped: [], good: 0 };
  const records = cells.map(
    (cell, shift) =>
      new OrderRecord(cell, day, (shifts[shift]!.startsAfter - shifts[0]!.startsAfter) * MINUTE, shift === 0),
  );
  const run = new CellRun(cells);
  const out = orders.map(() => new Float64Array(count));
  const good = new Float64Array(count);
  const goodOf = orders.map(() => new Float64Array(count));
  const scrapped = orders.map(() => 0);
  const pieces = orders.map(() => 0);
  for (let i = 0; i < count; i++) {
    day.of.clear();
    orders.forEach((_, k) => (day.left[k] = day.last[k] = day.scrapped[k] = 0));
    records.forEach((record) => record.anew());
    day.good = 0;
    run.run(from + i, records);
    good[i] = day.good;
    orders.forEach((_, k) => {
      const came = [...day.of.values()].filter((one) => one === k).length;
      pieces[k] = Math.max(pieces[k]!, came);
      goodOf[k]![i] = day.left[k]!;
      if (day.scrapped[k]! > 0) scrapped[k]!++;
      out[k]![i] = came > 0 && day.left[k] === came ? day.last[k]! / MINUTE : Infinity;
    });
  }
  return { out, good, goodOf, scrapped, pieces };
}

interface Day {
  order: Map<string, number>;
  /** The order of a piece, by its number in the run. */
  of: Map<number, number>;
  /** By order: pieces out, when the last of them was (ms), pieces scrapped. */
  left: number[];
  last: number[];
  scrapped: number[];
  /** All good pieces of the replication. */
  good: number;
}

class OrderRecord extends SilentRecorder {
  private readonly day: Day;
  private readonly offset: number;
  /** Names of the pieces to come, in order of arrival. */
  private readonly toCome: (string | null)[];
  private come = 0;

  constructor(cell: CompiledCell, day: Day, offset: number, first: boolean) {
    super();
    this.day = day;
    this.offset = offset;
    this.toCome = [...(first ? cell.shift.carryOver.flatMap(numbered) : []), ...listedNames(cell)];
  }

  /** Before every replication. */
  anew(): void {
    this.come = 0;
  }

  override arrive(_time: number, unit: number): void {
    // A later shift opens by telling again what stands in the cell.
    if (this.day.of.has(unit)) return;
    const name = this.toCome[this.come++] ?? null;
    const order = name === null ? undefined : this.day.order.get(name);
    this.day.of.set(unit, order ?? -1);
  }

  override good(time: number, unit: number): void {
    this.day.good++;
    this.isOut(time, unit);
  }

  override again(time: number, unit: number): void {
    this.isOut(time, unit);
  }

  private isOut(time: number, unit: number): void {
    const order = this.day.of.get(unit) ?? -1;
    if (order < 0) return;
    this.day.left[order]!++;
    this.day.last[order] = Math.max(this.day.last[order]!, time + this.offset);
  }

  override scrap(_time: number, unit: number): void {
    const order = this.day.of.get(unit) ?? -1;
    if (order >= 0) this.day.scrapped[order]!++;
  }
}

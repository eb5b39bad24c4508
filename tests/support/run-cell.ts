/** Running cells in tests the way a study does: compiled, tallied, one row a shift. */
import { compile } from '../../src/engine/compile.ts';
import { CellRun } from '../../src/engine/run.ts';
import type { CompiledCell } from '../../src/engine/tables.ts';
import { scalarAt, type ReportLayout, type Scalar } from '../../src/record/report.ts';
import { DayTally } from '../../src/record/row.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { resolve, type ResolvedShift } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

/** The first shift of a scenario that must be sound. */
export function shiftOf(scenario: unknown): ResolvedShift {
  const read = checkScenario(scenario);
  if (read.kind === 'wrong') throw new Error(read.faults.map((fault) => fault.text).join('\n'));
  return resolve(scenario as Scenario);
}

export interface Rows {
  layout: ReportLayout;
  row: Float64Array;
}

/** Runs a day's shifts again and again with one memory, as a worker does. */
export class Rerun {
  readonly cells: CompiledCell[];
  private readonly run: CellRun;
  private readonly day: DayTally;

  constructor(shifts: ResolvedShift[]) {
    this.cells = shifts.map(compile);
    this.run = new CellRun(this.cells);
    this.day = new DayTally(this.cells);
  }

  /** One row a shift. */
  rows(replication: number): Rows[] {
    const { tallies } = this.day;
    this.day.run(this.run, replication);
    const rows = tallies.map(({ layout }) => new Float64Array(layout.size).fill(NaN));
    this.day.write(rows);
    return tallies.map(({ layout }, shift) => ({ layout, row: rows[shift]! }));
  }
}

export const scalar = ({ layout, row }: Rows, name: Scalar): number => row[scalarAt(layout, name)]!;

export const sum = (values: Iterable<number>): number => {
  let total = 0;
  for (const value of values) total += value;
  return total;
};

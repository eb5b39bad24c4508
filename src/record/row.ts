/** From the tallies of a day's shifts to their flat rows. */
import type { CellRun } from '../engine/run.ts';
import type { CompiledCell } from '../engine/tables.ts';
import { Week } from '../money/week.ts';
import { HEARING } from './hearing.ts';
import { listMeasures } from './layout.ts';
import type { ListMeasure } from './measure.ts';
import { MEASURES, type ListName } from './measures.ts';
import { Tally } from './tally.ts';

/**
 * Tallies the shifts of a day again and again, one tally a shift. What runs on from shift to shift (hours of
 * the week) begins anew with every replication.
 */
export class DayTally {
  readonly tallies: Tally[];
  private readonly lists: readonly ListMeasure[];
  private readonly week: Week;

  /** @param lists those alone are written; null: all. */
  constructor(cells: readonly CompiledCell[], lists: readonly ListName[] | null = null) {
    this.lists = listMeasures(lists);
    this.tallies = cells.map((cell) => new Tally(cell, lists));
    this.week = new Week(cells.map(({ shift }) => shift));
  }

  /** Runs one replication. Throws RunawayError. */
  run(run: CellRun, replication: number): void {
    // A fact that no measure asks for costs nothing.
    run.run(replication, HEARING.length > 0 ? this.tallies : []);
    this.tallies.forEach((tally, shift) => tally.read(run.accounts(shift)));
  }

  /**
   * Writes the rows of the replication just run: that of shift k into `rows[k]`, the `index`-th of its
   * layout's size.
   */
  write(rows: readonly Float64Array[], index = 0): void {
    this.week.begin();
    this.tallies.forEach((tally, shift) => {
      tally.clerk.reckon(tally.personTime, this.week, shift);
      this.writeRow(tally, rows[shift]!, index * tally.layout.size);
    });
  }

  private writeRow(tally: Tally, row: Float64Array, offset: number): void {
    const { at } = tally.layout;
    for (let i = 0; i < MEASURES.length; i++)
      row[offset + at.scalars + i] = MEASURES[i]!.read(tally, tally.kept[i]!);
    // All names of the table are names of lists.
    for (const measure of this.lists) measure.write(tally, row, offset + at[measure.name as ListName]);
  }
}

/**
 * The columns of a shard: every number of a row under a name that other programs can read, such as `good`,
 * `lineMean/glue`, `personMinutes/orla/5` (the code of a state). Cells that differ in their crew or gear
 * share the columns that both have.
 */
import { layoutOfShift } from '../record/layout.ts';
import { sizeOf, type Axis } from '../record/measure.ts';
import { LIST_MEASURES } from '../record/measures.ts';
import { SCALARS, type ReportLayout } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { ROWS_KEPT } from '../study/case-record.ts';

/** Which row it is; before the numbers. */
export const ROW_KEYS = ['day', 'shift', 'replication'] as const;

/** The names of a layout's numbers, in their order in a row. */
export function columnsOf(layout: ReportLayout): string[] {
  const names = new Array<string>(layout.size);
  SCALARS.forEach((name, i) => (names[layout.at.scalars + i] = name));
  for (const measure of LIST_MEASURES) {
    const from = layout.at[measure.name];
    const labels = measure.per.map((axis) => labelsOf(layout, axis));
    const inner = labels[1]?.length ?? 1;
    for (let i = 0; i < sizeOf(measure, layout.sizes); i++) {
      const outer = labels[0]![Math.floor(i / inner)]!;
      names[from + i] = [
        measure.name,
        outer,
        ...(labels[1] === undefined ? [] : [labels[1][i % inner]!]),
      ].join('/');
    }
  }
  return names;
}

export const columnsOfShift = (shift: ResolvedShift): string[] => columnsOf(layoutOfShift(shift));

/** What a list's places are called: by id where they have one, else by number, from 0. */
function labelsOf(layout: ReportLayout, axis: Axis): string[] {
  const numbers = Array.from({ length: layout.sizes[axis] }, (_, i) => String(i));
  switch (axis) {
    case 'steps':
      return layout.steps;
    case 'people':
      return layout.people;
    case 'gear':
      return layout.gear;
    case 'causes':
      // Two branches may lead the same way for the same cause.
      return layout.causes.map(({ step, to, cause }, i) => `${step} to ${to} for ${cause} (${i})`);
    default:
      return numbers;
  }
}

/**
 * What rows from `from` on have, by name its place in a row: bands through the day are only read in the rows
 * that a study keeps, which are the first.
 */
export function columnsIn(shift: ResolvedShift, from: number): Map<string, number> {
  const layout = layoutOfShift(shift);
  const { lineAt, waited } = layout.at;
  const places = Array.from(columnsOf(layout), (name, place): [string, number] => [name, place]);
  return new Map(from < ROWS_KEPT ? places : places.filter(([, at]) => at < lineAt || at >= waited));
}

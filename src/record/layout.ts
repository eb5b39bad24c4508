/** Where every measure of a shift stands in its row. */
import type { CompiledCell } from '../engine/tables.ts';
import { BIN_MINUTES, reportShape } from '../engine/encode.ts';
import { gearStates, personStates } from '../engine/recorder.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { sizeOf, type ListMeasure } from './measure.ts';
import { LIST_MEASURES, SCALARS, type ListName } from './measures.ts';
import type { ReportLayout } from './report.ts';

/**
 * The layout of a compiled cell's rows: the same for every replication, and for cells with the same steps,
 * gear and people.
 */
export const layoutOf = (cell: CompiledCell): ReportLayout => layoutOfShift(cell.shift);

/** The list measures of these names, in their order in a row; null: all. */
export const listMeasures = (lists: readonly ListName[] | null): readonly ListMeasure[] =>
  lists === null ? LIST_MEASURES : LIST_MEASURES.filter(({ name }) => lists.includes(name));

/** The same, for who reads rows and does not run the cell. */
export const layoutOfShift = (shift: ResolvedShift): ReportLayout => layoutWith(shift, null);

/** The layout of rows that have these lists besides the single numbers; null: all. */
export function layoutWith(shift: ResolvedShift, lists: readonly ListName[] | null): ReportLayout {
  const steps = shift.steps.length;
  const gear = shift.gear.length;
  const people = shift.people.length;
  const causes = shift.steps.flatMap((step) =>
    step.rework.map((branch) => ({ step: step.id, to: branch.to, cause: branch.cause })),
  );
  const { hours, bins } = reportShape(shift);
  const sizes = {
    hours,
    causes: causes.length,
    steps,
    bins,
    people,
    personStates: personStates(gear, steps),
    gear,
    gearStates: gearStates(steps),
  };
  const at: Partial<ReportLayout['at']> = { scalars: 0 };
  let size = SCALARS.length;
  for (const measure of listMeasures(lists)) {
    at[measure.name as ListName] = size;
    size += sizeOf(measure, sizes);
  }
  return {
    size,
    steps: idsOf(shift.steps),
    gear: idsOf(shift.gear),
    people: idsOf(shift.people),
    causes,
    binMinutes: BIN_MINUTES,
    bins,
    hours,
    personStates: sizes.personStates,
    gearStates: sizes.gearStates,
    sizes,
    // Every name is in the list of all; who asks for some of them reads no others.
    at: at as ReportLayout['at'],
  };
}

const idsOf = (things: { id: string }[]): string[] => things.map(({ id }) => id);

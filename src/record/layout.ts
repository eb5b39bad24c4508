/** Where every measure of a shift stands in its row. */
import type { CompiledCell } from '../engine/tables.ts';
import { gearStates, personStates } from '../engine/recorder.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { SCALARS, type ReportLayout } from './report.ts';

/** Width of the bins of the day, minutes. */
export const BIN_MINUTES = 15;

/**
 * The layout of a compiled cell's rows: the same for every replication, and for cells with the same steps,
 * gear and people.
 */
export const layoutOf = (cell: CompiledCell): ReportLayout => layoutOfShift(cell.shift);

/** The same, for who reads rows and does not run the cell. */
export function layoutOfShift(shift: ResolvedShift): ReportLayout {
  const steps = shift.steps.length;
  const gear = shift.gear.length;
  const people = shift.people.length;
  const causes = shift.steps.flatMap((step) =>
    step.rework.map((branch) => ({ step: step.id, to: branch.to, cause: branch.cause })),
  );
  const hours = Math.ceil(shift.length / 60) + 1;
  const bins = Math.ceil(shift.length / BIN_MINUTES);
  let size = 0;
  const room = (count: number): number => {
    const at = size;
    size += count;
    return at;
  };
  const at = {
    scalars: room(SCALARS.length),
    goodByHour: room(hours),
    rework: room(causes.length),
    lineMean: room(steps),
    lineMost: room(steps),
    lineAt: room(steps * bins),
    waited: room(steps),
    starts: room(steps),
    worked: room(steps),
    personMinutes: room(people * personStates(gear, steps)),
    personOvertime: room(people * personStates(gear, steps)),
    personCost: room(people),
    gearMinutes: room(gear * gearStates(steps)),
  };
  return {
    size,
    steps: idsOf(shift.steps),
    gear: idsOf(shift.gear),
    people: idsOf(shift.people),
    causes,
    binMinutes: BIN_MINUTES,
    bins,
    hours,
    personStates: personStates(gear, steps),
    gearStates: gearStates(steps),
    at,
  };
}

const idsOf = (things: { id: string }[]): string[] => things.map(({ id }) => id);

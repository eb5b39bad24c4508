/** Where every measure of a shift stands in its row. */
import type { CompiledCell } from '../engine/tables.ts';
import { gearStates, personStates } from '../engine/recorder.ts';
import { SCALARS, type ReportLayout } from './report.ts';

/** Width of the bins of the day, minutes. */
export const BIN_MINUTES = 15;

/** The layout of a compiled cell's rows: the same for every replication, and for cells with the same steps, gear and people. */
export function layoutOf(cell: CompiledCell): ReportLayout {
  const steps = cell.steps.count;
  const gear = cell.gear.count;
  const people = cell.people.count;
  const causes = cell.shift.steps.flatMap((step) => step.rework.map((branch) => ({ step: step.id, to: branch.to, cause: branch.cause })));
  const hours = Math.ceil(cell.shift.length / 60) + 1;
  const bins = Math.ceil(cell.shift.length / BIN_MINUTES);
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
    size, steps: cell.stepIds, gear: cell.gearIds, people: cell.personIds, causes,
    binMinutes: BIN_MINUTES, bins, hours, personStates: personStates(gear, steps), gearStates: gearStates(steps), at,
  };
}

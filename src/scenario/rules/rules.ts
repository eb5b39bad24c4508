/** The list of rules: a new one is a new file and one line here. */
import type { Fault, Remark } from '../reading/fault.ts';
import type { Scenario } from '../schema.ts';
import { carryOver } from './carry-over.ts';
import { calendar } from './calendar.ts';
import { cellOf, type Rule } from './cell.ts';
import { clocks } from './clocks.ts';
import { crewAndBenches } from './crew-and-benches.ts';
import { heldGear } from './held-gear.ts';
import { holds, intake, unitsInAll } from './intake.ts';
import { limitFaults } from './limits.ts';
import { names } from './names.ts';
import { path, skips } from './path.ts';
import { people } from './people.ts';
import { glue, money, unusedThings } from './remarks.ts';
import { rework } from './rework.ts';
import { times } from './times.ts';
import { whole } from './whole.ts';

/**
 * Each row counts on the rows before it having found nothing: names lead somewhere, then the path is sound,
 * then the rest.
 */
const ROWS: readonly (readonly Rule[])[] = [
  [names, times, clocks, intake, calendar],
  [path, unitsInAll],
  [skips, heldGear, rework, people, holds],
  [whole, carryOver],
  [unusedThings, crewAndBenches, money, glue],
];

/** What the rules find in a scenario of the right shape (its options and following shifts apart). */
export function checkMeaning(scenario: Scenario): { faults: Fault[]; remarks: Remark[] } {
  const sizes = limitFaults(scenario);
  if (sizes.length > 0) return { faults: sizes, remarks: [] };
  const cell = cellOf(scenario);
  for (const row of ROWS) {
    for (const rule of row) rule(cell);
    if (cell.faults.length > 0) return { faults: cell.faults, remarks: [] };
  }
  return { faults: [], remarks: cell.remarks };
}

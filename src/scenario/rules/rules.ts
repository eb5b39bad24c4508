/** The list of rules: a new one is a new file and one line here. */
import type { Fault, Remark } from '../reading/fault.ts';
import type { Scenario } from '../schema.ts';
import { cellOf, type Rule } from './cell.ts';
import { limitFaults } from './limits.ts';
import { names } from './names.ts';
import { times } from './times.ts';

/** These may meet names that lead nowhere. */
const FIRST: Rule[] = [names, times];
/** These follow names; they are asked only where the first found nothing. */
const THEN: Rule[] = [];
/** These point things out in a cell that can run. */
const LAST: Rule[] = [];

/** What the rules find in a scenario of the right shape (its options and following shifts apart). */
export function checkMeaning(scenario: Scenario): { faults: Fault[]; remarks: Remark[] } {
  const sizes = limitFaults(scenario);
  if (sizes.length > 0) return { faults: sizes, remarks: [] };
  const cell = cellOf(scenario);
  for (const rules of [FIRST, THEN, LAST]) {
    for (const rule of rules) rule(cell);
    if (cell.faults.length > 0) return { faults: cell.faults, remarks: [] };
  }
  return { faults: [], remarks: cell.remarks };
}

/**
 * Every time in the file makes a curve, as the curve itself says, and nothing comes again and again without
 * time passing.
 */
import { inMinutes, type Place } from '../reading/fault.ts';
import { curveOf, type Time } from '../../duration/time.ts';
import { fault, type Cell } from './cell.ts';

/** Least mean minutes between things that come again and again. */
const LEAST_GAP = 0.01;

export function times(cell: Cell): void {
  const { steps, products, gear, people, intake } = cell.scenario;
  for (const [id, step] of Object.entries(steps)) {
    curve(cell, ['steps', id, 'time'], step.time);
    if (step.repeatTime !== undefined) curve(cell, ['steps', id, 'repeatTime'], step.repeatTime);
  }
  for (const [id, product] of Object.entries(products ?? {})) {
    for (const [step, time] of Object.entries(product.times ?? {}))
      curve(cell, ['products', id, 'times', step], time);
  }
  for (const [id, kind] of Object.entries(gear ?? {})) {
    if (kind.fails === undefined) continue;
    curve(cell, ['gear', id, 'fails', 'repair'], kind.fails.repair);
    if (curve(cell, ['gear', id, 'fails', 'every'], kind.fails.every))
      gap(cell, ['gear', id, 'fails', 'every'], kind.fails.every);
  }
  for (const [id, person] of Object.entries(people)) {
    if (person.attendance?.late !== undefined)
      curve(cell, ['people', id, 'attendance', 'late'], person.attendance.late);
  }
  if (intake?.kind === 'random' && curve(cell, ['intake', 'gap'], intake.gap))
    gap(cell, ['intake', 'gap'], intake.gap);
  if (intake?.kind === 'beat') gap(cell, ['intake', 'every'], intake.every);
}

function gap(cell: Cell, place: Place, time: Time): void {
  const { mean } = cell.compiled(time);
  if (mean >= LEAST_GAP) return;
  fault(
    cell,
    place,
    `a mean of about ${inMinutes(mean)}`,
    `a mean of at least ${LEAST_GAP} min`,
    'write the minutes from one to the next',
  );
}

/** Notes what the curve itself finds wrong. True where it found nothing. */
function curve(cell: Cell, place: Place, time: Time): boolean {
  const faults = curveOf(time).faults(time);
  for (const one of faults) fault(cell, [...place, ...one.place], one.found, one.allowed, one.remedy);
  return faults.length === 0;
}

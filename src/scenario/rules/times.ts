/**
 * Every time in the file makes a curve: quick < usual < slow, and nothing that would come again and again
 * without time passing.
 */
import { show, inMinutes, type Place } from '../reading/fault.ts';
import type { Time } from '../schema.ts';
import { leastMean } from './least-time.ts';
import { fault, type Cell } from './cell.ts';

/** Least mean minutes between things that come again and again. */
const LEAST_GAP = 0.01;

/** Beyond this the mean of the curve lies among its rarest times, and says nothing of the work. */
const MOST_SKEW = 20;

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
  if (leastMean(time) >= LEAST_GAP) return;
  fault(
    cell,
    place,
    `a mean of about ${inMinutes(leastMean(time))}`,
    `a mean of at least ${LEAST_GAP} min`,
    'write the minutes from one to the next',
  );
}

function curve(cell: Cell, place: Place, time: Time): boolean {
  const before = cell.faults.length;
  if (typeof time === 'number') return true;
  if ('quick' in time) {
    ascending(cell, place, { quick: time.quick, usual: time.usual, slow: time.slow });
  } else if (!('curve' in time)) {
    if (time.mean === 0 && time.cv > 0)
      fault(
        cell,
        [...place, 'mean'],
        `0 with a spread of ${time.cv}`,
        'a mean of more than 0, or "cv" 0',
        'write the mean minutes',
      );
  } else if (time.curve === 'triangular') {
    if (time.least > time.likeliest)
      fault(
        cell,
        [...place, 'likeliest'],
        show(time.likeliest),
        `at least "least" (${time.least})`,
        'put the three in order',
      );
    if (time.likeliest > time.most)
      fault(
        cell,
        [...place, 'most'],
        show(time.most),
        `at least "likeliest" (${time.likeliest})`,
        'put the three in order',
      );
    if (time.least === time.most)
      fault(
        cell,
        [...place, 'most'],
        show(time.most),
        `more than "least" (${time.least})`,
        'write a plain number where the time is always the same',
      );
  } else if (time.curve === 'uniform' && time.least >= time.most) {
    fault(
      cell,
      [...place, 'most'],
      show(time.most),
      `more than "least" (${time.least})`,
      'put the two in order, or write a plain number',
    );
  }
  return cell.faults.length === before;
}

function ascending(cell: Cell, place: Place, given: { quick: number; usual: number; slow: number }): void {
  if (given.quick >= given.usual) {
    fault(
      cell,
      [...place, 'usual'],
      show(given.usual),
      `more than "quick" (${given.quick})`,
      'one in ten is quicker than "quick", half are under "usual": put them in order',
    );
  }
  if (given.usual >= given.slow) {
    fault(
      cell,
      [...place, 'slow'],
      show(given.slow),
      `more than "usual" (${given.usual})`,
      'one in ten is slower than "slow": put them in order',
    );
  }
  const [under, over] = [given.usual - given.quick, given.slow - given.usual];
  if (under > 0 && over > 0 && Math.max(under / over, over / under) > MOST_SKEW) {
    fault(
      cell,
      place,
      `one side of "usual" ${Math.round(Math.max(under / over, over / under))} times as long as the other`,
      `at most ${MOST_SKEW} times`,
      'look at "quick" and "slow" again, or give the timings themselves: { "curve": "observed", "values": [ ] }',
    );
  }
}

/** Overtime that nobody planned, finishing what was in hand at one's own end, apart from planned overtime. */
import type { Accounts } from '../accounts.ts';
import { listMeasure, readMeasure } from '../measure.ts';
import { copied, MINUTE } from './copied.ts';

function finishingOf({ finishing }: Accounts): number {
  let sum = 0;
  for (let person = 0; person < finishing.length; person++) sum += finishing[person]!;
  return sum / MINUTE;
}

export const finishing = readMeasure({
  name: 'finishing',
  unit: 'minutes',
  label: 'Finishing in overtime',
  description: 'Minutes of overtime with the piece that was in hand at the own end, all people together.',
  day: { kind: 'sum' },
  read: finishingOf,
});

export const plannedOvertime = readMeasure({
  name: 'plannedOvertime',
  unit: 'minutes',
  label: 'Planned overtime',
  description: 'Minutes of overtime beyond that piece: kept on to begin more, tidying up after it in.',
  day: { kind: 'sum' },
  // Sums of parts: never a hair under nothing.
  read: (accounts) => Math.max(0, accounts.wages.overtime - finishingOf(accounts)),
});

export const personFinishing = listMeasure({
  name: 'personFinishing',
  unit: 'minutes',
  label: 'Finishing of people',
  description: 'Minutes of each person after their own end with the piece that was in hand then.',
  per: ['people'],
  write: copied(
    ({ finishing: list }) => list,
    () => 1 / MINUTE,
  ),
});

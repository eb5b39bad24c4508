/** What people and gear did with the minutes of the shift. */
import type { Accounts } from '../accounts.ts';
import { listMeasure, type ListMeasure } from '../measure.ts';
import { copied, MINUTE, writeOver } from './copied.ts';

/** The half of each person's states before their own end (0), or after it (1). */
const half =
  (which: 0 | 1): ListMeasure['write'] =>
  ({ personTime, layout }: Accounts, row, at) => {
    const { personStates, people } = layout;
    for (let person = 0; person < people.length; person++) {
      const from = (2 * person + which) * personStates;
      writeOver(personTime, from, personStates, MINUTE, row, at + person * personStates);
    }
  };

export const personMinutes = listMeasure({
  name: 'personMinutes',
  unit: 'minutes',
  label: 'Minutes of people',
  description: 'Minutes of each person in each state, up to their own end.',
  per: ['people', 'personStates'],
  write: half(0),
});

export const personOvertime = listMeasure({
  name: 'personOvertime',
  unit: 'minutes',
  label: 'Overtime of people',
  description: 'Minutes of each person in each state, after their own end.',
  per: ['people', 'personStates'],
  write: half(1),
});

export const gearMinutes = listMeasure({
  name: 'gearMinutes',
  unit: 'minutes',
  label: 'Minutes of gear',
  description: 'Minutes of each kind of gear in each state, all items of the kind together.',
  per: ['gear', 'gearStates'],
  write: copied(
    ({ gearTime }) => gearTime,
    () => 1 / MINUTE,
  ),
});

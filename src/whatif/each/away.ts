import { clockAfter, minutesAfter } from '../../scenario/clock.ts';
import { bothParts, clockTyped, parted } from '../figures.ts';
import { personName, personOf } from '../names.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** Somebody who is on another line for a while, or no longer is. */
export const away: WhatIf = {
  word: 'away',
  group: 'people',
  takes: 'PERSON=TIME-TIME or PERSON=none',
  says: 'somebody is on another line from then until then, beside what the file has; none: here all day',
  example: 'wren=none',
  such: ({ shift }) =>
    shift.people.length === 0
      ? null
      : `${shift.people.at(-1)!.id}=${clockAfter(shift.start, 120)}-${clockAfter(shift.start, 180)}`,
  read(cell, given) {
    const [name, rest] = bothParts(given);
    const person = personOf(cell, name);
    const who = personName(cell, person);
    if (rest === 'none')
      return { changes: { people: { [person.id]: { away: [] } } }, label: `${who} never away` };
    const [first, last] = parted(rest, '-');
    if (first === null) throw new NotSo(`“${rest}” is no stretch such as 09:00-10:00, and not none`);
    const [from, to] = [clockTyped(first), clockTyped(last)];
    const { start, length } = cell.shift;
    if (minutesAfter(start, from) >= length || from === to)
      throw new NotSo(`${rest} is not within the shift`);
    const now = cell.scenario.people[person.id]?.away ?? [];
    const all = [...now, { from, to }].sort(
      (one, other) => minutesAfter(start, one.from) - minutesAfter(start, other.from),
    );
    return {
      changes: { people: { [person.id]: { away: all } } },
      label: `${who} away from ${from} to ${to}`,
    };
  },
  offers: ({ shift }) => [
    ...shift.people.filter(({ away: times }) => times.length > 0).map(({ id }) => `${id}=none`),
    ...shift.people.map(({ id }) => `${id}=${clockAfter(shift.start, 120)}-${clockAfter(shift.start, 180)}`),
  ],
};

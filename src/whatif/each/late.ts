import { bothParts, parted, plainNumber, shown } from '../figures.ts';
import { personName, personOf } from '../names.ts';
import type { WhatIf } from '../what-if.ts';

/** Somebody who comes late, for sure or with a chance. */
export const late: WhatIf = {
  word: 'late',
  group: 'people',
  takes: 'PERSON=MINUTES[@CHANCE]',
  says: 'somebody comes so late; @50: with a chance of 50 %',
  example: 'kofi=30',
  such: ({ shift }) => (shift.people.length === 0 ? null : `${shift.people.at(-1)!.id}=30`),
  read(cell, given) {
    const [name, rest] = bothParts(given);
    const [minutes, chance] = rest.includes('@')
      ? [parted(rest, '@')[0]!, parted(rest, '@')[1]]
      : [rest, null];
    const person = personOf(cell, name);
    const by = plainNumber(minutes, 0, 1440);
    const percent = chance === null ? 100 : plainNumber(chance, 0, 100);
    return {
      changes: { people: { [person.id]: { attendance: { late: by, latePercent: percent } } } },
      label: `${personName(cell, person)} ${shown(by)} min late${percent === 100 ? '' : ` with a chance of ${shown(percent)} %`}`,
    };
  },
  offers: ({ shift }) => shift.people.map(({ id }) => `${id}=30`),
};

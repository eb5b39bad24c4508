import { listed } from '../../words/words.ts';
import { peopleOf, personName } from '../names.ts';
import type { WhatIf } from '../what-if.ts';

/** People who do not come. */
export const out: WhatIf = {
  word: 'out',
  group: 'people',
  takes: 'PERSON[,PERSON]',
  says: 'who does not come',
  example: 'wren',
  such: ({ shift }) => shift.people.at(-1)?.id ?? null,
  read(cell, given) {
    const people = peopleOf(cell, given);
    return {
      changes: { people: Object.fromEntries(people.map(({ id }) => [id, { attendance: { percent: 0 } }])) },
      label: `${listed(people.map((person) => personName(cell, person)))} out`,
    };
  },
  offers: ({ shift }) => shift.people.filter(({ chance }) => chance > 0).map(({ id }) => id),
};

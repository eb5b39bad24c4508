import { bothParts } from '../figures.ts';
import { personName, personOf } from '../names.ts';
import { postsOf, postWords, skillsFor } from '../posts.ts';
import type { WhatIf } from '../what-if.ts';

/** Who stands where, from the start on, instead of what the file says. */
export const stands: WhatIf = {
  word: 'stands',
  group: 'people',
  takes: 'PERSON=POST[,POST]',
  says: 'somebody stands at these posts, the first before the others, and at no other',
  example: 'kofi=check,sand',
  such: ({ shift }) => shift.people.map(({ id, cover }) => `${id}=${cover[0]!.steps.join(',')}`)[0] ?? null,
  read(cell, given) {
    const [name, list] = bothParts(given);
    const person = personOf(cell, name);
    const posts = postsOf(cell, list);
    return {
      changes: {
        people: {
          [person.id]: { covers: posts.map(({ step }) => step), ...skillsFor(cell.scenario, person, posts) },
        },
      },
      label: `${personName(cell, person)} at ${postWords(cell, posts)}`,
    };
  },
  offers: () => [],
};

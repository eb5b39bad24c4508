import type { ResolvedPerson } from '../../scenario/resolve.ts';
import { bothParts } from '../figures.ts';
import { personName, personOf } from '../names.ts';
import { coverNow, postsOf, postWords, skillsFor } from '../posts.ts';
import { NotSo, type Cell, type WhatIf } from '../what-if.ts';

/** One more post for somebody, beside those they stand at. */
export const also: WhatIf = {
  word: 'also',
  group: 'people',
  takes: 'PERSON=POST[/SKILL][,POST]',
  says: 'somebody also stands at this post, a later step first; skill 1 in training, 2 with help, 3 alone (if not said)',
  example: 'orla=unclamp',
  such: (cell) => firstFree(cell),
  read(cell, given) {
    const [name, list] = bothParts(given);
    const person = personOf(cell, name);
    const posts = postsOf(cell, list);
    const there = posts.find(({ step, skill }) => skill === null && everywhere(person, step));
    if (there !== undefined) throw new NotSo(`${person.name} stands at “${there.step}” already`);
    const steps = posts.map(({ step }) => step);
    const filed = cell.scenario.people[person.id]?.changes;
    return {
      changes: {
        people: {
          [person.id]: {
            covers: withLater(cell, coverNow(person), steps),
            ...(filed === undefined
              ? {}
              : { changes: filed.map((one) => ({ ...one, covers: withLater(cell, one.covers, steps) })) }),
            ...skillsFor(cell.scenario, person, posts),
          },
        },
      },
      label: `${personName(cell, person)} also at ${postWords(cell, posts)}`,
    };
  },
  offers: (cell) =>
    cell.shift.people.flatMap((person) =>
      cell.shift.steps
        .filter(
          ({ id, kind }) => kind === 'hands' && !everywhere(person, id) && Object.hasOwn(person.skills, id),
        )
        .map(({ id }) => `${person.id}=${id}`),
    ),
};

const everywhere = (person: ResolvedPerson, step: string): boolean =>
  coverNow(person).includes(step) && person.cover.every(({ steps }) => steps.includes(step));

/** New posts among the old ones: each before the first that comes earlier on the piece's way. */
function withLater({ shift }: Cell, covers: string[], more: string[]): string[] {
  const place = (step: string): number => shift.steps.findIndex(({ id }) => id === step);
  return more
    .filter((step) => !covers.includes(step))
    .reduce((list, step) => {
      const before = list.findIndex((other) => place(other) < place(step));
      return before < 0 ? [...list, step] : [...list.slice(0, before), step, ...list.slice(before)];
    }, covers);
}

function firstFree({ shift }: Cell): string | null {
  for (const person of shift.people) {
    const post = shift.steps.find(({ id, kind }) => kind === 'hands' && !coverNow(person).includes(id));
    if (post !== undefined) return `${person.id}=${post.id}`;
  }
  return null;
}

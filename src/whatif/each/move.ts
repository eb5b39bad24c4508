import { clockAfter, minutesAfter } from '../../scenario/clock.ts';
import { bothParts, clockTyped, parted } from '../figures.ts';
import { personName, personOf } from '../names.ts';
import { coverNow, postsOf, postWords, skillsFor } from '../posts.ts';
import { NotSo, type WhatIf } from '../what-if.ts';

/** Other posts for somebody from a time of the day on. */
export const move: WhatIf = {
  word: 'move',
  group: 'people',
  takes: 'PERSON=POST[,POST]@TIME',
  says: 'somebody stands at these posts from then on, the first before the others',
  example: 'bastian=clean@10:30',
  such: ({ shift }) => {
    const [person] = shift.people;
    const [post] = person === undefined ? [] : coverNow(person);
    return post === undefined ? null : `${person!.id}=${post}@${clockAfter(shift.start, 240)}`;
  },
  read(cell, given) {
    const [name, rest] = bothParts(given);
    const [list, at] = parted(rest, '@');
    if (list === null) throw new NotSo(`“${given}” has no time behind @`);
    const person = personOf(cell, name);
    const posts = postsOf(cell, list);
    const from = clockTyped(at);
    const { start, length } = cell.shift;
    if (minutesAfter(start, from) >= length) throw new NotSo(`${from} is outside the shift`);
    const before = (cell.scenario.people[person.id]?.changes ?? []).filter((one) => one.from !== from);
    const changes = [...before, { from, covers: posts.map(({ step }) => step) }].sort(
      (one, other) => minutesAfter(start, one.from) - minutesAfter(start, other.from),
    );
    return {
      changes: { people: { [person.id]: { changes, ...skillsFor(cell.scenario, person, posts) } } },
      label: `${personName(cell, person)} at ${postWords(cell, posts)} from ${from}`,
    };
  },
  offers: () => [],
};

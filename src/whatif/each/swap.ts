import type { ResolvedPerson } from '../../scenario/resolve.ts';
import { personName, peopleOf } from '../names.ts';
import { skillsFor } from '../posts.ts';
import { NotSo, type Cell, type Change, type WhatIf } from '../what-if.ts';

/** Two people take each other's posts, for the whole day. */
export const swap: WhatIf = {
  word: 'swap',
  group: 'people',
  takes: 'PERSON,PERSON',
  says: 'two people take each other’s posts; what somebody has no skill for is taken to be done alone',
  example: 'ines,kofi',
  such: ({ shift }) => (shift.people.length < 2 ? null : `${shift.people[0]!.id},${shift.people[1]!.id}`),
  read(cell, given) {
    const people = peopleOf(cell, given);
    const [one, other] = people;
    if (people.length !== 2 || one === undefined || other === undefined)
      throw new NotSo('it takes two different people');
    return {
      changes: {
        people: { [one.id]: postsOfOther(cell, one, other), [other.id]: postsOfOther(cell, other, one) },
      },
      label: `${personName(cell, one)} and ${personName(cell, other)} swap posts`,
    };
  },
  offers: ({ shift }) => {
    const able = (who: ResolvedPerson, of: ResolvedPerson): boolean =>
      of.cover.every(({ steps }) => steps.every((step) => Object.hasOwn(who.skills, step)));
    const alike = (one: ResolvedPerson, other: ResolvedPerson): boolean =>
      JSON.stringify(one.cover) === JSON.stringify(other.cover);
    return shift.people.flatMap((one, at) =>
      shift.people
        .slice(at + 1)
        .filter((other) => able(one, other) && able(other, one) && !alike(one, other))
        .map((other) => `${one.id},${other.id}`),
    );
  },
};

function postsOfOther({ scenario }: Cell, who: ResolvedPerson, of: ResolvedPerson): Change {
  const steps = [...new Set(of.cover.flatMap((one) => one.steps))];
  const { changes } = scenario.people[of.id]!;
  const had = scenario.people[who.id]!.changes !== undefined;
  return {
    covers: of.cover[0]?.steps ?? [],
    ...(changes === undefined ? (had ? { changes: null } : {}) : { changes }),
    ...skillsFor(
      scenario,
      who,
      steps.map((step) => ({ step, skill: null })),
    ),
  };
}

/** The file with more of something in it: gear, benches, people. */
import { benchesOf } from '../resolving/steps.ts';
import type { Scenario } from '../schema.ts';
import { changedThroughout, numberAt, type Change } from './throughout.ts';

/** A scenario with `more` of a gear, in the shifts that follow too. */
export function moreGear(scenario: Scenario, id: string, more: number): Scenario {
  const bumped = (count: number | undefined): Change =>
    count === undefined ? {} : { gear: { [id]: { count: count + more } } };
  return changedThroughout(scenario, bumped(scenario.gear?.[id]?.count), (changes) =>
    bumped(numberAt(changes, ['gear', id, 'count'])),
  );
}

/** A scenario with one bench more at each of these steps, in the shifts that follow too. */
export function moreBenches(scenario: Scenario, ids: string[]): Scenario {
  return ids.reduce((one, id) => {
    const bumped = (count: number): Change => ({ steps: { [id]: { benches: count + 1 } } });
    return changedThroughout(one, bumped(benchesOf(one.steps[id]!)), (changes) => {
      const count = numberAt(changes, ['steps', id, 'benches']);
      return count === undefined ? {} : bumped(count);
    });
  }, scenario);
}

/**
 * The same person once more, last in crew order; whatever a following shift changes about the one it changes
 * about the other.
 */
export function secondPerson(scenario: Scenario, id: string): Scenario {
  const twin = freeId(scenario, id);
  const person = scenario.people[id]!;
  const who = scenario.shift?.overtime?.who;
  const overtime: Change = who?.includes(id) === true ? { shift: { overtime: { who: [...who, twin] } } } : {};
  const named = { ...person, name: `a second ${person.name ?? id}` };
  return changedThroughout(scenario, { ...overtime, people: { [twin]: named } }, (changes) => {
    const people = changes['people'] as Record<string, unknown> | undefined;
    return people !== undefined && Object.hasOwn(people, id) ? { people: { [twin]: people[id] } } : {};
  });
}

function freeId(scenario: Scenario, id: string): string {
  const stem = id.slice(0, 36);
  let number = 2;
  while (`${stem}-${number}` in scenario.people) number += 1;
  return `${stem}-${number}`;
}

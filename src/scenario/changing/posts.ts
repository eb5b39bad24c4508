/** The file with somebody posted otherwise, or with breaks at another time. */
import { clockOfMinutes, minutesOfClock } from '../clock.ts';
import { DEFAULTS } from '../defaults.ts';
import type { Person, Scenario } from '../schema.ts';

function withPerson(scenario: Scenario, id: string, change: (person: Person) => Person): Scenario | null {
  const person = scenario.people[id];
  return person === undefined ? null : { ...scenario, people: { ...scenario.people, [id]: change(person) } };
}

/** Somebody at a step before all else, or for want of anything else; null without that person. */
export const postedAt = (
  scenario: Scenario,
  id: string,
  step: string,
  place: 'first' | 'last',
): Scenario | null =>
  withPerson(scenario, id, (person) => {
    const others = (person.covers ?? []).filter((one) => one !== step);
    return { ...person, covers: place === 'first' ? [step, ...others] : [...others, step] };
  });

/**
 * The shift's breaks for one person, each begun when it ends for the others; one at the start stays where
 * it is. Null without that person.
 */
export function breaksAfterOthers(scenario: Scenario, id: string): Scenario | null {
  const start = minutesOfClock(scenario.shift?.start ?? DEFAULTS.shift.start);
  const breaks = (scenario.shift?.breaks ?? []).map((one) => {
    const from = minutesOfClock(one.from);
    return from === start ? one : { ...one, from: clockOfMinutes(from + one.minutes) };
  });
  return withPerson(scenario, id, (person) => ({ ...person, breaks }));
}

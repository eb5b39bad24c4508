/** Crew sheets of any number of people, named as those of the shops are. */
import type { Scenario } from '../../src/scenario/schema.ts';
import { openDay } from '../../src/staffing/question.ts';
import { sheetOf, type CrewSheet } from '../../src/staffing/sheet.ts';
import { shipped, shop, SHOPS } from './shops.ts';

const NAMES = ['chair-works' as const]
  .flatMap((name) => Object.values(shipped(name).people))
  .concat(SHOPS.flatMap((name) => Object.values(shop(name).people)))
  .map(({ name }) => name);

/** The shop with so many people: its own, then more of the same with names from the other shops. */
export function crowded(scenario: Scenario, count: number): Scenario {
  const own = Object.entries(scenario.people);
  const spare = [...new Set(NAMES)].filter((name) => !own.some(([, person]) => person.name === name));
  const people = Array.from({ length: count }, (_, at): [string, (typeof own)[number][1]] =>
    at < own.length
      ? own[at]!
      : [`more-${at}`, { ...own[at % own.length]![1], name: spare[(at - own.length) % spare.length]! }],
  );
  return { ...scenario, people: Object.fromEntries(people) };
}

/** The file's own posts of so many people. */
export function crewSheet(scenario: Scenario, count: number): CrewSheet {
  const made = crowded(scenario, count);
  return sheetOf(openDay({ scenario: made }), made);
}

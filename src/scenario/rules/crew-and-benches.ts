/**
 * A crew that outnumbers its benches: at some time, some people together cover steps with fewer places than
 * there are of them. Found by giving everybody a place at a step they cover, one each (augmenting paths);
 * whoever is left over shows which steps are short. Legitimate (somebody who steps in during breaks), so it
 * is pointed out and not refused.
 */
import { listed } from '../reading/fault.ts';
import type { ResolvedPerson, ResolvedStep } from '../resolve.ts';
import { remark, type Cell } from './cell.ts';

interface Place {
  step: ResolvedStep;
  taken: ResolvedPerson | null;
}

export function crewAndBenches(cell: Cell): void {
  const times = [
    ...new Set(
      cell.shift.people.flatMap((person) => [
        person.from,
        ...person.cover.map((one) => Math.max(one.from, person.from)),
      ]),
    ),
  ].sort((a, b) => a - b);
  const told = new Set<string>();
  for (const time of times) {
    const short = shortSteps(cell, time);
    if (short === null || told.has(short.steps.join())) continue;
    told.add(short.steps.join());
    remark(
      cell,
      ['people', short.people[0]!],
      `${short.people.length} people (${listed(short.people, 'and')}) at ${listed(short.steps, 'and')}`,
      `${short.places} at once, by the benches there`,
      'add a bench, or let somebody stand elsewhere; the others wait for the bench',
    );
  }
}

const coverAt = (person: ResolvedPerson, time: number): string[] =>
  person.from <= time && time < person.to
    ? (person.cover.findLast((one) => one.from <= time)?.steps ?? [])
    : [];

function shortSteps(cell: Cell, time: number): { people: string[]; steps: string[]; places: number } | null {
  const here = cell.shift.people.filter((person) => coverAt(person, time).length > 0);
  const places = cell.shift.steps
    .filter((step) => step.kind === 'hands')
    .flatMap((step) =>
      Array.from({ length: Math.min(placesAt(cell, step), here.length) }, (): Place => ({
        step,
        taken: null,
      })),
    );
  for (const person of here) {
    const asked = new Set<Place>();
    if (seat(person, time, places, asked)) continue;
    const steps = [...new Set([...asked].map((place) => place.step.id))];
    const people = here
      .filter((one) => coverAt(one, time).every((step) => steps.includes(step)))
      .map((one) => one.id);
    return steps.length === 0 ? null : { people, steps, places: asked.size };
  }
  return null;
}

/** How many people can work at a step at once, by all the gear it uses. */
function placesAt(cell: Cell, step: ResolvedStep): number {
  const counts = step.uses.map((gear) => cell.shift.gear.find((one) => one.id === gear)!.count);
  return counts.length === 0 ? Infinity : Math.min(...counts) * step.people;
}

function seat(person: ResolvedPerson, time: number, places: Place[], asked: Set<Place>): boolean {
  for (const place of places) {
    if (asked.has(place) || !coverAt(person, time).includes(place.step.id)) continue;
    asked.add(place);
    if (place.taken === null || seat(place.taken, time, places, asked)) {
      place.taken = person;
      return true;
    }
  }
  return false;
}

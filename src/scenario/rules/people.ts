/** Who can do what: everybody covers something, nobody covers a wait, and every hands step has somebody. */
import { listed, type Place } from '../reading/fault.ts';
import type { ResolvedPerson } from '../resolve.ts';
import { fault, remark, stepOf, type Cell } from './cell.ts';
import { reachedByAny } from './ways.ts';

export function people(cell: Cell): void {
  for (const person of cell.shift.people) onePerson(cell, person);
  for (const step of reachedByAny(cell)) {
    if (step.kind === 'hands') somebody(cell, step.id, step.people);
  }
}

/** Whether this person stands at the step at any time of the day. */
export const covers = (person: ResolvedPerson, step: string): boolean =>
  person.cover.some((one) => one.steps.includes(step));

function onePerson(cell: Cell, person: ResolvedPerson): void {
  const given = cell.scenario.people[person.id]!;
  const at: Place = ['people', person.id];
  const before = cell.faults.length;
  for (const step of Object.keys(given.skills ?? {}))
    if (stepOf(cell, step).kind === 'wait') atWait(cell, [...at, 'skills', step], step);
  const lists: [Place, string[]][] = [
    [[...at, 'covers'], given.covers ?? []],
    ...(given.changes ?? []).map((one, i): [Place, string[]] => [
      [...at, 'changes', i, 'covers'],
      one.covers,
    ]),
  ];
  for (const [place, list] of lists)
    list.forEach((step, i) => oneCover(cell, [...place, i], person, step, given.skills !== undefined));
  if (cell.faults.length === before && person.cover.every((one) => one.steps.length === 0)) {
    fault(
      cell,
      at,
      `"${person.id}" at no step at any time`,
      'at least one step to cover',
      given.skills === undefined && given.covers === undefined
        ? 'add "covers": the steps this person stands at'
        : 'add a step to "covers", or take the person out of the file',
    );
  }
}

function atWait(cell: Cell, place: Place, step: string): void {
  fault(cell, place, `the wait "${step}"`, 'hands steps only: a wait needs nobody', 'take it away');
}

function oneCover(cell: Cell, place: Place, person: ResolvedPerson, step: string, hasSkills: boolean): void {
  if (stepOf(cell, step).kind === 'wait') atWait(cell, place, step);
  else if (hasSkills && !Object.hasOwn(person.skills, step)) {
    fault(
      cell,
      place,
      `"${step}", which is not among the skills of "${person.id}"`,
      `a step of "skills" with a level of 1 or more: ${listed(Object.keys(person.skills))}`,
      `add "${step}" to "skills", or take it out of "covers"`,
    );
  }
}

function somebody(cell: Cell, step: string, needed: number): void {
  const able = cell.shift.people.filter((person) => Object.hasOwn(person.skills, step));
  const there = cell.shift.people.filter((person) => covers(person, step));
  if (able.length === 0) {
    fault(
      cell,
      ['steps', step],
      `nobody who can do "${step}"`,
      'at least one person with the skill',
      `add "${step}" to somebody's "covers" or "skills"`,
    );
  } else if (able.length < needed) {
    fault(
      cell,
      ['steps', step, 'people'],
      `one person (${able[0]!.id}) who can do "${step}"`,
      'two, since two do it together',
      `add "${step}" to somebody else's "covers" or "skills", or write "people": 1`,
    );
  } else if (there.length < needed) {
    const idle = able.filter((person) => !there.includes(person)).map((person) => person.id);
    remark(
      cell,
      ['steps', step],
      there.length === 0 ? `nobody at "${step}" at any time` : `one person at "${step}", which takes two`,
      'somebody who covers it',
      `let ${listed(idle)} cover it: nothing gets past it otherwise`,
    );
  }
}

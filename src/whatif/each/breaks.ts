import { clockAfter } from '../../scenario/clock.ts';
import type { ResolvedBreak, ResolvedPerson } from '../../scenario/resolve.ts';
import { nearest, listed as either } from '../../scenario/reading/fault.ts';
import { capitalized, listed } from '../../words/words.ts';
import { bothParts, clockTyped, shiftOfMinutes, shown } from '../figures.ts';
import { peopleOf, personName } from '../names.ts';
import { NotSo, type Cell, type Change, type Made, type WhatIf } from '../what-if.ts';

/** Breaks moved: those of some people, so that the cell is never empty, or one of everybody's. */
export const breaks: WhatIf = {
  word: 'break',
  group: 'people',
  takes: 'PERSON[,PERSON]=+MINUTES, or BREAK=+MINUTES or BREAK=TIME',
  says: 'the breaks of these people later or earlier (what is held at the start stays), or one break of all; BREAK is its name or its time',
  example: 'tova,kofi=+15',
  such: ({ shift }) => (shift.people.length === 0 ? null : `${shift.people.at(-1)!.id}=+15`),
  read(cell, given) {
    const [who, value] = bothParts(given);
    const of = breaksNamed(cell, who);
    return of === null ? peopleMoved(cell, peopleNamed(cell, who), value) : oneMoved(cell, of, value);
  },
  offers: () => [],
};

const clockOf = ({ shift }: Cell, one: ResolvedBreak): string => clockAfter(shift.start, one.from);
const plain = (text: string): string => text.trim().toLowerCase();

/** The shift's breaks of that name, or at that time; null where there is none. */
function breaksNamed(cell: Cell, given: string): ResolvedBreak[] | null {
  const at = /^\d{1,2}:\d\d$/.test(given) ? clockTyped(given) : null;
  const found = cell.shift.breaks.filter((one) =>
    at === null ? plain(one.name) === plain(given) : clockOf(cell, one) === at,
  );
  if (found.length === 0 && at === null) return null;
  if (found.length === 1) return found;
  const times = either(
    (found.length === 0 ? cell.shift.breaks : found).map((one) => clockOf(cell, one)),
    'and',
  );
  throw new NotSo(
    found.length === 0
      ? `no break begins at ${given}; they begin at ${times}`
      : `several breaks are called “${given}”; say which by its time: ${times}`,
  );
}

function peopleNamed(cell: Cell, given: string): ResolvedPerson[] {
  try {
    return peopleOf(cell, given);
  } catch (error) {
    const names = cell.shift.breaks.map(({ name }) => name);
    if (!(error instanceof NotSo)) throw error;
    throw new NotSo(
      `${error.message}, and of breaks ${either([...new Set(names)], 'and')}`,
      error.near ?? nearest(given, names),
    );
  }
}

const written = (cell: Cell, all: ResolvedBreak[]): Change[] =>
  all.map((one) => ({ from: clockOf(cell, one), minutes: one.minutes, name: one.name, paid: one.paid }));

function peopleMoved(cell: Cell, people: ResolvedPerson[], value: string): Made {
  const by = shiftOfMinutes(value);
  const moved = people.map((person) => {
    const own = person.breaks.map((one) => (one.from === 0 ? one : { ...one, from: one.from + by }));
    if (own.some((one) => one.from < 0 || one.from >= cell.shift.length))
      throw new NotSo(`a break of ${person.name} would be outside the shift`);
    return [person.id, { breaks: written(cell, own) }] as const;
  });
  const names = listed(people.map((person) => personName(cell, person)));
  return {
    changes: { people: Object.fromEntries(moved) },
    label: `Breaks of ${names} ${minutesLater(by)}`,
  };
}

function oneMoved(cell: Cell, named: ResolvedBreak[], value: string): Made {
  const [one] = named as [ResolvedBreak];
  const to = /^[+-]/.test(value) ? clockAfter(clockOf(cell, one), shiftOfMinutes(value)) : clockTyped(value);
  const all = cell.shift.breaks;
  const list = written(cell, all).map((entry, at) => (all[at] === one ? { ...entry, from: to } : entry));
  return {
    changes: { shift: { breaks: list } },
    label: `${capitalized(one.name)} of ${clockOf(cell, one)} at ${to}`,
  };
}

const minutesLater = (by: number): string => `${shown(Math.abs(by))} min ${by < 0 ? 'earlier' : 'later'}`;

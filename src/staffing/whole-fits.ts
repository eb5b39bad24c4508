/** Whole steps in a draft: a plan in which nobody could finish one cannot be run. */
import { offsOf } from '../scenario/resolving/people.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import { cellOf } from '../scenario/rules/cell.ts';
import { nearestMiss, wholeSteps } from '../scenario/rules/whole.ts';
import type { Scenario } from '../scenario/schema.ts';
import { isMovable, type Draft, type PersonDraft } from './draft.ts';
import type { Day } from './question.ts';

/** Thousands of drafts are asked about, and what a step takes is the same in each. */
const known = new WeakMap<Scenario, ReturnType<typeof wholeSteps>>();

function wholeOf({ scenario }: Day): ReturnType<typeof wholeSteps> {
  const found = known.get(scenario) ?? wholeSteps(cellOf(scenario));
  known.set(scenario, found);
  return found;
}

/** Ids of the whole steps that are covered, and too long for all who cover them. */
export function wholeTooLong(day: Day, draft: Draft): string[] {
  const whole = wholeOf(day);
  if (whole.length === 0) return [];
  const shift = drafted(day, draft);
  return whole.filter(({ id, least }) => nearestMiss(shift, id, least) !== null).map(({ id }) => id);
}

/** The day's shift with the draft in it, as far as stretches of time go. */
function drafted({ shift, overtime }: Day, draft: Draft): ResolvedShift {
  return {
    ...shift,
    people: shift.people.map((person) => {
      const own = draft.people[person.id];
      return own === undefined ? person : { ...person, cover: own.posts, offs: offs(person, own) };
    }),
    steps: shift.steps.map((step) => {
      const last = draft.lastStart[step.id];
      return last === undefined ? step : { ...step, shut: [...step.shut, { after: last, until: Infinity }] };
    }),
    overtime:
      draft.overtime === null || overtime === null
        ? shift.overtime
        : { ...shift.overtime, ...draft.overtime, until: overtime.until },
  };
}

const offs = (person: ResolvedPerson, { breaksLater }: PersonDraft): ResolvedPerson['offs'] =>
  breaksLater === 0
    ? person.offs
    : offsOf(
        person.away,
        person.breaks.map((one) => (isMovable(one, person) ? { ...one, from: one.from + breaksLater } : one)),
      );

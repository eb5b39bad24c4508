/**
 * The hard rules of a crew plan, whoever made it: skills, coverage, hours, breaks, overtime, last starts. The
 * planner's moves keep them by how they are made; this is the check that they did, and the judge of changes
 * made by hand.
 */
import { resolve, type ResolvedPerson, type ResolvedShift } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { plannedMinutes, type Day } from './question.ts';

export type BrokenRule =
  | { kind: 'no skill'; person: string; step: string }
  /** At no step at any time of their day. */
  | { kind: 'no post'; person: string }
  /** Has a piece of the step in hand at the start, and stands at it at no time. */
  | { kind: 'piece in hand'; person: string; step: string }
  /**
   * Nobody, or one where it takes two, covers the step from this minute on, though somebody who comes could.
   */
  | { kind: 'nobody there'; step: string; from: number }
  | { kind: 'hours changed'; person: string }
  /** A break left out, shortened, made unpaid, moved forward, or moved beyond the end. */
  | { kind: 'break changed'; person: string }
  | { kind: 'overtime not allowed'; person: string }
  | { kind: 'overtime too long'; minutes: number; most: number }
  | { kind: 'hours a day'; person: string; hours: number; most: number }
  /** Begun later than the file allows. */
  | { kind: 'last start'; step: string };

/** What a plan for the day breaks; [] where it keeps every rule. `plan` has the day's people and steps. */
export function brokenRules(day: Day, plan: Scenario): BrokenRule[] {
  const shift = resolve(plan);
  const present = shift.people.filter((person) => day.present.includes(person.id));
  return [
    ...present.flatMap((person) =>
      personRules(
        day,
        person,
        day.shift.people.find((one) => one.id === person.id)!,
      ),
    ),
    ...day.shift.carryOver.flatMap(({ state, person, at }): BrokenRule[] => {
      const whose = state === 'in hand' ? present.find((one) => one.id === person) : undefined;
      return whose === undefined || whose.cover.some((one) => one.steps.includes(at))
        ? []
        : [{ kind: 'piece in hand', person: whose.id, step: at }];
    }),
    ...coverage(day, shift, present),
    ...overtimeRules(day, shift, present),
    ...shift.steps.flatMap((step): BrokenRule[] => {
      const before = day.shift.steps.find((one) => one.id === step.id)?.lastStart ?? null;
      return before !== null && (step.lastStart === null || step.lastStart > before)
        ? [{ kind: 'last start', step: step.id }]
        : [];
    }),
  ];
}

function personRules(day: Day, person: ResolvedPerson, before: ResolvedPerson): BrokenRule[] {
  const steps = new Set(person.cover.flatMap((one) => one.steps));
  return [
    ...[...steps]
      .filter((step) => before.skills[step] === undefined)
      .map((step): BrokenRule => ({ kind: 'no skill', person: person.id, step })),
    ...(steps.size === 0 ? [{ kind: 'no post' as const, person: person.id }] : []),
    ...(person.from !== before.from || person.to !== before.to
      ? [{ kind: 'hours changed' as const, person: person.id }]
      : []),
    ...(breaksKept(day, person, before) ? [] : [{ kind: 'break changed' as const, person: person.id }]),
  ];
}

/**
 * Every time off as long as it was, in the same order, none earlier than in the file, none after the person's
 * end.
 */
function breaksKept(day: Day, person: ResolvedPerson, before: ResolvedPerson): boolean {
  if (person.offs.length !== before.offs.length) return false;
  return before.offs.every((off, at) => {
    const now = person.offs[at]!;
    const moved = now.from - off.from;
    const same = now.kind === off.kind && now.minutes === off.minutes && now.share === off.share;
    return (
      same &&
      moved >= 0 &&
      (moved === 0 || (off.kind === 'break' && now.from + now.minutes <= person.to - day.shift.tidyUp))
    );
  });
}

function coverage(day: Day, shift: ResolvedShift, present: ResolvedPerson[]): BrokenRule[] {
  const times = [...new Set(present.flatMap((person) => person.cover.map((one) => one.from)))].sort(
    (a, b) => a - b,
  );
  return shift.steps
    .filter((step) => step.kind === 'hands' && !day.uncovered.includes(step.id))
    .flatMap((step): BrokenRule[] => {
      const from = times.find(
        (time) => present.filter((person) => stepsAt(person, time).includes(step.id)).length < step.people,
      );
      // A tool that shakes hands may have to be laid down early: a limit comes before the last pieces.
      const mayEndEarly = (day.limits.vibration[step.id]?.level ?? 0) > 0;
      return from === undefined || (mayEndEarly && from > 0)
        ? []
        : [{ kind: 'nobody there', step: step.id, from }];
    });
}

export const stepsAt = (person: Pick<ResolvedPerson, 'cover'>, time: number): string[] =>
  person.cover.findLast((one) => one.from <= time)?.steps ?? [];

function overtimeRules(day: Day, shift: ResolvedShift, present: ResolvedPerson[]): BrokenRule[] {
  const { until, cap, who } = shift.overtime;
  if (until === 'none' || cap === 0) return [];
  const most = day.overtime?.cap ?? 0;
  const asked = present.filter((person) => person.overtime && (who?.includes(person.id) ?? true));
  const hours = day.limits.hoursPerDay;
  return [
    ...(cap > most ? [{ kind: 'overtime too long' as const, minutes: cap, most }] : []),
    ...asked
      .filter((person) => !(day.overtime?.who.includes(person.id) ?? false))
      .map((person): BrokenRule => ({ kind: 'overtime not allowed', person: person.id })),
    ...(hours === null
      ? []
      : asked
          .filter((person) => plannedMinutes(person) + cap > hours * 60)
          .map((person): BrokenRule => ({
            kind: 'hours a day',
            person: person.id,
            hours: (plannedMinutes(person) + cap) / 60,
            most: hours,
          }))),
  ];
}

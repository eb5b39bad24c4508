/**
 * A draft of the day's plan: what the planner decides and nothing else. Drafts are values: a change makes a
 * new one.
 */
import { clockAfter } from '../scenario/clock.ts';
import { type ResolvedBreak, type ResolvedPerson, type ResolvedShift } from '../scenario/resolve.ts';
import type { Person, Scenario } from '../scenario/schema.ts';
import type { Day } from './question.ts';

export interface Post {
  /** Minutes from the start of the shift; the first post of a person is from 0. */
  from: number;
  /** In order of preference. */
  steps: string[];
}

export interface PersonDraft {
  posts: Post[];
  rule: 'in order' | 'oldest';
  /** Minutes by which their breaks come later than in the file. */
  breaksLater: number;
}

export interface Draft {
  /** By person present. */
  people: Record<string, PersonDraft>;
  /** By step: minutes from the start after which it is not begun; steps not named are as in the file. */
  lastStart: Record<string, number>;
  /** Null: none. `who` in crew order, never empty. */
  overtime: { cap: number; who: string[] } | null;
}

/** The day as the file has it: its posts and breaks, no overtime. */
export function draftOf(day: Day): Draft {
  return {
    people: Object.fromEntries(
      day.present.map((id): [string, PersonDraft] => {
        const person = day.shift.people.find((one) => one.id === id)!;
        return [
          id,
          {
            posts: person.cover.map(({ from, steps }) => ({ from, steps })),
            rule: person.rule,
            breaksLater: 0,
          },
        ];
      }),
    ),
    lastStart: {},
    overtime: null,
  };
}

/** The day's scenario with a draft in it. */
export function withDraft(day: Day, draft: Draft): Scenario {
  const { scenario } = day;
  const clock = (minutes: number): string => clockAfter(day.shift.start, minutes);
  const people = Object.entries(scenario.people).map(([id, person]): [string, Person] => {
    const own = draft.people[id];
    return [id, own === undefined ? person : personWith(day, id, own)];
  });
  const steps = Object.entries(scenario.steps).map(([id, step]): [string, typeof step] => {
    const last = draft.lastStart[id];
    return [id, last === undefined ? step : { ...step, lastStart: clock(last) }];
  });
  const overtime =
    draft.overtime === null || day.overtime === null
      ? { until: 'none' as const }
      : { until: day.overtime.until, cap: draft.overtime.cap, who: draft.overtime.who };
  return {
    ...scenario,
    people: Object.fromEntries(people),
    steps: Object.fromEntries(steps),
    shift: { ...scenario.shift, overtime },
  };
}

function personWith({ scenario, shift }: Day, id: string, draft: PersonDraft): Person {
  const person = scenario.people[id]!;
  const known = shift.people.find((one) => one.id === id)!;
  const clock = (minutes: number): string => clockAfter(shift.start, minutes);
  const { changes: _changes, rule: _rule, ...kept } = person;
  const [first, ...later] = draft.posts;
  return {
    ...kept,
    // A file without skills says what people can do by what they cover: that must not shrink with the plan.
    ...(person.skills === undefined ? { skills: skillsFrom(known, shift) } : {}),
    covers: first!.steps,
    ...(later.length === 0
      ? {}
      : { changes: later.map((post) => ({ from: clock(post.from), covers: post.steps })) }),
    ...(draft.rule === 'in order' ? {} : { rule: draft.rule }),
    ...(draft.breaksLater === 0
      ? {}
      : {
          breaks: known.breaks.map((one) => ({
            ...one,
            from: clock(one.from + (isMovable(one, known) ? draft.breaksLater : 0)),
          })),
        }),
  };
}

/** What a person can do, as a file lists it, in the order of the work. */
const skillsFrom = ({ skills }: ResolvedPerson, { steps }: ResolvedShift): Record<string, number> =>
  Object.fromEntries(steps.flatMap(({ id }) => (skills[id] === undefined ? [] : [[id, skills[id].level]])));

/** A break at a person's start (a huddle) is everybody's at once and stays. */
export const isMovable = (one: ResolvedBreak, person: ResolvedPerson): boolean => one.from > person.from;

/** What a person's post is at a time. */
export const postAt = (person: PersonDraft, time: number): Post =>
  person.posts.findLast((post) => post.from <= time)!;

/** Posts that follow each other with the same steps are one. */
export const merged = (posts: Post[]): Post[] =>
  posts.filter((post, i) => i === 0 || post.steps.join() !== posts[i - 1]!.steps.join());

export const withPerson = (draft: Draft, id: string, change: Partial<PersonDraft>): Draft => ({
  ...draft,
  people: { ...draft.people, [id]: { ...draft.people[id]!, ...change } },
});

/**
 * In how many things a draft departs from another: first posts, changes in the day, rules, breaks, last
 * starts.
 */
export function departures(from: Draft, draft: Draft): number {
  const people = Object.entries(draft.people).map(([id, one]) => {
    const before = from.people[id]!;
    const first = Number(one.posts[0]!.steps.join() !== before.posts[0]!.steps.join());
    const changes = one.posts
      .slice(1)
      .filter(
        (post) =>
          !before.posts.some((other) => other.from === post.from && other.steps.join() === post.steps.join()),
      ).length;
    return (
      first + changes + Number(one.rule !== before.rule) + Number(one.breaksLater !== before.breaksLater)
    );
  });
  return people.reduce((sum, count) => sum + count, 0) + Object.keys(draft.lastStart).length;
}

/** The same for drafts that say the same. */
export const keyOf = (draft: Draft): string =>
  JSON.stringify([
    Object.entries(draft.people).map(([id, one]) => [
      id,
      one.posts,
      one.posts.every((post) => post.steps.length < 2) ? 'in order' : one.rule,
      one.breaksLater,
    ]),
    Object.entries(draft.lastStart).sort(([a], [b]) => (a < b ? -1 : 1)),
    draft.overtime,
  ]);

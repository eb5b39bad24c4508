/**
 * A cell of one's own from the few things that have to be asked, as a file: the page and the command line ask
 * them in their own ways and write the same.
 */
import type { Scenario } from '../schema.ts';
import type { StepAsked } from './starts.ts';

export interface PersonAsked {
  name: string;
  /** Places in the list of steps, first choice first. */
  posts: number[];
}

export interface OwnCell {
  name: string;
  steps: StepAsked[];
  /** How many; 0: none are needed. */
  clampSets: number;
  people: PersonAsked[];
  /** Clock times, "HH:MM". */
  start: string;
  end: string;
  /** Good units due; null: no number. */
  target: number | null;
}

/** Stands with a time that nobody has put in yet. */
export const A_GUESS = 'a guess to begin with, not taken in this cell';

/** People say a usual time: nine in ten are not under four fifths of it, one in ten over a third more. */
export function asPeopleSay(usual: number): { quick: number; usual: number; slow: number } {
  const tidy = (minutes: number): number => Math.round(minutes * 10) / 10;
  return { quick: tidy(usual * 0.8), usual: tidy(usual), slow: tidy((usual * 4) / 3) };
}

/** Short names for inside the file, no two alike. */
export function shortNames(names: readonly string[], stem: string): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = name
      .normalize('NFD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^[^a-z]+|-+$/g, '')
      .slice(0, 30);
    const first = plain === '' || plain === 'constructor' ? stem : plain;
    let id = first;
    for (let number = 2; taken.has(id); number += 1) id = `${first}-${number}`;
    taken.add(id);
    return id;
  });
}

/**
 * Where clamps are tied up: taken by the hands before the first wait, free again once hands have taken the
 * piece out of them. Null where the work has no such place.
 */
export function clampedAt(steps: readonly Pick<StepAsked, 'wait'>[]): { glue: number; until: number } | null {
  const cure = steps.findIndex((one) => one.wait);
  const until = steps.findIndex((one, i) => i > cure && !one.wait);
  return cure < 1 || until < 0 || steps[cure - 1]!.wait ? null : { glue: cure - 1, until };
}

/** What is further along goes first: it empties the cell, and frees clamps. */
export const laterFirst = (posts: readonly number[]): number[] => [...posts].sort((a, b) => b - a);

/** A tap on the sheet of people by posts: a place, then one further down, after the last none. */
export function tapped(posts: readonly number[], post: number): number[] {
  const at = posts.indexOf(post);
  if (at < 0) {
    const inOrder = posts.every((one, i) => i === 0 || one < posts[i - 1]!);
    return inOrder ? laterFirst([...posts, post]) : [...posts, post];
  }
  const others = posts.filter((one) => one !== post);
  return at === posts.length - 1 ? others : [...others.slice(0, at + 1), post, ...others.slice(at + 1)];
}

/** Parts are there in the morning, and do not run out: twice what is due, or sixty. */
const partsFor = (target: number | null): number => Math.max(60, 2 * (target ?? 0));

/** The file. It can be run once everybody has a name and somebody stands at every post. */
export function ownCell({ name, steps, clampSets, people, start, end, target }: OwnCell): Scenario {
  const ids = shortNames(
    steps.map((one) => one.name),
    'step',
  );
  const clamped = clampSets > 0 ? clampedAt(steps) : null;
  const who = shortNames(
    people.map((one) => one.name),
    'person',
  );
  return {
    format: 1,
    name,
    steps: Object.fromEntries(
      steps.map((one, i) => [
        ids[i]!,
        {
          ...(ids[i] === one.name ? {} : { name: one.name }),
          ...(one.wait ? { kind: 'wait' as const, time: one.minutes } : { time: asPeopleSay(one.minutes) }),
          ...(one.guessed ? { timesFrom: { time: A_GUESS } } : {}),
          // Once spread, glue does not wait.
          ...(clamped?.glue === i
            ? { whole: true, plannedAt: 95, takes: [{ gear: 'clamp', until: ids[clamped.until]! }] }
            : {}),
        },
      ]),
    ),
    ...(clamped === null ? {} : { gear: { clamp: { name: 'clamp set', count: clampSets } } }),
    people: Object.fromEntries(
      people.map((one, i) => [
        who[i]!,
        {
          name: one.name,
          covers: one.posts.filter((post) => steps[post]?.wait === false).map((post) => ids[post]!),
        },
      ]),
    ),
    shift: { start, end, ...(target === null ? {} : { target }) },
    intake: { kind: 'at start', units: partsFor(target) },
  };
}

/** What has to be known before any number is worth saying, in words; empty: the cell is whole. */
export function missingIn({ steps, people }: Pick<Scenario, 'steps' | 'people'>): string[] {
  const everybody = Object.values(people);
  if (everybody.length === 0) return ['who works here'];
  const nowhere = everybody.filter(
    ({ covers, skills }) => (covers ?? Object.keys(skills ?? {})).length === 0,
  );
  const empty = Object.entries(steps).filter(
    ([id, step]) =>
      step.kind !== 'wait' &&
      !everybody.some(({ covers, skills, changes }) =>
        [...(covers ?? Object.keys(skills ?? {})), ...(changes ?? []).flatMap((one) => one.covers)].includes(
          id,
        ),
      ),
  );
  return [
    ...empty.map(([id, step]) => `who stands at “${step.name ?? id}”`),
    ...nowhere.map(({ name }) => `where ${name ?? 'somebody'} stands`),
  ];
}

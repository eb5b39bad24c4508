/** Posts as they are typed: "clean,unclamp", with a skill where the file has none yet: "sand/2". */
import type { ResolvedPerson } from '../scenario/resolve.ts';
import type { Person, Scenario } from '../scenario/schema.ts';
import { listed } from '../words/words.ts';
import { postOf, stepName } from './names.ts';
import { NotSo, type Cell } from './what-if.ts';

export interface Post {
  step: string;
  /** The level typed; null: what they have, or else that they do it alone. */
  skill: number | null;
}

const ALONE = 3;

export function postsOf(cell: Cell, given: string): Post[] {
  const posts = given.split(',').map((one): Post => {
    const [text, level, ...more] = one.split('/');
    if (more.length > 0 || (level !== undefined && !/^[1-4]$/.test(level.trim())))
      throw new NotSo(`“${one}” is no post, or a post and a skill from 1 to 4 such as sand/2`);
    return { step: postOf(cell, text!.trim()).id, skill: level === undefined ? null : Number(level) };
  });
  const twice = posts.find(({ step }, at) => posts.findIndex((other) => other.step === step) !== at);
  if (twice !== undefined) throw new NotSo(`“${twice.step}” is named twice`);
  return posts;
}

/**
 * The skills that these posts ask for: as typed, else as they are, else alone. Empty where the file's hold.
 * Who has no skills in the file can do alone all they cover.
 */
export function skillsFor(scenario: Scenario, person: ResolvedPerson, posts: Post[]): Pick<Person, 'skills'> {
  const given: Person | undefined = scenario.people[person.id];
  const named = posts.filter(({ skill }) => skill !== null);
  if (given?.skills === undefined && named.length === 0) return {};
  const had: NonNullable<Person['skills']> =
    given?.skills ?? Object.fromEntries(Object.keys(person.skills).map((step) => [step, ALONE]));
  const fresh = posts.flatMap(({ step, skill }) =>
    skill !== null
      ? [[step, skill] as const]
      : Object.hasOwn(person.skills, step)
        ? []
        : [[step, ALONE] as const],
  );
  if (fresh.length === 0) return {};
  return { skills: { ...(given?.skills === undefined ? had : {}), ...Object.fromEntries(fresh) } };
}

/** "clean, unclamp and stage", skills that were typed in brackets. */
export const postWords = (cell: Cell, posts: Post[]): string =>
  listed(
    posts.map(({ step, skill }) => {
      const name = stepName(
        cell,
        cell.shift.steps.find(({ id }) => id === step)!,
      );
      return skill === null ? name : `${name} (skill ${skill})`;
    }),
  );

/** What somebody stands at through the day, with the later changes. */
export const coverNow = (person: ResolvedPerson): string[] => person.cover[0]?.steps ?? [];

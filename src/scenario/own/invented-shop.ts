/** A whole shop of a kind, invented: people, times and clamp sets. */
import { DEFAULTS } from '../defaults.ts';
import { laterFirst, type OwnCell, type PersonAsked } from './own-cell.ts';
import type { Start } from './starts.ts';

/** Who stands in a shop that is written down without being asked about: invented, like its times. */
const INVENTED_PEOPLE = ['Orla', 'Bastian', 'Tova', 'Ines', 'Kofi'];

/**
 * A whole shop of a kind, to try things on and to change: people one after another along the steps, everybody
 * also at the step after their own, a later step first.
 */
export function inventedShop({ name, steps }: Start): OwnCell {
  const posts = steps.flatMap((step, at) => (step.wait ? [] : [at]));
  const people = INVENTED_PEOPLE.slice(0, posts.length).map((person, i): PersonAsked => {
    const own = posts.filter((_, place) => place % INVENTED_PEOPLE.length === i);
    const next = posts[posts.indexOf(own[0]!) + 1];
    return { name: person, posts: laterFirst([...new Set([...own, ...(next === undefined ? [] : [next])])]) };
  });
  return {
    name: `${name[0]!.toUpperCase()}${name.slice(1)} (invented)`,
    steps,
    clampSets: 3,
    people,
    start: DEFAULTS.shift.start,
    end: DEFAULTS.shift.end,
    target: null,
  };
}

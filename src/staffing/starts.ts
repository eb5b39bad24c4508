/** Drafts from which the search begins. */
import seedrandom from 'seedrandom';
import { overtimeCaps } from './choices.ts';
import { draftOf, keyOf, merged, postAt, withPerson, type Draft, type PersonDraft } from './draft.ts';
import { covered, isSound, withOvertime } from './neighbours.ts';
import type { Day } from './question.ts';

/**
 * Drafts to begin from: the file's posts as far as they go, and posts by skill; each without and with all the
 * overtime.
 */
export function startingDrafts(day: Day): Draft[] {
  const asFile = asFiled(day);
  const posts = day.vary.posts ? [asFile, helping(day, asFile), bySkill(day)] : [asFile];
  const manned = posts.filter((draft) => covered(day, draft));
  const caps = overtimeCaps(day);
  const latest = (draft: Draft): Draft[] => {
    if (day.overtime === null || caps.length === 0) return [];
    const cap = [...caps].reverse().find((one) => withOvertime(day, draft, day.overtime!.who, one) !== null);
    return cap === undefined ? [] : [withOvertime(day, draft, day.overtime.who, cap)!];
  };
  const all = (manned.length > 0 ? manned : posts).flatMap((draft) =>
    day.vary.overtime ? [draft, ...latest(draft)] : latest(draft).length > 0 ? latest(draft) : [draft],
  );
  const sound = all.filter((draft) => isSound(day, draft));
  return [...new Map((sound.length > 0 ? sound : all).map((draft) => [keyOf(draft), draft])).values()];
}

/** The file's own posts and overtime, gaps left by who is out filled. */
export function asFiled(day: Day): Draft {
  const posts = filled(day, draftOf(day));
  const overtime = day.filedOvertime;
  return overtime === null ? posts : (withOvertime(day, posts, overtime.who, overtime.cap) ?? posts);
}

/**
 * The draft with steps left without hands (somebody is out) given to whoever can: best level first, then the
 * shortest list. It goes in front: what nobody else does comes first.
 */
export function filled(day: Day, draft: Draft): Draft {
  let made: Draft = {
    ...draft,
    people: Object.fromEntries(
      Object.entries(draft.people).map(([id, one]) => {
        const kept = one.posts.map((post) => ({
          ...post,
          steps: post.steps.filter((step) => day.usable[id]!.includes(step)),
        }));
        return [
          id,
          {
            ...one,
            posts: merged(
              kept.every((post) => post.steps.length === 0) ? [{ from: 0, steps: day.usable[id]! }] : kept,
            ),
          },
        ];
      }),
    ),
  };
  for (const step of day.shift.steps) {
    if (step.kind === 'wait' || day.uncovered.includes(step.id)) continue;
    for (;;) {
      const lacks = (id: string): boolean =>
        made.people[id]!.posts.some((post) => !post.steps.includes(step.id));
      const full = day.present.filter((id) => !lacks(id));
      const partly = !coversAlways(made, step.id, step.people);
      if (full.length >= step.people || !partly) break;
      const able = day.present.filter((id) => lacks(id) && day.usable[id]!.includes(step.id));
      if (able.length === 0) break;
      const best = able.reduce((a, b) => (rank(day, made, b, step.id) < rank(day, made, a, step.id) ? b : a));
      const posts = made.people[best]!.posts.map((post) =>
        post.steps.includes(step.id) ? post : { ...post, steps: [step.id, ...post.steps] },
      );
      made = withPerson(made, best, { posts: merged(posts) });
    }
  }
  return made;
}

function coversAlways(draft: Draft, step: string, people: number): boolean {
  const all = Object.values(draft.people);
  const times = new Set(all.flatMap((one) => one.posts.map((post) => post.from)));
  return [...times].every(
    (time) => all.filter((one) => postAt(one, time).steps.includes(step)).length >= people,
  );
}

const rank = (day: Day, draft: Draft, id: string, step: string): number => {
  const { level } = day.shift.people.find((one) => one.id === id)!.skills[step]!;
  return draft.people[id]!.posts[0]!.steps.length * 10 - level;
};

/**
 * The file's posts, and everything else each can do behind them, last steps first: nobody stands idle who
 * could help.
 */
function helping(day: Day, draft: Draft): Draft {
  const order = day.shift.steps.map((step) => step.id);
  return day.present.reduce((made, id) => {
    const rest = (steps: string[]): string[] =>
      day.usable[id]!.filter((step) => !steps.includes(step)).sort(
        (a, b) => order.indexOf(b) - order.indexOf(a),
      );
    return withPerson(made, id, {
      posts: merged(
        made.people[id]!.posts.map((post) => ({ ...post, steps: [...post.steps, ...rest(post.steps)] })),
      ),
    });
  }, draft);
}

/**
 * Everybody at what they do best, the rest of what they can behind it in the order of the work, last steps
 * first.
 */
function bySkill(day: Day): Draft {
  const draft = draftOf(day);
  const order = day.shift.steps.map((step) => step.id);
  const people = Object.fromEntries(
    day.present.map((id): [string, PersonDraft] => {
      const { skills } = day.shift.people.find((one) => one.id === id)!;
      const steps = [...day.usable[id]!].sort(
        (a, b) => skills[b]!.level - skills[a]!.level || order.indexOf(b) - order.indexOf(a),
      );
      return [
        id,
        {
          posts: [{ from: 0, steps: steps.length === 0 ? draft.people[id]!.posts[0]!.steps : steps }],
          rule: 'in order',
          breaksLater: 0,
        },
      ];
    }),
  );
  return { ...draft, people };
}

/** Of what somebody can do, each step is drawn so often. */
const DRAWN_STEP = 0.7;

/**
 * Draws drafts at random: posts in any order, overtime for some or nobody; the same ones for the same day.
 */
export function randomDrafts(day: Day): (count: number) => Draft[] {
  const luck = seedrandom(`crew drafts of ${day.shift.seed}`, { global: false, entropy: false });
  const file = filled(day, draftOf(day));
  const one = (): Draft => {
    const people = Object.fromEntries(
      day.present.map((id): [string, PersonDraft] => {
        const own = file.people[id]!;
        const kept = day.usable[id]!.filter(() => !day.vary.posts || luck() < DRAWN_STEP).map((step) => ({
          step,
          place: luck(),
        }));
        const steps = kept.sort((a, b) => a.place - b.place).map(({ step }) => step);
        return [id, day.vary.posts && steps.length > 0 ? { ...own, posts: [{ from: 0, steps }] } : own];
      }),
    );
    const draft = filled(day, { ...file, people });
    const caps = overtimeCaps(day);
    if (day.overtime === null || caps.length === 0) return draft;
    if (!day.vary.overtime) return withOvertime(day, draft, day.overtime.who, caps.at(-1)!) ?? draft;
    return (
      withOvertime(
        day,
        draft,
        day.overtime.who.filter(() => luck() < 0.5),
        caps[Math.floor(luck() * caps.length)]!,
      ) ?? draft
    );
  };
  return (count) => [
    ...new Map(
      Array.from({ length: count }, one)
        .filter((draft) => isSound(day, draft))
        .map((draft) => [keyOf(draft), draft]),
    ).values(),
  ];
}

/**
 * Single changes to a draft, from the choices there are. Each keeps the hard rules; one that cannot be made
 * gives null.
 */
import type { Day, Vary } from './question.ts';
import {
  breakChoices,
  changeTimes,
  lastStartChoices,
  mayStayFor,
  overtimeCaps,
  postLists,
} from './choices.ts';
import { draftOf, keyOf, merged, postAt, withPerson, type Draft, type Post } from './draft.ts';
import { wholeTooLong } from './whole-fits.ts';

/** A change that can be made to any draft of the day, so that two good ones can be tried together. */
export type Move = (draft: Draft) => Draft | null;

const MOST_CHANGES = 2;

/**
 * All single changes the question leaves open. The list depends on the draft's changes of post and overtime.
 */
export function movesFrom(day: Day, draft: Draft): Move[] {
  return [
    ...postMoves(day),
    ...changeMoves(day, draft),
    ...otherMoves(day),
    ...overtimeMoves(day, draft),
  ].map((move): Move => (one) => {
    const made = move(one);
    return made === null || keyOf(made) === keyOf(one) || !isSound(day, made) ? null : made;
  });
}

/** Moves of posts and their order alone: for a quick new plan. */
export const simpleMoves = (day: Day, draft: Draft): Move[] => {
  const simple: Day = {
    ...day,
    vary: { ...day.vary, changes: 0, breaks: false, lastStart: false, rule: false, overtime: false },
  };
  return movesFrom(simple, draft);
};

/**
 * Every step that can be is covered at all times, nobody is without a post all day, and who has a piece in
 * hand keeps its step.
 */
export function covered(day: Day, draft: Draft): boolean {
  const people = Object.entries(draft.people);
  const inHand = day.shift.carryOver.filter((unit) => unit.state === 'in hand' && unit.person !== null);
  if (
    inHand.some(
      ({ at, person }) => draft.people[person!]?.posts.every((post) => !post.steps.includes(at)) === true,
    )
  )
    return false;
  if (people.some(([, one]) => one.posts.every((post) => post.steps.length === 0))) return false;
  const times = new Set(people.flatMap(([, one]) => one.posts.map((post) => post.from)));
  return day.shift.steps.every((step) => {
    if (step.kind === 'wait' || day.uncovered.includes(step.id)) return true;
    const early = (day.limits.vibration[step.id]?.level ?? 0) > 0;
    return [...times].every(
      (time) =>
        (early && time > 0) ||
        people.filter(([, one]) => postAt(one, time).steps.includes(step.id)).length >= step.people,
    );
  });
}

/** Covered, and every whole step can be finished by somebody who begins it. */
export const isSound = (day: Day, draft: Draft): boolean =>
  covered(day, draft) && wholeTooLong(day, draft).length === 0;

const withSteps = (draft: Draft, id: string, at: number, steps: string[]): Draft =>
  withPerson(draft, id, {
    posts: merged(draft.people[id]!.posts.map((post, i) => (i === at ? { ...post, steps } : post))),
  });

/**
 * Lists one change away: a step added in front or behind, one left out, one put first; with `alone`, one and
 * nothing else.
 */
function listsNear(steps: string[], usable: string[], vary: Vary, alone = false): string[][] {
  const lists: string[][] = [];
  if (vary.posts) {
    for (const step of usable.filter((one) => !steps.includes(one)))
      lists.push([...steps, step], [step, ...steps]);
    for (const step of steps) lists.push(steps.filter((one) => one !== step));
    if (alone) for (const step of usable) if (steps.join() !== step) lists.push([step]);
  }
  if (vary.order)
    for (const step of steps.slice(1)) lists.push([step, ...steps.filter((one) => one !== step)]);
  return lists.filter((list) => list.length > 0);
}

function postMoves(day: Day): Move[] {
  const moves: Move[] = [];
  for (const id of day.present) {
    const usable = day.usable[id]!;
    for (const step of usable) {
      const others = (steps: string[]): string[] => steps.filter((one) => one !== step);
      const all =
        (change: (steps: string[]) => string[] | null): Move =>
        (draft) => {
          const posts = draft.people[id]!.posts.map((post) => ({ ...post, steps: change(post.steps) }));
          return posts.some((post) => post.steps === null || post.steps.length === 0)
            ? null
            : withPerson(draft, id, { posts: merged(posts as Post[]) });
        };
      if (day.vary.posts) {
        moves.push(all((steps) => (steps.includes(step) ? null : [...steps, step])));
        moves.push(all((steps) => (steps.includes(step) ? null : [step, ...steps])));
        moves.push(all((steps) => (steps.includes(step) ? others(steps) : null)));
      }
      if (day.vary.order)
        moves.push(all((steps) => (steps.includes(step) ? [step, ...others(steps)] : null)));
    }
  }
  return day.vary.posts
    ? [...moves, ...wholeLists(day), ...swaps(day), ...asInTheFile(day)]
    : [...moves, ...wholeLists(day)];
}

/**
 * People with more steps than this are changed a step at a time only: their lists are too many to try each.
 */
const MOST_STEPS = 4;

/** Another first post altogether. */
const wholeLists = (day: Day): Move[] =>
  day.present
    .filter((id) => day.usable[id]!.length <= MOST_STEPS && (day.vary.posts || day.vary.order))
    .flatMap((id) =>
      (postLists(day, id) ?? []).map(
        (steps): Move =>
          (draft) =>
            withSteps(draft, id, 0, steps),
      ),
    );

/** Somebody's posts and rule as in the file again. */
function asInTheFile(day: Day): Move[] {
  const file = draftOf(day);
  return day.present.map((id): Move => (draft) => {
    const { posts, rule } = file.people[id]!;
    return posts.every((post) => post.steps.every((step) => day.usable[id]!.includes(step)))
      ? withPerson(draft, id, { posts, rule })
      : null;
  });
}

/** Two people take each other's posts, as far as each can. */
function swaps({ present, usable }: Day): Move[] {
  return present.flatMap((one, at) =>
    present.slice(at + 1).map((other): Move => (draft) => {
      const [mine, yours] = [draft.people[one]!.posts[0]!.steps, draft.people[other]!.posts[0]!.steps];
      const forMe = yours.filter((step) => usable[one]!.includes(step));
      const forYou = mine.filter((step) => usable[other]!.includes(step));
      return forMe.length === 0 || forYou.length === 0
        ? null
        : withSteps(withSteps(draft, one, 0, forMe), other, 0, forYou);
    }),
  );
}

/** Another post from a time on; a change shifted, altered, taken back. */
function changeMoves(day: Day, from: Draft): Move[] {
  if (day.vary.changes === 0 || !(day.vary.posts || day.vary.order)) return [];
  const most = Math.min(day.vary.changes, MOST_CHANGES);
  return day.present.flatMap((id) => {
    const { posts } = from.people[id]!;
    const moves: Move[] = [];
    posts.slice(1).forEach((_, i) => {
      moves.push((draft) => dropPost(draft, id, i + 1));
      for (const steps of listsNear(posts[i + 1]!.steps, day.usable[id]!, day.vary))
        moves.push((draft) => alterPost(draft, id, i + 1, steps));
    });
    if (posts.length > most) return moves;
    for (const time of changeTimes(day)) {
      if (posts.some((post) => post.from === time)) continue;
      for (const steps of listsNear(postAt(from.people[id]!, time).steps, day.usable[id]!, day.vary, true)) {
        moves.push((draft) => addPost(draft, id, { from: time, steps }, most));
      }
    }
    return moves;
  });
}

const dropPost = (draft: Draft, id: string, at: number): Draft | null => {
  const { posts } = draft.people[id]!;
  return at >= posts.length
    ? null
    : withPerson(draft, id, { posts: merged(posts.filter((_, i) => i !== at)) });
};

const alterPost = (draft: Draft, id: string, at: number, steps: string[]): Draft | null =>
  at >= draft.people[id]!.posts.length ? null : withSteps(draft, id, at, steps);

function addPost(draft: Draft, id: string, post: Post, most: number): Draft | null {
  const { posts } = draft.people[id]!;
  if (posts.length > most || posts.some((one) => one.from === post.from)) return null;
  return withPerson(draft, id, { posts: merged([...posts, post].sort((a, b) => a.from - b.from)) });
}

/** Breaks, the rule, and the last start. */
function otherMoves(day: Day): Move[] {
  const breaks = day.present.flatMap((id) =>
    breakChoices(day, id).map(
      (later): Move =>
        (draft) =>
          withPerson(draft, id, { breaksLater: later }),
    ),
  );
  const rules = !day.vary.rule
    ? []
    : day.present.map((id): Move => (draft) => {
        const { rule, posts } = draft.people[id]!;
        return posts.every((post) => post.steps.length < 2)
          ? null
          : withPerson(draft, id, { rule: rule === 'oldest' ? 'in order' : 'oldest' });
      });
  const last = Object.entries(lastStartChoices(day)).flatMap(([step, times]) =>
    times.map((time): Move => (draft) => {
      const { [step]: _before, ...others } = draft.lastStart;
      return { ...draft, lastStart: time === null ? others : { ...others, [step]: time } };
    }),
  );
  return [...breaks, ...rules, ...last];
}

/** Another cap; one more or one fewer to stay; only one; everybody; nobody. */
function overtimeMoves(day: Day, from: Draft): Move[] {
  if (!day.vary.overtime || day.overtime === null) return [];
  const caps = overtimeCaps(day);
  const sets = new Map<string, string[]>();
  const keep = (who: string[]): void => void sets.set(who.join(), who);
  const now = from.overtime?.who ?? [];
  keep(day.overtime.who);
  keep(now);
  for (const id of day.overtime.who) {
    keep([id]);
    keep(inCrewOrder(day, now.includes(id) ? now.filter((one) => one !== id) : [...now, id]));
  }
  const moves: Move[] = [(draft) => ({ ...draft, overtime: null })];
  for (const who of sets.values()) {
    for (const cap of from.overtime === null || who.join() === now.join() ? caps : [from.overtime.cap])
      moves.push((draft) => withOvertime(day, draft, who, cap));
  }
  return moves;
}

/** Null where nobody of them may stay that long. */
export function withOvertime(day: Day, draft: Draft, who: string[], cap: number): Draft | null {
  const may = inCrewOrder(
    day,
    who.filter((id) => mayStayFor(day, id, cap)),
  );
  return may.length === 0 ? null : { ...draft, overtime: { cap, who: may } };
}

const inCrewOrder = (day: Day, who: string[]): string[] => day.present.filter((id) => who.includes(id));

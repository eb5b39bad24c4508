/** All the plans there are, where they are few. */
import { breakChoices, changeTimes, lastStartChoices, overtimeCaps, postLists, subsets } from './choices.ts';
import { draftOf, keyOf, merged, type Draft, type PersonDraft, type Post } from './draft.ts';
import { covered, withOvertime } from './neighbours.ts';
import type { Day } from './question.ts';
import { wholeTooLong } from './whole-fits.ts';

/** Combinations looked through before it is said that there are too many. */
const MOST_COMBINATIONS = 20_000;

/** Every draft of the day that keeps the hard rules; null where there are more than `most`. */
export function everyDraft(day: Day, most: number): Draft[] | null {
  const own = day.present.map((id) => personChoices(day, id));
  const last = lastStartSets(day);
  const overtime = overtimeSets(day);
  const sizes = [...own.map((choices) => choices.length), last.length, overtime.length];
  if (
    own.some((choices) => choices.length > MOST_COMBINATIONS) ||
    sizes.reduce((product, size) => product * size, 1) > MOST_COMBINATIONS
  )
    return null;
  const found = new Map<string, Draft>();
  for (const people of product(own)) {
    const posted: Draft = {
      ...draftOf(day),
      people: Object.fromEntries(day.present.map((id, at) => [id, people[at]!])),
    };
    if (!covered(day, posted)) continue;
    for (const lastStart of last) {
      for (const extra of overtime) {
        const draft =
          extra === null
            ? { ...posted, lastStart }
            : withOvertime(day, { ...posted, lastStart }, extra.who, extra.cap);
        if (draft !== null && wholeTooLong(day, draft).length === 0) found.set(keyOf(draft), draft);
        if (found.size > most) return null;
      }
    }
  }
  return [...found.values()];
}

function* product<T>(lists: T[][]): Generator<T[]> {
  const [first, ...rest] = lists;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const one of first) for (const others of product(rest)) yield [one, ...others];
}

/** A person's posts, rules and breaks; cut off once they are far too many. */
function personChoices(day: Day, id: string): PersonDraft[] {
  const file = draftOf(day).people[id]!;
  const lists = postLists(day, id);
  if (lists === null) return Array.from({ length: MOST_COMBINATIONS + 1 }, () => file);
  const times = day.vary.changes === 0 || !(day.vary.posts || day.vary.order) ? [] : changeTimes(day);
  const days: Post[][] =
    day.vary.posts || day.vary.order ? lists.map((steps) => [{ from: 0, steps }]) : [file.posts];
  if (file.posts.length > 1) days.push(file.posts);
  for (let changes = 0, from = 0; changes < (times.length === 0 ? 0 : day.vary.changes); changes++) {
    const until = days.length;
    for (const posts of days.slice(from, until)) {
      for (const time of times.filter((one) => one > posts[posts.length - 1]!.from)) {
        for (const steps of lists) days.push(merged([...posts, { from: time, steps }]));
        if (days.length > MOST_COMBINATIONS) break;
      }
    }
    from = until;
  }
  const rules: PersonDraft['rule'][] = day.vary.rule ? ['in order', 'oldest'] : [file.rule];
  const breaks = breakChoices(day, id);
  return days
    .flatMap((posts) =>
      rules.flatMap((rule) => breaks.map((breaksLater): PersonDraft => ({ posts, rule, breaksLater }))),
    )
    .slice(0, MOST_COMBINATIONS + 1);
}

const lastStartSets = (day: Day): Draft['lastStart'][] =>
  Object.entries(lastStartChoices(day)).reduce<Draft['lastStart'][]>(
    (sets, [step, times]) =>
      sets.flatMap((set) => times.map((time) => (time === null ? set : { ...set, [step]: time }))),
    [{}],
  );

function overtimeSets(day: Day): Draft['overtime'][] {
  if (day.overtime === null) return [null];
  const caps = overtimeCaps(day);
  if (!day.vary.overtime)
    return caps.length === 0 ? [null] : [{ cap: day.overtime.cap, who: day.overtime.who }];
  if (day.overtime.who.length > 10) return Array.from({ length: MOST_COMBINATIONS + 1 }, () => null);
  const groups = subsets(day.overtime.who).filter((who) => who.length > 0);
  return [null, ...caps.flatMap((cap) => groups.map((who) => ({ cap, who })))];
}

import { resolvePlant } from '../../scenario/resolve.ts';
import { capitalized, plain, spelt } from '../../words/words.ts';
import { plainNumber, shown } from '../figures.ts';
import { freeId, stepName } from '../names.ts';
import { coverNow, postsOf, postWords, type Post } from '../posts.ts';
import { NotSo, type Cell, type Made, type WhatIf } from '../what-if.ts';

/** One more person at a post, or several; with a bench each where one is asked for. */
export const person: WhatIf = {
  word: 'person',
  group: 'people',
  takes: 'POST[/SKILL][,POST][:HOW MANY][+bench][=PAY]',
  says: 'one more person at a post (or so many), alone unless a skill is said; +bench brings a bench each; paid as who stands there, or PAY an hour',
  example: 'sander:2',
  such: (cell) => (posts(cell)[0] === undefined ? null : `${posts(cell)[0]!}+bench`),
  read: (cell, given) => newPeople(cell, given, 'one more'),
  offers: (cell) => posts(cell).flatMap((post) => [post, `${post}+bench`]),
};

/** Somebody new who is in training at a post. */
export const trainee: WhatIf = {
  word: 'trainee',
  group: 'people',
  takes: 'POST[/SKILL][,POST][:HOW MANY][+bench][=PAY]',
  says: 'somebody new in training at a post (skill 1 unless said), paid as the lowest-paid here, or PAY an hour',
  example: 'sand+bench',
  such: (cell) => (posts(cell)[0] === undefined ? null : `${posts(cell)[0]!}+bench`),
  read: (cell, given) => newPeople(cell, given, 'trainee'),
  offers: (cell) => posts(cell),
};

const posts = ({ shift }: Cell): string[] =>
  shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside).map(({ id }) => id);

const LEVEL = { 'one more': 3, trainee: 1 } as const;
const MOST = 50;

function newPeople(cell: Cell, given: string, kind: keyof typeof LEVEL): Made {
  const found = /^([^:+=]+)(?::([^+=]*))?(\+bench)?(?:=(.*))?$/.exec(given.trim());
  if (found === null) throw new NotSo(`“${given}” is not written so`);
  const [, list, many, withBench, typedPay] = found;
  const at = postsOf(cell, list!);
  const count = many === undefined ? 1 : plainNumber(many, 1, MOST, true);
  const pay = typedPay === undefined ? payOf(cell, at, kind) : plainNumber(typedPay, 0, 1e9);
  const first = cell.shift.steps.find(({ id }) => id === at[0]!.step)!;
  const skills = Object.fromEntries(at.map(({ step, skill }) => [step, skill ?? LEVEL[kind]]));
  const people: Record<string, unknown> = { ...cell.scenario.people };
  const added = Array.from({ length: count }, (_, i) => {
    const id = freeId(people, `${kind === 'trainee' ? 'trainee' : 'extra'}-${first.id}`);
    const one = {
      name: `${kind === 'trainee' ? 'trainee at' : 'one more at'} ${first.name}${count === 1 ? '' : `, ${i + 1}`}`,
      covers: at.map(({ step }) => step),
      skills,
      ...(pay > 0 ? { pay } : {}),
    };
    people[id] = one;
    return [id, one] as const;
  });
  const { benchPrice } = resolvePlant(cell.scenario).money;
  const bench = withBench !== undefined;
  return {
    changes: {
      people: Object.fromEntries(added),
      ...(bench ? { steps: { [first.id]: { benches: first.benches + count } } } : {}),
    },
    label: labelOf(cell, at, kind, count, bench, typedPay === undefined ? null : pay),
    ...(bench && benchPrice !== null ? { price: benchPrice * count } : {}),
  };
}

/**
 * An hour, of people who are paid: as who has the post first, else as who stands there, else the most; a
 * trainee the least.
 */
function payOf({ shift }: Cell, at: Post[], kind: keyof typeof LEVEL): number {
  const paid = shift.people.filter(({ pay }) => pay > 0);
  if (paid.length === 0) return 0;
  if (kind === 'trainee') return Math.min(...paid.map(({ pay }) => pay));
  const { step } = at[0]!;
  const there =
    paid.find((one) => coverNow(one)[0] === step) ?? paid.find((one) => coverNow(one).includes(step));
  return there?.pay ?? Math.max(...paid.map(({ pay }) => pay));
}

function labelOf(
  cell: Cell,
  at: Post[],
  kind: keyof typeof LEVEL,
  count: number,
  bench: boolean,
  pay: number | null,
): string {
  const { money } = resolvePlant(cell.scenario);
  const who =
    kind === 'trainee'
      ? count === 1
        ? 'A trainee'
        : `${capitalized(spelt(count))} trainees`
      : `${capitalized(spelt(count))} more ${count === 1 ? 'person' : 'people'}`;
  const benches = count === 1 ? 'a bench' : 'a bench each';
  const where =
    at.length === 1 && at[0]!.skill === null
      ? stepName(
          cell,
          cell.shift.steps.find(({ id }) => id === at[0]!.step)!,
        )
      : postWords(cell, at);
  const paid =
    pay === null
      ? ''
      : `, at ${money.currency}${pay === Math.round(pay * 100) / 100 ? plain(pay) : shown(pay)} an hour`;
  return `${who} at ${where}${bench ? ` with ${benches}` : ''}${paid}`;
}

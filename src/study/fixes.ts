/**
 * Everything that can be done about a cell without knowing better than its file: post people otherwise, take
 * breaks one after the other, stay longer, have one more of a thing, and loosen what else binds.
 */
import { breaksAfterOthers, postedAt } from '../scenario/changing/posts.ts';
import { sameJson } from '../scenario/merge-patch.ts';
import { applyChanges, applyOption } from '../scenario/options.ts';
import {
  nameOf,
  resolve,
  resolvePlant,
  type ResolvedPerson,
  type ResolvedShift,
} from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { loosenedOf } from './loosened.ts';
import { extrasOf, type Extra } from './one-more.ts';

export type FixGroup = 'free' | 'overtime' | 'bought' | 'hired' | 'loosened';

export interface Fix {
  id: string;
  group: FixGroup;
  name: string;
  /** Paid once; 0 where there is nothing to pay, null where nobody says. */
  price: number | null;
  /** Who or what has to agree, in a few words; null where it is the lead's to decide. */
  leave: string | null;
  /** Fixes about the same person or thing are not put on top of each other. */
  about: string;
  /** The same done to another cell; null where that cell has no place for it. */
  apply: (scenario: Scenario) => Scenario | null;
}

export const OVERTIME_CAPS = [15, 30, 60] as const;
export const overtimeId = (cap: number): string => `overtime-${cap}`;

export const fixesOf = (scenario: Scenario): Fix[] => {
  const shift = resolve(scenario);
  const people = shift.people.filter((person) => person.chance > 0);
  return [
    ...people.flatMap((person) => postsOf(scenario, shift, person)),
    ...breaksOf(scenario, people),
    ...OVERTIME_CAPS.map((cap) => overtimeOf(scenario, cap)),
    ...extrasOf(scenario).map((extra) => asFix(extra, extrasOf)),
    ...optionsOf(scenario),
    ...loosenedOf(scenario)
      .filter(({ kind }) => kind !== 'cure longer')
      .map((extra) => asFix(extra, loosenedOf)),
  ];
};

/** Each step that somebody can do and does not stand at: before all else, or for want of anything else. */
function postsOf(
  scenario: Scenario,
  shift: ResolvedShift,
  { id, name, cover, skills }: ResolvedPerson,
): Fix[] {
  const { covers } = scenario.people[id]!;
  if (covers === undefined) return [];
  const stands = new Set(cover.flatMap(({ steps }) => steps));
  return Object.keys(skills)
    .filter((step) => !stands.has(step))
    .flatMap((step) =>
      (['first', 'last'] as const).map((place): Fix => ({
        id: `post-${id}-${step}-${place}`,
        group: 'free',
        name:
          place === 'first'
            ? `${name} goes to “${nameOf(shift.steps, step)}” before all else`
            : `${name} helps at “${nameOf(shift.steps, step)}” when there is nothing else`,
        price: 0,
        leave: null,
        about: id,
        apply: (cell) => postedAt(cell, id, step, place),
      })),
    );
}

const BREAKS = 'the law and agreements on breaks, and those who take them';

/** Breaks right after those of the others: each person alone, and every second one in crew order. */
function breaksOf(scenario: Scenario, people: readonly ResolvedPerson[]): Fix[] {
  if (people.length < 2 || people.every(({ breaks }) => breaks.length === 0)) return [];
  const own = people.filter(({ id }) => scenario.people[id]!.breaks === undefined);
  const after = (ids: string[], name: string): Fix => ({
    id: `breaks-${ids.join('-')}`,
    group: 'free',
    name,
    price: 0,
    leave: BREAKS,
    about: 'breaks',
    apply: (cell) =>
      ids.reduce<Scenario | null>((made, id) => (made === null ? null : breaksAfterOthers(made, id)), cell),
  });
  const half = own.filter((_, i) => i % 2 === 1).map(({ id }) => id);
  return [
    ...own.map(({ id, name }) => after([id], `${name} takes breaks right after the others`)),
    ...(half.length > 1 ? [after(half, 'half the crew takes breaks right after the other half')] : []),
  ];
}

const FOR_OVERTIME = 'the law and agreements on hours, and those who stay';

function overtimeOf(scenario: Scenario, cap: number): Fix {
  const until = scenario.shift?.target === undefined ? 'empty' : 'target';
  return {
    id: overtimeId(cap),
    group: 'overtime',
    name: `overtime, at most ${cap} minutes`,
    price: 0,
    leave: FOR_OVERTIME,
    about: 'overtime',
    apply: (cell) => ({
      ...cell,
      shift: { ...cell.shift, overtime: { ...cell.shift?.overtime, until, cap } },
    }),
  };
}

/** What befalls a cell, not what is done about it: kits late, a cold shop, somebody out, other stock. */
function befalls(changes: Record<string, unknown>): boolean {
  const within = (field: string): Record<string, unknown>[] =>
    Object.values((changes[field] ?? {}) as Record<string, Record<string, unknown> | null>).flatMap((one) =>
      one === null || typeof one !== 'object' ? [] : [one],
    );
  return (
    ['intake', 'carryOver', 'products'].some((field) => field in changes) ||
    within('people').some((person) => 'attendance' in person) ||
    within('steps').some((step) => 'time' in step || 'repeatTime' in step)
  );
}

/**
 * The file's own choices, but for those that are just one more of a thing. One that buys something of which
 * the file does not say the price is bought, at no known price.
 */
function optionsOf(scenario: Scenario): Fix[] {
  const more = extrasOf(scenario).map((extra) => extra.scenario);
  const { gear } = resolve(scenario);
  return resolvePlant(scenario).options.flatMap(({ id, name, price }): Fix[] => {
    const changed = applyOption(scenario, id);
    if (more.some((one) => sameJson(one, changed))) return [];
    const after = resolve(changed).gear;
    const buys = after.some((one) => one.count > (gear.find((had) => had.id === one.id)?.count ?? 0));
    const free = !buys && (price === null || price === 0);
    const { changes } = scenario.options![id]!;
    if (befalls(changes)) return [];
    const stays = free && 'overtime' in ((changes['shift'] ?? {}) as object);
    return [
      {
        id: `option-${id}`,
        group: stays ? 'overtime' : free ? 'free' : 'bought',
        name: `“${name}”`,
        price: free ? 0 : price,
        leave: stays ? FOR_OVERTIME : free ? null : 'whoever buys',
        about: `option-${id}`,
        apply: (cell) => applyChanges(cell, changes),
      },
    ];
  });
}

function asFix(extra: Extra, again: (scenario: Scenario) => Extra[]): Fix {
  const { id, kind, name, price } = extra;
  return {
    id,
    ...kindOf(kind),
    name,
    price,
    about: id,
    apply: (cell) => again(cell).find((one) => one.id === id)?.scenario ?? null,
  };
}

function kindOf(kind: Extra['kind']): Pick<Fix, 'group' | 'leave'> {
  switch (kind) {
    case 'gear':
    case 'bench':
    case 'rack slot':
      return { group: 'bought', leave: 'whoever buys' };
    case 'person':
    case 'person with bench':
      return { group: 'hired', leave: 'whoever hires' };
    case 'cure shorter':
    case 'cure longer':
      return { group: 'loosened', leave: 'the data sheet of the adhesive' };
    case 'quicker':
    case 'less rework':
      return { group: 'loosened', leave: null };
  }
}

/** The changes of an option in words of the trade: "clamp sets 2 → 3", "Wren out", "cure 30 → 45 min". */
import { DEFAULTS } from './defaults.ts';
import { mergePatch, sameJson } from './merge-patch.ts';
import { listed, show } from './reading/fault.ts';
import { curveOf, type Time } from '../duration/time.ts';
import type { Gear, Intake, Person, Scenario, Step } from './schema.ts';

/**
 * One short phrase a change, in the order of the patch; changes that change nothing are left out.
 * @param base a checked scenario
 * @param changes a merge patch on it, as an option has it
 */
export function describeChanges(base: Scenario, changes: Record<string, unknown>): string[] {
  const changed = mergePatch(base, changes) as Scenario;
  return (Object.keys(changes) as (keyof Scenario)[]).flatMap((key) => {
    if (sameJson(base[key], changed[key])) return [];
    switch (key) {
      case 'gear':
        return eachOf(base.gear, changed.gear, gearWords);
      case 'people':
        return eachOf(base.people, changed.people, (id, before, after) =>
          personWords(base, id, before, after),
        );
      case 'steps':
        return eachOf(base.steps, changed.steps, (id, before, after) => stepWords(base, id, before, after));
      case 'shift':
        return shiftWords(base, changed);
      case 'intake':
        return intakeWords(base.intake, changed.intake);
      case 'carryOver':
        return [`at the start: ${carryWords(changed)}`];
      default:
        return leaves([key], base[key], changed[key]);
    }
  });
}

type Words<T> = (id: string, before: T | undefined, after: T | undefined) => string[];

function eachOf<T>(
  before: Record<string, T> | undefined,
  after: Record<string, T> | undefined,
  words: Words<T>,
): string[] {
  const ids = new Set([...Object.keys(before ?? {}), ...Object.keys(after ?? {})]);
  return [...ids].flatMap((id) =>
    sameJson(before?.[id], after?.[id]) ? [] : words(id, before?.[id], after?.[id]),
  );
}

const plural = (name: string): string =>
  /s$/.test(name) ? name : /(ch|sh|x)$/.test(name) ? `${name}es` : `${name}s`;

/** The entries of two groups that differ, but for those told already. */
function rest(
  place: string[],
  before: object | undefined,
  after: object | undefined,
  told: string[],
): string[] {
  const others = (group: object | undefined): Record<string, unknown> =>
    Object.fromEntries(Object.entries(group ?? {}).filter(([key]) => !told.includes(key)));
  return leaves(place, others(before), others(after));
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Whatever has no phrase of its own: its place in the file, before and after. */
function leaves(place: string[], before: unknown, after: unknown): string[] {
  if (sameJson(before, after)) return [];
  if (isGroup(before) && isGroup(after)) {
    return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((key) =>
      leaves([...place, key], before[key], after[key]),
    );
  }
  return [
    `${place.join(' ')} ${before === undefined ? 'not set' : plain(before)} → ${after === undefined ? 'not set' : plain(after)}`,
  ];
}

function plain(value: unknown): string {
  if (typeof value === 'string') return value;
  return Array.isArray(value) && value.length > 0 ? value.map(entryWords).join('; ') : show(value);
}

/** An entry of a list, by what it says: "from 08:00, minutes 120". */
const entryWords = (entry: unknown): string =>
  isGroup(entry)
    ? Object.entries(entry)
        .map(([key, value]) => `${key} ${plain(value)}`)
        .join(', ')
    : plain(entry);

function gearWords(id: string, before: Gear | undefined, after: Gear | undefined): string[] {
  const name = after?.name ?? before?.name ?? id;
  const counts =
    (before?.count ?? 0) === (after?.count ?? 0)
      ? []
      : [`${plural(name)} ${before?.count ?? 0} → ${after?.count ?? 0}`];
  return [
    ...counts,
    ...outWords(name, before, after),
    ...rest([name], before, after, ['count', 'name', 'out']),
  ];
}

/** "a clamp set out of order from 08:00 for 120 min"; what no longer is. */
function outWords(name: string, before: Gear | undefined, after: Gear | undefined): string[] {
  const [had, has] = [before?.out ?? [], after?.out ?? []];
  const many = (items: number = DEFAULTS.gear.itemsOut): string =>
    items === 1 ? `one ${name}` : `${items} ${plural(name)}`;
  const words = ({ from, minutes, items }: (typeof has)[number]): string =>
    `${many(items)} out of order from ${from} for ${minutes} min`;
  const fresh = has.filter((one) => !had.some((other) => sameJson(one, other)));
  const gone = had.filter((one) => !has.some((other) => sameJson(one, other)));
  return [...fresh.map(words), ...gone.map((one) => `not ${words(one)}`)];
}

const isOut = (person: Person | undefined): boolean =>
  person === undefined || person.attendance?.percent === 0;

const nameOf = (base: Scenario, step: string): string => base.steps[step]?.name ?? step;

type Skill = NonNullable<Person['skills']>[string];

function skillWords(skill: Skill | undefined): string {
  if (skill === undefined) return 'none';
  if (typeof skill === 'number') return String(skill);
  const factor = skill.factor === undefined ? '' : `, takes ${skill.factor} times as long`;
  return `${skill.level ?? 3}${factor}${skill.rework === undefined ? '' : `, ${skill.rework} times the rework`}`;
}

function personWords(
  base: Scenario,
  id: string,
  before: Person | undefined,
  after: Person | undefined,
): string[] {
  const name = after?.name ?? before?.name ?? id;
  const steps = (list: readonly string[] | undefined): string =>
    list === undefined ? 'all they can do' : list.map((step) => nameOf(base, step)).join(', ');
  if (before === undefined)
    return [
      `${name} added: ${after?.covers === undefined ? steps(Object.keys(after?.skills ?? {})) : steps(after.covers)}`,
    ];
  if (after === undefined || (isOut(after) && !isOut(before))) return [`${name} out`];
  const covers = sameJson(before.covers, after.covers)
    ? []
    : [`${name} covers ${steps(after.covers)} (before: ${steps(before.covers)})`];
  const breaks = sameJson(before.breaks, after.breaks)
    ? []
    : [`${name}'s breaks ${breakWords(after.breaks)}`];
  const hours =
    before.from === after.from && before.to === after.to
      ? []
      : [`${name} here ${after.from ?? 'from the start'} to ${after.to ?? 'the end'}`];
  const skills = eachOf(before.skills, after.skills, (step, was, is) => [
    `${name} at ${nameOf(base, step)}: skill ${skillWords(was)} → ${skillWords(is)}`,
  ]);
  return [
    ...covers,
    ...skills,
    ...breaks,
    ...hours,
    ...rest([name], before, after, ['covers', 'skills', 'breaks', 'from', 'to', 'name']),
  ];
}

const breakWords = (breaks: { from: string; minutes: number }[] | undefined): string =>
  breaks === undefined
    ? "as the shift's"
    : breaks.length === 0
      ? 'none'
      : listed(
          breaks.map((one) => `${one.from} (${one.minutes} min)`),
          'and',
        );

const timeWords = (time: Time | undefined): string =>
  time === undefined ? 'not set' : curveOf(time).words.short(time);

function stepWords(base: Scenario, id: string, before: Step | undefined, after: Step | undefined): string[] {
  const name = after?.name ?? before?.name ?? id;
  if (before === undefined) return [`${name} added`];
  if (after === undefined) return [`${name} taken out`];
  const time = sameJson(before.time, after.time)
    ? []
    : [`${name} ${timeWords(before.time)} → ${timeWords(after.time)} min`];
  const own = (step: Step): number => step.benches ?? (step.uses === undefined ? 1 : 0);
  const benches = own(before) === own(after) ? [] : [`${name} benches ${own(before)} → ${own(after)}`];
  const slots = (rack: number | null | undefined): string =>
    rack === undefined || rack === null ? 'no limit' : String(rack);
  const rack =
    slots(before.rack) === slots(after.rack)
      ? []
      : [`rack before ${name} ${slots(before.rack)} → ${slots(after.rack)}`];
  const sent = sameJson(before.rework, after.rework)
    ? []
    : [`${name} sends back ${reworkWords(base, after)} (before: ${reworkWords(base, before)})`];
  return [
    ...time,
    ...benches,
    ...rack,
    ...sent,
    ...rest([name], before, after, ['time', 'benches', 'rack', 'rework', 'name']),
  ];
}

const reworkWords = (base: Scenario, step: Step): string =>
  (step.rework ?? []).length === 0
    ? 'nothing'
    : listed(
        step.rework!.map((back) => `${back.percent} % to ${nameOf(base, back.to)}`),
        'and',
      );

function shiftWords(base: Scenario, changed: Scenario): string[] {
  const [before, after] = [base.shift ?? {}, changed.shift ?? {}];
  const overtime = sameJson(before.overtime, after.overtime) ? [] : [overtimeWords(changed)];
  const breaks = sameJson(before.breaks, after.breaks) ? [] : [`breaks ${breakWords(after.breaks ?? [])}`];
  const target =
    (before.target ?? null) === (after.target ?? null)
      ? []
      : [`target ${before.target ?? 'none'} → ${after.target ?? 'none'}`];
  return [
    ...overtime,
    ...breaks,
    ...target,
    ...rest(['shift'], before, after, ['overtime', 'breaks', 'target']),
  ];
}

function overtimeWords(changed: Scenario): string {
  const { until = 'none', cap = 60, who } = changed.shift?.overtime ?? {};
  if (until === 'none') return 'no overtime';
  const goal = until === 'target' ? 'until the target' : 'until the cell is empty';
  const people =
    who === undefined
      ? ''
      : `, only ${listed(
          who.map((id) => changed.people[id]?.name ?? id),
          'and',
        )}`;
  return `overtime ${goal}, at most ${cap} min${people}`;
}

function intakeWords(before: Intake | undefined, after: Intake | undefined): string[] {
  const [was, is] = [before?.late ?? 0, after?.late ?? 0];
  const late = was === is ? [] : [`everything comes ${is} min late${was > 0 ? ` (before: ${was})` : ''}`];
  const units = (intake: Intake | undefined): string => {
    if (intake === undefined) return '60 at the start';
    switch (intake.kind) {
      case 'at start':
        return `${intake.units} at the start`;
      case 'beat':
        return `one every ${intake.every} min`;
      case 'random':
        return `one every ${timeWords(intake.gap)} min at random`;
      case 'constant':
        return `${intake.inside} always inside`;
      case 'list':
        return `${intake.arrivals.reduce((sum, one) => sum + (one.units ?? 1), 0)} units in ${intake.arrivals.length} lots`;
    }
  };
  const told = units(before) === units(after) ? [] : [`intake ${units(before)} → ${units(after)}`];
  const others = late.length + told.length > 0 ? [] : ['intake changed in its details'];
  return [...late, ...told, ...others];
}

function carryWords(changed: Scenario): string {
  const list = changed.carryOver ?? [];
  if (list.length === 0) return 'the cell is empty';
  return listed(
    list.map(
      (one) =>
        `${one.units ?? DEFAULTS.carried.units} ${one.state ?? DEFAULTS.carried.state} at ${changed.steps[one.at]?.name ?? one.at}`,
    ),
    'and',
  );
}

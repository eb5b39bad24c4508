/** People, posts, gear, products as people name them: by id or name, in any case, a post by who is there. */
import { listed, nearest } from '../scenario/reading/fault.ts';
import type { ResolvedGear, ResolvedPerson, ResolvedProduct, ResolvedStep } from '../scenario/resolve.ts';
import { NotSo, type Cell } from './what-if.ts';

interface Named {
  id: string;
  name: string;
}

const plain = (text: string): string =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '');

/**
 * The one of a list that is meant: by its id, else by its name, else by another word for it.
 * @param none what to say where none is: "there is nobody called"
 */
function meant<T extends Named>(
  list: readonly T[],
  given: string,
  none: string,
  others: (one: T) => string[] = () => [],
): T {
  const wanted = plain(given);
  const ways: ((one: T) => boolean)[] = [
    (one) => one.id === given,
    (one) => plain(one.id) === wanted,
    (one) => plain(one.name) === wanted,
    (one) => others(one).includes(wanted),
  ];
  for (const way of wanted === '' ? [] : ways) {
    const found = list.filter(way);
    if (found.length === 1) return found[0]!;
    if (found.length > 1)
      throw new NotSo(`“${given}” may be ${listed(found.map(({ id }) => id))}; take one of these`);
  }
  const ids = list.map(({ id }) => id);
  const near = nearest(given, [...ids, ...list.map(({ name }) => name)]);
  const one = list.find(({ id, name }) => id === near || name === near);
  throw new NotSo(`${none} “${given}”; the file has ${listed(ids, 'and', 20)}`, one?.id ?? null);
}

export const personOf = ({ shift }: Cell, given: string): ResolvedPerson =>
  meant(shift.people, given, 'there is nobody called');

/** Several people, commas between, in the file's order: the order they are typed in says nothing. */
export function peopleOf(cell: Cell, given: string): ResolvedPerson[] {
  const named = new Set(given.split(',').map((one) => personOf(cell, one.trim()).id));
  return cell.shift.people.filter(({ id }) => named.has(id));
}

/** "sander", "fitter", "gluer" and "stager" for sand, fit, glue and stage. */
function whoIsThere({ id, name }: Named): string[] {
  return [plain(id), plain(name)].flatMap((word) => [
    `${word}er`,
    `${word}r`,
    `${word}${word.at(-1) ?? ''}er`,
    ...(word.endsWith('y') ? [`${word.slice(0, -1)}ier`] : []),
  ]);
}

const stepOf = (cell: Cell, given: string): ResolvedStep =>
  meant(cell.shift.steps, given, 'there is no step', whoIsThere);

/** A step that takes hands. */
export function postOf(cell: Cell, given: string): ResolvedStep {
  const step = stepOf(cell, given);
  if (step.kind === 'hands') return step;
  throw new NotSo(
    `nobody stands at “${step.id}”: it is a wait; the posts are ${listed(postIds(cell), 'and', 20)}`,
  );
}

const postIds = ({ shift }: Cell): string[] =>
  shift.steps.filter(({ kind }) => kind === 'hands').map(({ id }) => id);

/** A step of either kind. */
export const anyStepOf = stepOf;

export const waitsOf = ({ shift }: Cell): ResolvedStep[] => shift.steps.filter(({ kind }) => kind === 'wait');

/** Gear that is listed in the file: clamp sets, jigs; benches of a step are the step's. */
export const gearOf = ({ shift }: Cell): ResolvedGear[] => shift.gear.filter(({ kind }) => kind === 'gear');

export function gearNamed(cell: Cell, given: string): ResolvedGear {
  return meant(gearOf(cell), given, 'there is no gear called');
}

export const productOf = ({ shift }: Cell, given: string): ResolvedProduct =>
  meant(shift.products, given, 'there is no product');

/** A person's name as it stands in a label: with the id where two have the name. */
export const personName = ({ shift }: Cell, person: Named): string => told(shift.people, person);
export const stepName = ({ shift }: Cell, step: Named): string => told(shift.steps, step);
export const gearName = ({ shift }: Cell, gear: Named): string => told(shift.gear, gear);
export const productName = ({ shift }: Cell, product: Named): string => told(shift.products, product);

function told(list: readonly Named[], { id, name }: Named): string {
  const alike = list.filter((one) => plain(one.name) === plain(name)).length > 1;
  return alike || plain(name) === '' ? `${name} (${id})`.trim() : name;
}

/** A name for inside the file that no entry of a group has yet. */
export function freeId(taken: object | undefined, stem: string): string {
  const short = stem.slice(0, 34).replace(/-+$/, '');
  let id = short;
  for (let number = 2; Object.hasOwn(taken ?? {}, id); number += 1) id = `${short}-${number}`;
  return id;
}

/**
 * A draft is the scenario file as it is being typed: plain JSON, right or wrong. It is changed by whole
 * values at places, each change with what stood there before, so that it can be taken back, kept, and put on
 * top of another state of the same file.
 */
import type { Place } from '../../src/scenario/reading/fault.ts';

export type Json = string | number | boolean | null | Json[] | JsonGroup;
export interface JsonGroup {
  [key: string]: Json;
}
export type { Place };

/**
 * One value at one place: replaced, put in (no `before`) or taken out (no `after`). A name put in stands
 * before the first of `followed` that is there, else last, so that a step taken out comes back to its place
 * in the order of the work.
 */
export interface Change {
  place: Place;
  before?: Json;
  after?: Json;
  followed?: string[];
}

const isGroup = (value: Json | undefined): value is JsonGroup =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const has = (value: Json | undefined, key: string | number): boolean =>
  Array.isArray(value)
    ? typeof key === 'number' && key >= 0 && key < value.length
    : isGroup(value) && Object.hasOwn(value, key);

function child(value: Json | undefined, key: string | number): Json | undefined {
  if (!has(value, key)) return undefined;
  return Array.isArray(value) ? value[key as number] : (value as JsonGroup)[key];
}

/** What stands at a place; undefined where nothing does. */
export const valueAt = (draft: Json, place: Place): Json | undefined =>
  place.reduce<Json | undefined>(child, draft);

export function nameIn(draft: Json): string {
  const name = valueAt(draft, ['name']);
  return typeof name === 'string' && name.trim() !== '' ? name : 'a cell without a name';
}

/** The list or group with what stands at `key` replaced. */
function withPart(value: Json, key: string | number, part: Json): Json {
  if (Array.isArray(value)) return value.map((one, i) => (i === key ? part : one));
  // fromEntries defines its keys, so that not even "__proto__" is anything but a name.
  return Object.fromEntries(
    Object.entries(value as JsonGroup).map(([name, one]) => [name, name === key ? part : one]),
  );
}

function withoutPart(value: Json, key: string | number): Json {
  if (Array.isArray(value)) return value.filter((_, i) => i !== key);
  return Object.fromEntries(Object.entries(value as JsonGroup).filter(([name]) => name !== key));
}

function withNewPart(value: Json, key: string | number, part: Json, followed: string[]): Json {
  if (Array.isArray(value)) return [...value.slice(0, key as number), part, ...value.slice(key as number)];
  const entries = Object.entries(value as JsonGroup);
  const next =
    followed.map((name) => entries.findIndex(([other]) => other === name)).find((at) => at >= 0) ??
    entries.length;
  return Object.fromEntries([...entries.slice(0, next), [String(key), part], ...entries.slice(next)]);
}

/** A value with the groups (by name) and lists (by number) around it that are missing. */
const wrapped = (keys: Place, value: Json): Json =>
  keys.reduceRight<Json>(
    (inner, key) => (typeof key === 'number' ? [inner] : Object.fromEntries([[key, inner]])),
    value,
  );

/**
 * The change that puts `value` at a place (undefined: takes it out), or null where it is there already. What
 * is missing on the way is made.
 */
export function changeOf(draft: Json, place: Place, value: Json | undefined): Change | null {
  const now = valueAt(draft, place);
  if (now !== undefined && value !== undefined)
    return same(now, value) ? null : { place, before: now, after: value };
  if (now !== undefined)
    return { place, before: now, followed: namesAfter(valueAt(draft, place.slice(0, -1)), place.at(-1)) };
  if (value === undefined) return null;
  // The first place on the way where nothing stands; where a plain value stands in the way, it gives way.
  let depth = 0;
  while (
    holds(valueAt(draft, place.slice(0, depth)), place[depth]!) &&
    valueAt(draft, place.slice(0, depth + 1)) !== undefined
  )
    depth += 1;
  const around = valueAt(draft, place.slice(0, depth))!;
  if (!holds(around, place[depth]!))
    return { place: place.slice(0, depth), before: around, after: wrapped(place.slice(depth), value) };
  const key = Array.isArray(around) ? Math.min(place[depth] as number, around.length) : place[depth]!;
  return { place: [...place.slice(0, depth), key], after: wrapped(place.slice(depth + 1), value) };
}

/** Whether something could stand at `key` in it: a number in a list, a name in a group. */
const holds = (value: Json | undefined, key: string | number): boolean =>
  Array.isArray(value) ? typeof key === 'number' && key >= 0 : isGroup(value) && typeof key === 'string';

function namesAfter(value: Json | undefined, key: string | number | undefined): string[] {
  const names = isGroup(value) ? Object.keys(value) : [];
  return names.slice(names.indexOf(String(key)) + 1);
}

/** The draft after a change; null where there is no such place any more. */
export function applied(draft: Json, { place, before, after, followed = [] }: Change): Json | null {
  const key = place.at(-1);
  if (key === undefined) return after ?? null;
  const above = place.slice(0, -1);
  const around = valueAt(draft, above);
  if (around === undefined || !holds(around, key)) return null;
  const there = has(around, key);
  // A place in a list is made by moving the others up; a name that has come to be meanwhile is replaced.
  const put = after !== undefined && (!there || (before === undefined && Array.isArray(around)));
  if (put && before !== undefined) return null;
  if (!put && !there) return null;
  const next = put
    ? withNewPart(around, key, after, followed)
    : after === undefined
      ? withoutPart(around, key)
      : withPart(around, key, after);
  return above.length === 0 ? next : replaced(draft, above, next);
}

const replaced = (draft: Json, [key, ...rest]: Place, value: Json): Json =>
  key === undefined ? value : withPart(draft, key, replaced(child(draft, key)!, rest, value));

/** Only what is there is written: an absent side stays absent in JSON too. */
export const inverse = ({ place, before, after, followed }: Change): Change => ({
  place,
  ...(after === undefined ? {} : { before: after }),
  ...(before === undefined ? {} : { after: before }),
  ...(followed === undefined ? {} : { followed }),
});

/** Equal as JSON, order of names included: in a scenario it is the order of the work and of the crew. */
export const same = (one: Json, other: Json): boolean =>
  one === other || JSON.stringify(one) === JSON.stringify(other);

/** A place as one key: `steps/glue/time`. */
export const placeKey = (place: Place): string =>
  place.map((part) => String(part).replaceAll('~', '~0').replaceAll('/', '~1')).join('/');

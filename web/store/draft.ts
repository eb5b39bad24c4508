/**
 * A draft is the scenario file as it is being typed: plain JSON, right or wrong. It is changed by whole values at places, each change
 * with what stood there before, so that it can be taken back, kept, and put on top of another state of the same file.
 */
import type { Place } from '../../src/scenario/reading/fault.ts';

export type Json = string | number | boolean | null | Json[] | JsonGroup;
export interface JsonGroup {
  [key: string]: Json;
}
export type { Place };

/** `place` stands in the draft before and after. What is added or taken out is a change of the group or list around it, so that order comes back too. */
export interface Change {
  place: Place;
  before: Json;
  after: Json;
}

const isGroup = (value: Json | undefined): value is JsonGroup => typeof value === 'object' && value !== null && !Array.isArray(value);
const has = (value: Json | undefined, key: string | number): boolean =>
  Array.isArray(value) ? typeof key === 'number' && key >= 0 && key < value.length : isGroup(value) && Object.hasOwn(value, key);

function child(value: Json | undefined, key: string | number): Json | undefined {
  if (!has(value, key)) return undefined;
  return Array.isArray(value) ? value[key as number] : (value as JsonGroup)[key];
}

/** What stands at a place; undefined where nothing does. */
export const valueAt = (draft: Json, place: Place): Json | undefined => place.reduce<Json | undefined>(child, draft);

/** `value` with `part` at `key`: at its own place, or after the others; undefined takes the key out. */
function withPart(value: Json | undefined, key: string | number, part: Json | undefined): Json {
  if (typeof key === 'number') {
    const list = Array.isArray(value) ? [...value] : [];
    if (part === undefined) list.splice(key, 1);
    else list[Math.min(key, list.length)] = part;
    return list;
  }
  const entries = new Map(isGroup(value) ? Object.entries(value) : []);
  if (part === undefined) entries.delete(key);
  else entries.set(key, part);
  // fromEntries defines its keys, so that not even "__proto__" is anything but a name.
  return Object.fromEntries(entries);
}

function put(draft: Json | undefined, [key, ...rest]: Place, value: Json | undefined): Json | undefined {
  if (key === undefined) return value;
  return withPart(draft, key, rest.length === 0 ? value : put(child(draft, key), rest, value));
}

/** The change that puts `value` at a place (undefined: takes it out), or null where it is there already. Groups that are missing on the way are made. */
export function changeOf(draft: Json, place: Place, value: Json | undefined): Change | null {
  const now = valueAt(draft, place);
  if (value === undefined ? now === undefined : now !== undefined && same(now, value)) return null;
  let depth = place.length;
  // Adding and taking out change what is around; so does a step below something that is not there.
  if (now === undefined || value === undefined) depth -= 1;
  while (depth > 0 && valueAt(draft, place.slice(0, depth)) === undefined) depth -= 1;
  const around = place.slice(0, Math.max(0, depth));
  return { place: around, before: valueAt(draft, around)!, after: put(valueAt(draft, around), place.slice(around.length), value) as Json };
}

/** The draft after a change; null where its place is no more. */
export function applied(draft: Json, { place, after }: Change): Json | null {
  if (valueAt(draft, place) === undefined) return null;
  return put(draft, place, after) as Json;
}

export const inverse = ({ place, before, after }: Change): Change => ({ place, before: after, after: before });

/** Equal as JSON, order of names included: in a scenario it is the order of the work and of the crew. */
export const same = (one: Json, other: Json): boolean => one === other || JSON.stringify(one) === JSON.stringify(other);

/** A place as one key: `steps/glue/time`. */
export const placeKey = (place: Place): string => place.map((part) => String(part).replaceAll('~', '~0').replaceAll('/', '~1')).join('/');

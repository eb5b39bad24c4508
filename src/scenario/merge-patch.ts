/**
 * JSON Merge Patch, RFC 7396: an option is a patch on the file, never a copy of it. Nothing given is changed.
 */

type Group = Record<string, unknown>;

const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * `target` with `patch` applied: groups are merged, null takes an entry away, everything else (lists too)
 * replaces. New entries stand after the old ones, so a person who is added is last in crew order.
 */
export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isGroup(patch)) return patch;
  const entries = new Map<string, unknown>(isGroup(target) ? Object.entries(target) : []);
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) entries.delete(key);
    else entries.set(key, mergePatch(entries.get(key), value));
  }
  // fromEntries defines its keys, so that not even "__proto__" is anything but a name.
  return Object.fromEntries(entries);
}

/**
 * The patch that makes `base` into `changed`: `mergePatch(base, diffPatch(base, changed))` equals `changed`,
 * but for what a merge patch cannot say: a null (it takes the entry away, and the default holds: no limit for
 * a rack, no target) and another order of names (crew order stays the file's).
 */
export function diffPatch(base: unknown, changed: unknown): unknown {
  if (!isGroup(changed)) return changed;
  if (!isGroup(base)) return withoutNulls(changed);
  const patch = new Map<string, unknown>();
  for (const key of Object.keys(base)) {
    if (!Object.hasOwn(changed, key)) patch.set(key, null);
  }
  for (const [key, value] of Object.entries(changed)) {
    if (!Object.hasOwn(base, key)) patch.set(key, isGroup(value) ? withoutNulls(value) : value);
    else if (!sameJson(base[key], value)) patch.set(key, step(base[key], value));
  }
  return Object.fromEntries(patch);
}

/**
 * A list or plain value cannot become an empty or partial group by merging: RFC 7396 starts such a group from
 * nothing, as wanted.
 */
const step = (base: unknown, value: unknown): unknown =>
  isGroup(base) && isGroup(value) ? diffPatch(base, value) : isGroup(value) ? withoutNulls(value) : value;

function withoutNulls(group: Group): Group {
  return Object.fromEntries(
    Object.entries(group).flatMap(([key, value]) =>
      value === null ? [] : [[key, isGroup(value) ? withoutNulls(value) : value]],
    ),
  );
}

/** Whether two JSON values are the same; the order of names does not matter. */
export function sameJson(one: unknown, other: unknown): boolean {
  if (Object.is(one, other) || one === other) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((value, i) => sameJson(value, other[i]));
  if (!isGroup(one) || !isGroup(other)) return false;
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && sameJson(one[key], other[key]))
  );
}

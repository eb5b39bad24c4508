/**
 * Values that did not come from JSON: what JSON cannot say is refused before anything walks deeper into it.
 */
import { faultAt, show, type Fault, type Place } from './fault.ts';
import { MOST_DEPTH } from './read-text.ts';

/** Most entries in all; more cannot come from a file of 10 MB. */
const MOST_ENTRIES = 6_000_000;

/**
 * Faults of nesting, of values JSON has no word for, and of the one name that means something else to the
 * language.
 */
export function plainFaults(value: unknown): Fault[] {
  const faults: Fault[] = [];
  const open: { value: unknown; place: Place }[] = [{ value, place: [] }];
  // Arrays of numbers are by far the longest parts of a file: their entries are looked at in place and not
  // put on the stack.
  for (let entries = 0; open.length > 0 && faults.length < 20; entries++) {
    const { value: one, place } = open.pop()!;
    if (entries > MOST_ENTRIES)
      return [
        faultAt(
          place,
          'more entries than a file of 10 MB can hold',
          `at most ${MOST_ENTRIES}`,
          'leave some out',
        ),
      ];
    if (typeof one !== 'object' || one === null) {
      if (!plainLeaf(one))
        faults.push(
          faultAt(
            place,
            show(one),
            'what JSON can say: numbers, text, true, false, null, lists and groups',
            'write a number or take the entry away',
          ),
        );
      continue;
    }
    if (place.length >= MOST_DEPTH) {
      faults.push(
        faultAt(
          place.slice(0, 4),
          `groups nested deeper than ${MOST_DEPTH}`,
          `at most ${MOST_DEPTH} levels`,
          'take brackets away; a scenario needs fewer than ten levels',
        ),
      );
      return faults;
    }
    faults.push(...pushAll(one, place, open));
  }
  return faults;
}

function pushAll(group: object, place: Place, open: { value: unknown; place: Place }[]): Fault[] {
  if (Array.isArray(group)) {
    group.forEach(
      (value: unknown, i) =>
        void (
          (typeof value !== 'number' || !Number.isFinite(value)) &&
          open.push({ value, place: [...place, i] })
        ),
    );
    return [];
  }
  const faults: Fault[] = [];
  for (const [key, value] of Object.entries(group)) {
    if (key === '__proto__')
      faults.push(
        faultAt([...place, key], 'the name "__proto__"', 'any other name', 'rename it or take it away'),
      );
    else open.push({ value, place: [...place, key] });
  }
  return faults;
}

/** Undefined counts as left out. */
const plainLeaf = (value: unknown): boolean =>
  value === null ||
  value === undefined ||
  typeof value === 'string' ||
  typeof value === 'boolean' ||
  (typeof value === 'number' && Number.isFinite(value));

/** Where something stands in a file, in words: “Step “Glue”, takes, no. 1, until”. */
import { cleaned } from './clean.ts';
import type { Place } from './fault.ts';

/** What the entries of a group are called. A person goes by the name alone. */
const GROUPS: Record<string, string> = {
  steps: 'step',
  people: '',
  gear: 'gear',
  products: 'product',
  options: 'option',
};

/** Entries whose word in the file is no word of the shop. */
const ENTRIES = new Map(
  Object.entries({
    carryOver: 'what stands in the cell',
    nextShifts: 'the shifts after',
    cv: 'how much it varies',
    known: 'how well it is known',
  }),
);

/** Of one name or word, letters: a place stays a line. */
const MOST = 40;

/**
 * @param place keys and positions from the top of the file; empty is the file as a whole.
 * @param file what was read, whole or not: names are looked up in it. Without it ids stand for them.
 */
export function placeInWords(place: Place, file?: unknown): string {
  if (place.length === 0) return 'The file';
  const parts: string[] = [];
  let inside = file;
  for (let i = 0; i < place.length; i++) {
    const key = place[i]!;
    const id = place[i + 1];
    inside = entryOf(inside, key);
    if (key === 'changes') {
      // What an option changes is named in the file it changes.
      inside = file;
    } else if (typeof key === 'string' && Object.hasOwn(GROUPS, key) && isTop(place, i) && id !== undefined) {
      inside = entryOf(inside, id);
      const name = short(nameOf(inside) ?? String(id));
      parts.push(GROUPS[key] === '' ? name : `${GROUPS[key]} “${name}”`);
      i++;
    } else {
      parts.push(typeof key === 'number' ? `no. ${key + 1}` : (ENTRIES.get(key) ?? spaced(short(key))));
    }
  }
  const words = parts.join(', ');
  return words === '' ? 'The changes' : words[0]!.toUpperCase() + words.slice(1);
}

/** At the top of the file, or of what an option changes. */
const isTop = (place: Place, i: number): boolean => i === 0 || place[i - 1] === 'changes';

function entryOf(inside: unknown, key: string | number): unknown {
  return typeof inside === 'object' && inside !== null && Object.hasOwn(inside, key)
    ? (inside as Record<string | number, unknown>)[key]
    : undefined;
}

function nameOf(entry: unknown): string | null {
  const name = entryOf(entry, 'name');
  return typeof name === 'string' && name.trim() !== '' ? name : null;
}

/** "plannedAt": "planned at". */
const spaced = (key: string): string =>
  key.replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);

const short = (text: string): string => {
  const clean = cleaned(text);
  return clean.length > MOST ? `${clean.slice(0, MOST - 1)}…` : clean;
};

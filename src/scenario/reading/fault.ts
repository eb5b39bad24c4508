/**
 * What is wrong with a scenario file, or worth pointing out: always with the place, what was found, what is
 * allowed and the likely remedy.
 */
import { distance } from 'fastest-levenshtein';
import { cleaned } from './clean.ts';
import { placeInWords } from './place-words.ts';

/** Keys and positions from the top of the file: `['steps', 'glue', 'takes', 0, 'until']`. */
export type Place = (string | number)[];

export interface Fault {
  /** The place for programs: `steps.glue.takes[0].until`; empty is the whole file. */
  path: string;
  place: Place;
  /** What stands there, shortened to fit a line. */
  found: string;
  allowed: string;
  /** What would most likely put it right. */
  remedy: string;
  /** One sentence of the place in words and the others. */
  text: string;
}

/** A remark has the same shape: the scenario still runs. */
export type Remark = Fault;

/**
 * `steps.glue.takes[0].until` of its keys and positions. Keys that are no plain words stand in brackets and
 * quotes.
 */
export function pathOf(place: Place): string {
  return place
    .map((key, i) => {
      if (typeof key === 'number') return `[${key}]`;
      if (!/^[\w$-]+$/.test(key)) return `[${JSON.stringify(shorten(key))}]`;
      return i === 0 ? key : `.${key}`;
    })
    .join('');
}

/** The fault at `place`; the sentence is put together here and nowhere else. */
export function faultAt(place: Place, ...words: [found: string, allowed: string, remedy: string]): Fault {
  // Names of the file stand in them: cut, so that a fault stays a sentence, and on one line.
  const [found, allowed, remedy] = words.map((one) => shorten(cleaned(one), MOST_WORDS)) as typeof words;
  const path = shorten(cleaned(pathOf(place)), MOST_PATH);
  const fault = { path, place, found, allowed, remedy };
  return { ...fault, text: sentence(fault, placeInWords(place)) };
}

/** The same fault with the names that the file gives its steps, people and things. */
export const withNames = (fault: Fault, file: unknown): Fault => ({
  ...fault,
  text: sentence(fault, placeInWords(fault.place, file)),
});

function sentence({ found, allowed, remedy }: Omit<Fault, 'text'>, where: string): string {
  const end = /[.?!]$/.test(remedy) ? '' : '.';
  return `${shorten(where, MOST_PATH)}: found ${found}; allowed: ${allowed}; ${remedy}${end}`;
}

const MOST_WORDS = 1000;
const MOST_PATH = 300;

const shorten = (text: string, most = 40): string =>
  text.length > most ? `${text.slice(0, most - 1)}…` : text;

/** A value of the file as a reader would write it, cut to fit a line. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (typeof value === 'string') return `"${shorten(value)}"`;
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : `${value} (no number)`;
  if (typeof value === 'boolean') return String(value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list [ ]' : `a list of ${value.length}`;
  if (typeof value === 'object') {
    const keys = Object.keys(value);
    return keys.length === 0 ? 'an empty group { }' : `a group { ${shorten(keys.join(', '))} }`;
  }
  return `a ${typeof value}`;
}

/** The name most like `wanted`, or null where none is near enough to have been meant. Ties: the first. */
export function nearest(wanted: string, names: readonly string[]): string | null {
  const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '');
  const aim = plain(wanted.slice(0, 60));
  // Two letters changed places count as two: four letters and more may differ by that.
  const reach = aim.length < 4 ? 1 : Math.max(2, Math.floor(aim.length / 2.5));
  let best: string | null = null;
  let least = reach + 1;
  for (const name of names) {
    const own = plain(name);
    const begins = aim.length > 2 && own.length > 2 && (own.startsWith(aim) || aim.startsWith(own));
    const far = begins ? Math.min(1, distance(aim, own)) : distance(aim, own);
    if (far < least) [best, least] = [name, far];
  }
  return best;
}

/** "a, b or c"; long lists are cut. */
export function listed(names: readonly string[], joint: 'or' | 'and' = 'or', most = 12): string {
  if (names.length === 0) return 'none';
  if (names.length === 1) return names[0]!;
  if (names.length > most) return `${names.slice(0, most).join(', ')} and ${names.length - most} more`;
  return `${names.slice(0, -1).join(', ')} ${joint} ${names.at(-1)!}`;
}

/** Minutes in words: "45 min", "7.25 min". */
export const inMinutes = (minutes: number): string => `${Math.round(minutes * 100) / 100} min`;

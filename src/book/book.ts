/**
 * The book of a cell's days: dated entries that are only ever added to. Joining is the union by id, a
 * grow-only set (Shapiro, Preguica, Baquero & Zawirski 2011, "Conflict-free replicated data types"): books
 * join in any order and any grouping to the same book.
 */
import { byAge, inAge, readEntry, sameEntry, type Entry } from './entry.ts';
import { lineOf, splitLines, type Line } from './lines.ts';

export interface UnreadLine {
  line: number;
  why: string;
  /** What stands there, shortened. */
  text: string;
}

export interface BookReading {
  /** Oldest first, each id once. */
  entries: Entry[];
  /** Lines that cannot be taken for an entry. They stay in the file and hide no other. */
  unread: UnreadLine[];
  /** What was cut off at the end, as far as it can be read; null in a file written to its end. */
  tail: string | null;
}

/** Longest line read, characters: a day's record with 20,000 times has about 2 million. */
const LONGEST = 16_000_000;

export function readBook(bytes: Uint8Array): BookReading {
  const { lines, tail } = splitLines(bytes);
  const byId = new Map<string, { entry: Entry; line: number }>();
  const unread: UnreadLine[] = [];
  for (const line of lines) {
    const read = entryOfLine(line);
    if (typeof read === 'string') {
      unread.push({ line: line.number, why: read, text: shown(line.text ?? '') });
      continue;
    }
    const before = byId.get(read.id);
    if (before === undefined) byId.set(read.id, { entry: read, line: line.number });
    else if (!sameEntry(before.entry, read))
      unread.push({
        line: line.number,
        why: `it has the id of line ${before.line} and says something else`,
        text: shown(line.text ?? ''),
      });
  }
  return {
    entries: inAge([...byId.values()].map(({ entry }) => entry)),
    unread,
    tail: tail.length === 0 ? null : shown(new TextDecoder().decode(tail.subarray(0, 400))),
  };
}

function entryOfLine({ number, text: given }: Line): Entry | string {
  if (given === null) return 'it is not written in UTF-8';
  const text = number === 1 ? given.replace(/^\uFEFF/, '') : given;
  if (text.length > LONGEST) return `it has ${text.length} characters, more than any entry`;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return 'it is damaged or was cut off';
  }
  const read = readEntry(value);
  return read.kind === 'fine' ? read.entry : read.why;
}

const shown = (text: string): string => (text.length > 80 ? `${text.slice(0, 79)}…` : text);

/** The book as a file holds it. */
export const writeBook = (entries: readonly Entry[]): string => entries.map(lineOf).join('');

export type Joined =
  | { kind: 'joined'; entries: Entry[] }
  /** Two entries bear one id and say different things: refused, since either may be the true one. */
  | { kind: 'refused'; ids: string[] };

/** The union by id, oldest first. */
export function joinBooks(...books: readonly (readonly Entry[])[]): Joined {
  const byId = new Map<string, Entry>();
  const refused = new Set<string>();
  for (const entry of books.flat()) {
    const before = byId.get(entry.id);
    if (before === undefined) byId.set(entry.id, entry);
    else if (!sameEntry(before, entry)) refused.add(entry.id);
    // Two writings of one entry may differ in the order of their fields: the same one stands in every join.
    else if (lineOf(entry) < lineOf(before)) byId.set(entry.id, entry);
  }
  return refused.size > 0
    ? { kind: 'refused', ids: [...refused].sort() }
    : { kind: 'joined', entries: inAge([...byId.values()]) };
}

/** The entry of a kind that holds for a day: the newest by instant, then by id. Null where there is none. */
export const newestOf = (entries: readonly Entry[], day: string, kind: string): Entry | null =>
  entries
    .filter((entry) => entry.day === day && entry.kind === kind)
    .reduce<Entry | null>((best, entry) => (best === null || byAge(best, entry) < 0 ? entry : best), null);

/** The entries that hold: of each day and kind the newest, oldest first. */
export function holding(entries: readonly Entry[]): Entry[] {
  const newest = new Map<string, Entry>();
  for (const entry of inAge(entries)) newest.set(`${entry.day} ${entry.kind}`, entry);
  return inAge([...newest.values()]);
}

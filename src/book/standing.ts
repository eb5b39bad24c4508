/** What of the book stands: what nobody took back, and whether a forecast was made in time. */
import { contentOf, inAge, type Entry } from './entry.ts';

/**
 * The entries that were not taken back, oldest first. A correction takes back an entry older than itself,
 * another correction too (then what that one took back stands again).
 */
export function standing(entries: readonly Entry[]): Entry[] {
  const ordered = inAge(entries);
  const struck = new Set<string>();
  // From the newest on: by the time an entry is met, all that may take it back has been heard.
  for (const entry of [...ordered].reverse()) {
    const correction = contentOf(entry, 'correction');
    if (correction !== null && !struck.has(entry.id)) struck.add(correction.undoes);
  }
  return ordered.filter(({ id }) => !struck.has(id));
}

/**
 * Was this forecast made when its shift had begun? By the clock on the wall where it was made, against the
 * start it was made for; where that is not said, against the end of its day.
 */
export function madeAfterStart(entry: Entry): boolean {
  const start = contentOf(entry, 'forecast')?.start;
  return start === undefined
    ? entry.at.slice(0, 10) > entry.day
    : entry.at.slice(0, 16) >= `${entry.day}T${start}`;
}

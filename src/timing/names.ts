/** Finding what a written name means among the names a scenario knows. */
import { closest, distance } from 'fastest-levenshtein';
import { fold } from './header-words.ts';

export interface Named {
  id: string;
  name: string;
}

/** Steps, products or people of a scenario with the names people see. */
export function namedOf(record: Record<string, { name?: string | undefined }> | undefined): Named[] {
  return Object.entries(record ?? {}).map(([id, value]) => ({ id, name: value.name ?? id }));
}

/**
 * The id whose id or name is written here, letter case, accents and signs aside; null where none or more than
 * one is.
 */
export function idOf(text: string, known: Named[]): string | null {
  const wanted = fold(text);
  if (wanted === '') return null;
  const exact = known.find((one) => one.id === text || one.name === text);
  if (exact !== undefined) return exact.id;
  const same = known.filter((one) => fold(one.id) === wanted || fold(one.name) === wanted);
  return same.length === 1 ? same[0]!.id : null;
}

/**
 * The known name nearest to what is written, or null where none is near (more than half of the letters
 * differ).
 */
export function nearestName(text: string, known: Named[]): string | null {
  // A name is never as long; a row of megabytes would be compared letter by letter.
  if (text.length > 200 || known.length === 0) return null;
  const wanted = fold(text);
  if (wanted === '') return null;
  const names = known.flatMap((one) => [one.name, one.id]);
  const nearest = closest(wanted, names.map(fold));
  const place = names.findIndex((name) => fold(name) === nearest);
  const far = distance(wanted, nearest) > Math.max(wanted.length, nearest.length) / 2;
  return place < 0 || (far && !nearest.includes(wanted) && !wanted.includes(nearest)) ? null : names[place]!;
}

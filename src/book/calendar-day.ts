/** Days and instants as the book writes them. */

import { isDay } from '../scenario/days.ts';

export { DAY_WORDS, isDay } from '../scenario/days.ts';

const INSTANT =
  /^(\d{4}-\d{2}-\d{2})T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,3})?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/**
 * Milliseconds since 1970 of an instant with its zone, "2027-03-05T06:10:00.250+01:00" (RFC 3339, at most
 * milliseconds); null where it is none.
 */
export function millisecondsOf(instant: string): number | null {
  const parts = INSTANT.exec(instant);
  return parts === null || !isDay(parts[1]!) ? null : Date.parse(instant);
}

/**
 * The instant as a clock on the wall shows it.
 * @param milliseconds since 1970. @param offset minutes the wall is ahead of UTC: 60 for +01:00.
 */
export function instantOf(milliseconds: number, offset: number): string {
  const wall = new Date(milliseconds + offset * 60_000).toISOString().slice(0, -1);
  const two = (value: number): string => String(value).padStart(2, '0');
  const ahead = Math.abs(offset);
  return `${wall}${offset < 0 ? '-' : '+'}${two(Math.floor(ahead / 60))}:${two(ahead % 60)}`;
}

/** Days and instants as the book writes them. */

/** "2027-03-05" where the calendar has such a day, 1900 to 2200: 2027-02-30 is none. */
export function isDay(text: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (parts === null) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const date = new Date(Date.UTC(year, month - 1, day));
  // Date.UTC rolls a 30 February over into March.
  return (
    year >= 1900 &&
    year <= 2200 &&
    date.getUTCFullYear() === year &&
    date.getUTCMonth() === month - 1 &&
    date.getUTCDate() === day
  );
}

/** What is said to somebody who typed a day that is none. */
export const DAY_WORDS = 'a date as YYYY-MM-DD that the calendar has, for example 2027-03-05';

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

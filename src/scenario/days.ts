/** Days of the calendar, "2027-03-05", without a clock or a zone. */

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

/** The days of a week as a file names them, Monday first. */
export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];
export const WEEKDAY_NAMES: Record<Weekday, string> = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
};

const DAY = 86_400_000;
const instantOf = (day: string): number => Date.parse(`${day}T00:00:00Z`);

/** So many days on; back where `count` is under 0. */
export const daysOn = (day: string, count: number): string =>
  new Date(instantOf(day) + count * DAY).toISOString().slice(0, 10);

/** Days from one to the other; under 0 where `to` is the earlier one. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((instantOf(to) - instantOf(from)) / DAY);

// A Sunday is day 0 of a Date.
export const weekdayOf = (day: string): Weekday => WEEKDAYS[(new Date(instantOf(day)).getUTCDay() + 6) % 7]!;

/** The Monday of its week. */
export const mondayOf = (day: string): string => daysOn(day, -WEEKDAYS.indexOf(weekdayOf(day)));

import { caution } from './caution.ts';

/** Minutes of a shift from which the day counts as long. */
const LONG_DAY = 600;

export const longHours = caution({
  topic: 'long hours',
  text: 'Long hours hurt: overtime schedules go with 61 % more injuries, days of 12 hours and more with 37 % more.',
  short: 'long hours hurt',
  source: 'Occup Environ Med 62:588.',
  beside: ['overtime', 'week of a person', 'limit of hours'],
  onShortPapers: [],
  applies: (shift) =>
    shift.overtime.until !== 'none' ||
    shift.length >= LONG_DAY ||
    shift.people.some((person) => person.hoursThisWeek > 40 || person.daysThisWeek >= 6),
});

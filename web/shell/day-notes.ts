/** What the book has of a day, in a few words, and the days worth choosing from. */
import { dayOf, daysOf } from '../../src/book/day.ts';
import type { Entry } from '../../src/book/entry.ts';
import { nextWorkingDay, workingDays } from '../../src/scenario/calendar.ts';
import { daysOn } from '../../src/scenario/days.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { counted } from '../../src/words/words.ts';

export function dayNotes(entries: readonly Entry[], day: string): string {
  const { plan, forecast, counts, handover, result } = dayOf(entries, day);
  const said = [
    ...(plan === null ? (forecast === null ? [] : ['a forecast']) : ['a plan']),
    ...(counts.length === 0 ? [] : [counted(counts.length, 'count')]),
    ...(handover === null ? [] : ['handed over']),
    ...(result === null ? [] : [`${result.content.good} good came`]),
  ];
  return said.join(', ');
}

const [BEFORE, AFTER] = [7, 5];

/** The last days of the book, the day today, and the next days that are worked. */
export function daysToChoose(
  calendar: Pick<Scenario, 'calendar'>,
  entries: readonly Entry[],
  today: string,
): string[] {
  const known = daysOf(entries);
  const before = known.filter((day) => day < today).slice(-BEFORE);
  const after = workingDays(calendar, nextWorkingDay(calendar, today), AFTER);
  const farther = known.filter((day) => day > today).slice(0, AFTER);
  return [...new Set([...before, today, ...after, ...farther])].sort();
}

/** "today", "in 3 days", "yesterday"; empty for what is farther off than a week or two. */
export function farOff(day: string, today: string): string {
  if (day === today) return 'today';
  if (day === daysOn(today, 1)) return 'tomorrow';
  return day === daysOn(today, -1) ? 'yesterday' : '';
}

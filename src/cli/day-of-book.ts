/** A day of the book for the commands that are about one. */
import { planOfDay } from '../report/plan-of-day.ts';
import { isDay } from '../book/calendar-day.ts';
import { dayWords } from '../scenario/calendar.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { CrewPlan } from '../staffing/plan-crew.ts';
import type { TriedChange } from '../staffing/try-change.ts';
import { isKnownDay } from '../today/kept-counts.ts';
import { openedDay, type OpenedDay } from '../today/opened-day.ts';
import { bookToAnswerFrom, sayInBook, tellKept } from './book-entries.ts';
import { today } from './clock.ts';
import { say } from './print.ts';
import { commandWrong } from './trouble.ts';

/** The day as the book at `path` has it; what of the book could not be used is said. */
export async function dayOfBook(scenario: Scenario, path: string, day: string): Promise<OpenedDay> {
  const book = await bookToAnswerFrom(path);
  const opened = openedDay(scenario, book.entries, day);
  opened.unused.forEach((sentence) => say(sentence));
  return opened;
}

/** A day as it was typed. Throws Trouble for one that the calendar does not have. */
export function typedDayOf(text: string): string {
  if (isDay(text)) return text;
  throw commandWrong(`--day takes a date such as 2026-03-02, not ${text}.`);
}

/**
 * Puts the plan, or the sheet that a change by hand made of it, and its forecast into the book. A change that
 * breaks a rule is shown and never kept.
 */
export async function putIntoDay(
  opened: OpenedDay,
  plan: CrewPlan,
  change: Record<string, unknown> | null,
  tried: Extract<TriedChange, { kind: 'tried' }> | null,
  path: string,
): Promise<void> {
  const made = planOfDay(opened, plan, change, tried);
  if (made.kind === 'refused') return say(made.why);
  tellKept(await sayInBook(path, opened.scenario.name, () => made.said));
  say(`${dayWords(opened.day)} has its plan and forecast.`);
}

/**
 * The day a command is about: the one named; else today where the book has anything of it, or is to have.
 * Null: no day in particular, the file as it is.
 */
export async function dayAsked(
  scenario: Scenario,
  path: string,
  named: string | undefined,
  needed: boolean,
): Promise<OpenedDay | null> {
  const opened = await dayOfBook(scenario, path, typedDayOf(named ?? today()));
  return named !== undefined || needed || isKnownDay(opened) ? opened : null;
}

/** A day of the book for the commands that are about one. */
import { answerSentences } from '../report/crew-words.ts';
import { dayWords } from '../scenario/calendar.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { CrewPlan } from '../staffing/plan-crew.ts';
import type { TriedChange } from '../staffing/try-change.ts';
import {
  changedSheet,
  forecastSaid,
  openedDay,
  plannedSheet,
  planSaid,
  type OpenedDay,
} from '../today/opened-day.ts';
import { sayInBook, tellKept, tellUnread, type ToSay } from './book-entries.ts';
import { readBookFile } from './disk/book-file.ts';
import { say } from './print.ts';

/** The day as the book at `path` has it; what of the book could not be used is said. */
export async function dayOfBook(scenario: Scenario, path: string, day: string): Promise<OpenedDay> {
  const book = await readBookFile(path);
  tellUnread(book);
  const opened = openedDay(scenario, book.entries, day);
  opened.unused.forEach((sentence) => say(sentence));
  return opened;
}

/** Which day it is about and what it opens with, in a sentence. */
export const dayOpening = ({ day, opening }: OpenedDay): string =>
  opening.kind === 'file'
    ? `For ${dayWords(day)}, opening with the stock of the file.`
    : `For ${dayWords(day)}, opening with what ${dayWords(opening.day)} handed over.`;

/**
 * Puts the plan, or the sheet that a change by hand made of it, and its forecast into the book. A change that
 * breaks a rule is shown and never kept.
 */
export async function putIntoDay(
  { day, unplanned, scenario }: OpenedDay,
  plan: CrewPlan,
  change: Record<string, unknown> | null,
  tried: Extract<TriedChange, { kind: 'tried' }> | null,
  path: string,
): Promise<void> {
  if (plan.kind === 'over the limit') {
    say("Nothing is put into the book: no plan keeps the file's limits.");
    return;
  }
  if (tried !== null && tried.broken.length > 0) {
    say('Nothing is put into the book: the sheet with your change breaks a rule.');
    return;
  }
  const sheet = change === null || tried === null ? plannedSheet(plan) : changedSheet(plan, change, tried);
  const answer = change === null ? answerSentences(plan) : ['The sheet was changed by hand.'];
  const said: ToSay[] = [
    { day, kind: 'plan', content: planSaid(unplanned, sheet, answer) },
    { day, kind: 'forecast', content: forecastSaid(sheet) },
  ];
  tellKept(await sayInBook(path, scenario.name, () => said));
  say(`${dayWords(day)} has its plan and forecast.`);
}

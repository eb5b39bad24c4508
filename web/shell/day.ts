/** The day the pages are about: one that was chosen, or today by the clock on the wall here. */
import { openedDay, type OpenedDay } from '../../src/today/opened-day.ts';
import { isKnownDay } from '../../src/today/kept-counts.ts';
import { isDay } from '../../src/book/calendar-day.ts';
import { nextWorkingDay, workedFrom } from '../../src/scenario/calendar.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { entriesOf } from '../store/book.ts';
import type { CellStore } from '../store/cell-store.ts';
import { Value } from '../store/value.ts';
import { lastOf } from '../work/same.ts';

/** Swedish writes a day and a clock as a file does. */
const dayNow = (): string => new Date().toLocaleDateString('sv-SE');
const clockNow = (): string => new Date().toLocaleTimeString('sv-SE', { hour: '2-digit', minute: '2-digit' });

/** The day and the minute by the clock on the wall, "2027-03-05" and "10:40". */
export const today = new Value(dayNow());
export const clock = new Value(clockNow());
const BETWEEN_LOOKS = 5000;

function look(): void {
  today.set(dayNow());
  clock.set(clockNow());
}
setInterval(look, BETWEEN_LOOKS);
// A tablet that slept has missed its turns.
globalThis.document?.addEventListener('visibilitychange', look);

const KEY = 'clampwright-day';

/** The day chosen by hand, as long as this tab is open; null: today. */
export const chosenDay = new Value<string | null>(chosenBefore());
chosenDay.subscribe((day) => {
  try {
    if (day === null) sessionStorage.removeItem(KEY);
    else sessionStorage.setItem(KEY, day);
  } catch {
    // Then it is chosen again after a reload.
  }
});

function chosenBefore(): string | null {
  try {
    const day = sessionStorage.getItem(KEY);
    return day !== null && isDay(day) ? day : null;
  } catch {
    return null;
  }
}

/** What pages that are about a day are drawn again for. */
export const dayValues = (store: CellStore): Pick<Value<unknown>, 'subscribe'>[] => [
  chosenDay,
  today,
  store.entries.all,
];

/** The cell's own calendar, perhaps from before the last mistake; without a cell every weekday is worked. */
const calendarOf = (store: CellStore): Pick<Scenario, 'calendar'> => store.scenario.get() ?? {};

/** The day the pages are about: today, or the next one that is worked. */
export const dayAbout = (store: CellStore): string =>
  chosenDay.get() ?? workedFrom(calendarOf(store), today.get());

/** The day a crew is planned for: one that was chosen and is not over, else the next working day. */
export function dayToPlan(store: CellStore): string {
  const chosen = chosenDay.get();
  const now = today.get();
  return chosen !== null && chosen >= now ? chosen : nextWorkingDay(calendarOf(store), now);
}

/** A few days are looked at by one page: the crew's, today's. */
const opened = new Map<string, (...of: Parameters<typeof openedDay>) => OpenedDay>();
const MOST_OPENED = 20;

/** A day of the book, the same one while cell and book are the same. */
export function openedFor(store: CellStore, scenario: Scenario, day: string): OpenedDay {
  if (opened.size > MOST_OPENED) opened.clear();
  const open = opened.get(day) ?? lastOf(openedDay);
  opened.set(day, open);
  return open(scenario, entriesOf(store), day);
}

/**
 * The day as pages take it up: null where nobody chose it and the book says nothing of it. Then they are
 * about the cell as its file has it.
 */
export function dayTaken(store: CellStore, scenario: Scenario): OpenedDay | null {
  const day = openedFor(store, scenario, dayAbout(store));
  return chosenDay.get() !== null || isKnownDay(day) ? day : null;
}

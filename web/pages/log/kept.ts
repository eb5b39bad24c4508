/**
 * The log of a cell: the entries of its days as this browser keeps them, each a record of its own that is
 * only ever added. Saved and opened it is the same file as the command line's.
 */
import { readBook, writeBook } from '../../../src/book/book.ts';
import { dayOf } from '../../../src/book/day.ts';
import type { Entry } from '../../../src/book/entry.ts';
import type { ToSay } from '../../../src/book/next-entry.ts';
import { standing } from '../../../src/book/standing.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import { sameJson } from '../../../src/scenario/merge-patch.ts';
import { resolve } from '../../../src/scenario/resolve.ts';
import { newsOf, type DaysList } from '../../../src/timing/days-list.ts';
import { contentsOfDay, logOfBook, type LogBook, type LogDay } from '../../../src/timing/log-book.ts';
import { readOlderLog } from '../../../src/timing/older-log.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { addToBook, entriesOf } from '../../store/book.ts';
import type { KeptEntry } from '../../store/database.ts';

export const LOG_FILE = 'clampwright-log.jsonl';

export const logFor = (store: CellStore): LogBook => logOfBook(entriesOf(store), store.name);

/** Tells a forecast made before the shift from one made after its start. */
function startOf(store: CellStore): string {
  const reading = store.reading.get();
  return reading.kind === 'fine' ? resolve(reading.scenario).start : DEFAULTS.shift.start;
}

/** Adds what is newly said of a day; false where it lasts only as long as this page. */
export async function keepDay(store: CellStore, day: LogDay): Promise<boolean> {
  const said = contentsOfDay(day, startOf(store)).flatMap(({ kind, content }) => {
    const newest = standing(entriesOf(store)).findLast(
      (entry) => entry.day === day.date && entry.kind === kind,
    );
    // Causes and overtime that were written down stay with another number.
    const whole = kind === 'result' ? { ...newest?.content, ...content } : content;
    return newest !== undefined && sameJson(newest.content, whole) ? [] : [{ kind, content: whole }];
  });
  if (said.length === 0) return true;
  const added = await addToBook(
    store,
    said.map((one) => ({ day: day.date, ...one }) as ToSay),
  );
  return added.kept;
}

/** Results of a list of days into the book; `added`: entries that say something else than the book did. */
export async function keepDays(store: CellStore, list: DaysList): Promise<{ added: number; kept: boolean }> {
  const entries = entriesOf(store);
  const news = newsOf(list.days, (day) => {
    const { result, notes } = dayOf(entries, day);
    return {
      result: result === null ? null : result.content,
      note: notes.at(-1)?.content.note ?? null,
    };
  });
  if (news.length === 0) return { added: 0, kept: true };
  const { kept } = await addToBook(store, news as ToSay[]);
  return { added: news.length, kept };
}

export const logText = (store: CellStore): string => writeBook(store.entries.all.get() as unknown as Entry[]);

export type OpenedLog =
  | { kind: 'no log' }
  /** `added`: entries not here before. `unread`: what of it could not be read, in words. */
  | { kind: 'joined'; added: number; unread: string[] };

/** Joins a saved log, of either form, with what is here: nothing that is here is lost. */
export async function joinLog(store: CellStore, text: string): Promise<OpenedLog> {
  const { entries, unread } = entriesIn(text);
  if (entries.length === 0) return { kind: 'no log' };
  const there = new Set(store.entries.all.get().map(({ id }) => id));
  await store.entries.add(entries as KeptEntry[]);
  return { kind: 'joined', added: entries.filter(({ id }) => !there.has(id)).length, unread };
}

function entriesIn(text: string): { entries: Entry[]; unread: string[] } {
  const older = readOlderLog(text);
  if (older.kind === 'older log') return older;
  const { entries, unread, tail } = readBook(new TextEncoder().encode(text));
  const lines = unread.map(({ line, why }) => `line ${line}: ${why}`);
  return { entries, unread: tail === null ? lines : [...lines, 'the last line was cut off'] };
}

/** A log as versions before 0.2 kept it comes in once; what of it cannot be read is set aside. */
export async function bringOlder(store: CellStore): Promise<void> {
  const key = `clampwright-log ${store.id}`;
  try {
    const text = localStorage.getItem(key);
    if (text === null) return;
    const { entries, unread } = entriesIn(text);
    const kept = entries.length === 0 || (await store.entries.add(entries as KeptEntry[])).kind === 'kept';
    const aside =
      (entries.length > 0 && unread.length === 0) ||
      (await store.entries.setAside(`“${store.name}”: the log`, text));
    if (kept && aside) localStorage.removeItem(key);
  } catch {
    // No small store: no older log in it.
  }
}

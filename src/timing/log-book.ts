/**
 * The log: what was forecast before each shift, and what came. It is a view of the book of days: of each day
 * the newest entry of a kind.
 */
import { contentOf, type Entry } from '../book/entry.ts';
import { madeAfterStart, standing } from '../book/standing.ts';
import { DAY_WORDS, isDay } from '../book/calendar-day.ts';
import { forecastSchema, timeTakenSchema, unitsSchema, type Content, type Kind } from '../book/kinds.ts';
import { z } from '../zod.ts';
import { coverageOfLog, type LogCoverage, type LogEntry } from './log-coverage.ts';
import type { Observation } from './observation.ts';

export const logDaySchema = z.strictObject({
  date: z.string().refine(isDay, `write ${DAY_WORDS}`),
  forecast: forecastSchema.optional(),
  /** The forecast was made after the shift began: it is shown and counts in no coverage. */
  late: z.literal(true).optional(),
  target: unitsSchema.nullable().optional(),
  good: unitsSchema.optional(),
  /** What went wrong, in words. */
  note: z.string().max(2000).optional(),
  /** Times read off the record of the day, allowance in them. */
  times: z.array(timeTakenSchema).max(20_000).optional(),
});
export const logBookSchema = z.strictObject({
  format: z.literal(1),
  cell: z.string().max(120).optional(),
  days: z.array(logDaySchema).max(10_000),
});

export type LogDay = z.infer<typeof logDaySchema>;
export type LogBook = z.infer<typeof logBookSchema>;

export const emptyLog = (cell: string): LogBook => ({ format: 1, cell, days: [] });

/**
 * What the book says of its days: of each kind the newest that was not taken back. A forecast made after the
 * shift began never stands in for one made before.
 */
export function logOfBook(entries: readonly Entry[], cell: string): LogBook {
  const days = new Map<string, LogDay>();
  for (const entry of standing(entries)) {
    const said = saidBy(entry);
    const before = days.get(entry.day);
    if (said === null) continue;
    const late = said.forecast !== undefined && madeAfterStart(entry);
    if (late && before?.forecast !== undefined && before.late === undefined) continue;
    const day: LogDay = { date: entry.day, ...before, ...said };
    if (late) day.late = true;
    else if (said.forecast !== undefined) delete day.late;
    days.set(entry.day, day);
  }
  return {
    ...emptyLog(cell),
    days: [...days.values()].sort((a, b) => (a.date < b.date ? -1 : 1)),
  };
}

/** What an entry says for the log; null where its kind is none of the log's. */
function saidBy(entry: Entry): Omit<LogDay, 'date'> | null {
  const said =
    contentOf(entry, 'forecast') ??
    contentOf(entry, 'result') ??
    contentOf(entry, 'target') ??
    contentOf(entry, 'note') ??
    contentOf(entry, 'times');
  if (said === null) return null;
  const { forecast, target, good, note, times } = said as Omit<LogDay, 'date'>;
  return Object.fromEntries(
    Object.entries({ forecast, target, good, note, times }).filter(([, value]) => value !== undefined),
  );
}

/**
 * A day as contents of entries: one of each kind that it says something of.
 * @param start the shift's, "HH:MM": tells later whether a forecast was made before it.
 */
export function contentsOfDay(day: LogDay, start?: string): { kind: Kind; content: Entry['content'] }[] {
  const { forecast, target, good, note, times } = day;
  const due = target === undefined ? {} : { target };
  const all: { [K in Kind]?: Content<K> | null } = {
    forecast: forecast === undefined ? null : { forecast, ...due, ...(start === undefined ? {} : { start }) },
    result: good === undefined ? null : { good, ...due },
    target: target === undefined || forecast !== undefined || good !== undefined ? null : { target },
    note: note === undefined ? null : { note },
    times: times === undefined ? null : { times },
  };
  return (Object.keys(all) as Kind[]).flatMap((kind) => {
    const content = all[kind];
    return content == null ? [] : [{ kind, content }];
  });
}

/** Days that have both a forecast made before their shift and a number. */
export function finishedDays(log: LogBook): LogEntry[] {
  return log.days.flatMap(({ date: on, forecast, late, good, target }): LogEntry[] =>
    forecast === undefined || late === true || good === undefined
      ? []
      : [{ date: on, forecast, good, target: target ?? null }],
  );
}

/** Times of the last days that have any. They hold the allowance, as clock times do. */
export function timesOfBook(log: LogBook, lastDays = 10): Observation[] {
  const days = log.days.filter((day) => (day.times ?? []).length > 0).slice(-lastDays);
  return days.flatMap((day) =>
    day.times!.map((time, place) => ({ ...time, rating: null, date: day.date, row: place + 1 })),
  );
}

export const coverageOfBook = (log: LogBook): LogCoverage => coverageOfLog(finishedDays(log));

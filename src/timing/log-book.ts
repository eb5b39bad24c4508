/** The log: what was forecast before each shift, and what came. One plain file, also kept by the pages. */
import { z } from '../scenario/zod.ts';
import { coverageOfLog, type LogCoverage, type LogEntry } from './log-coverage.ts';
import type { Observation } from './observation.ts';

const date = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'write a date as YYYY-MM-DD, for example 2027-03-05');
const units = z.number().min(0).max(1e6);

export const logDaySchema = z.strictObject({
  date,
  /**
   * Good units that one shift in ten stays under, half, and one in ten passes; chance of the target, 0 to 1.
   */
  forecast: z
    .strictObject({ p10: units, p50: units, p90: units, chance: z.number().min(0).max(1).nullable() })
    .optional(),
  target: units.nullable().optional(),
  good: units.optional(),
  /** What went wrong, in words. */
  note: z.string().max(2000).optional(),
  /** Times read off the record of the day, allowance in them. */
  times: z
    .array(
      z.strictObject({
        step: z.string(),
        product: z.string().nullable(),
        person: z.string().nullable(),
        minutes: z.number().gt(0).max(100_000),
        repeat: z.boolean(),
      }),
    )
    .max(20_000)
    .optional(),
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
 * The log with what is said of a day added to it, days in order; what was said of it before and is not said
 * now stays.
 */
export function withDay(log: LogBook, day: LogDay): LogBook {
  const before = log.days.find((one) => one.date === day.date);
  const days = [...log.days.filter((one) => one.date !== day.date), { ...before, ...day }];
  return { ...log, days: days.sort((a, b) => (a.date < b.date ? -1 : 1)) };
}

/** Days that have both a forecast and a number. */
export function finishedDays(log: LogBook): LogEntry[] {
  return log.days.flatMap(({ date: on, forecast, good, target }): LogEntry[] =>
    forecast === undefined || good === undefined
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

/** Reads a log; what is wrong is said by place. */
export function readLog(text: string): { kind: 'fine'; log: LogBook } | { kind: 'wrong'; faults: string[] } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return {
      kind: 'wrong',
      faults: [`the log is not JSON: ${error instanceof Error ? error.message : String(error)}`],
    };
  }
  const read = logBookSchema.safeParse(value);
  if (read.success) return { kind: 'fine', log: read.data };
  return {
    kind: 'wrong',
    faults: read.error.issues
      .slice(0, 20)
      .map((issue) => `${issue.path.join('.') || 'the file'}: ${issue.message}`),
  };
}

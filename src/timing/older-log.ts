/**
 * The log's older form, one JSON document { format: 1, cell, days }, as entries of the book. The ids follow
 * from the days, so that a log read twice, or on two machines, is the same book.
 */
import type { Entry } from '../book/entry.ts';
import { contentsOfDay, logDaySchema } from './log-book.ts';

export type OlderLog =
  /** `unread`: days that cannot be taken for one, in words; they hide no other. */
  | { kind: 'older log'; entries: Entry[]; unread: string[] }
  /** Some other text: no log of the older form. */
  | { kind: 'other' };

/** What stands in place of the program that made the entry, which is not known. */
const BY = 'log of the older form';

export function readOlderLog(text: string): OlderLog {
  const log = documentOf(text);
  if (log === null) return { kind: 'other' };
  const entries: Entry[] = [];
  const unread: string[] = [];
  const times = new Map<string, number>();
  // A day that stands twice, by hand: both are kept, the later one holds.
  const idFor = (id: string): string => {
    const count = (times.get(id) ?? 0) + 1;
    times.set(id, count);
    return count === 1 ? id : `${id}-${count}`;
  };
  log.days.forEach((value, place) => {
    const read = logDaySchema.safeParse(value);
    if (!read.success) {
      const why = read.error.issues.slice(0, 3).map((one) => `${one.path.join(' ') || 'it'}: ${one.message}`);
      unread.push(`day ${place + 1} (${dateOf(value)}): ${why.join('; ')}`);
      return;
    }
    const day = read.data;
    for (const { kind, content } of contentsOfDay(day))
      entries.push({
        entry: 1,
        id: idFor(`older-${day.date}-${kind}`),
        day: day.date,
        kind,
        // When it was said is not known; anything said later holds.
        at: `${day.date}T00:00:00.000Z`,
        by: BY,
        ...(log.cell === undefined ? {} : { cell: log.cell }),
        content,
      });
  });
  return { kind: 'older log', entries, unread };
}

function documentOf(text: string): { cell: string | undefined; days: unknown[] } | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const { format, cell, days } = value as Record<string, unknown>;
  if (format !== 1 || !Array.isArray(days)) return null;
  return { cell: typeof cell === 'string' ? cell.slice(0, 200) : undefined, days: days as unknown[] };
}

function dateOf(value: unknown): string {
  const date = typeof value === 'object' && value !== null ? (value as { date?: unknown }).date : undefined;
  return typeof date === 'string' ? date.slice(0, 20) : 'without a date';
}

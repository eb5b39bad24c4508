/** One entry of the book: said of a day, once; a mistake is put right by a further entry. */
import { sameJson } from '../scenario/merge-patch.ts';
import { z } from '../zod.ts';
import { DAY_WORDS, isDay, millisecondsOf } from './calendar-day.ts';
import { CONTENT, type Content, type Kind } from './kinds.ts';

export const entrySchema = z.looseObject({
  /** The form of the entry. Another number is of a later version: told, never guessed at. */
  entry: z.literal(1),
  id: z.string().min(1).max(100),
  day: z.string().refine(isDay, `write ${DAY_WORDS}`),
  /** One of `Kind`, or one that a later version knows: handed on as it is. */
  kind: z.string().min(1).max(40),
  /** When it was made, by clock and zone. */
  at: z
    .string()
    .refine((text) => millisecondsOf(text) !== null, 'write clock and zone: 2027-03-05T06:10:00+01:00'),
  /** What made it: "clampwright 0.1.0". */
  by: z.string().max(200),
  /** The name of the cell. */
  cell: z.string().max(200).optional(),
  content: z.record(z.string(), z.unknown()),
});
export type Entry = z.infer<typeof entrySchema>;

export type EntryReading = { kind: 'fine'; entry: Entry } | { kind: 'wrong'; why: string };

/** A plain value as an entry, or in words why it is none. */
export function readEntry(value: unknown): EntryReading {
  const read = entrySchema.safeParse(value);
  if (!read.success) return { kind: 'wrong', why: whyNot(value, read.error.issues) };
  const entry = read.data;
  if (!isKind(entry.kind)) return { kind: 'fine', entry };
  const content = CONTENT[entry.kind].safeParse(entry.content);
  return content.success
    ? { kind: 'fine', entry }
    : { kind: 'wrong', why: whyNot(entry.content, content.error.issues) };
}

function whyNot(value: unknown, issues: readonly z.core.$ZodIssue[]): string {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'it is no entry of a book';
  const form = (value as Record<string, unknown>)['entry'];
  if (typeof form === 'number' && form > 1) return 'it was written by a later version of the program';
  return issues
    .slice(0, 3)
    .map((issue) => `${issue.path.map(String).join(' ') || 'the entry'}: ${issue.message}`)
    .join('; ');
}

const isKind = (kind: string): kind is Kind => Object.hasOwn(CONTENT, kind);

/** What an entry of this kind says; null for an entry of another kind. */
export function contentOf<K extends Kind>(entry: Entry, kind: K): Content<K> | null {
  return entry.kind === kind ? (entry.content as Content<K>) : null;
}

/** Oldest first: by instant, then by id (code units), so that any two books put entries in one order. */
export function byAge(a: Entry, b: Entry): number {
  const between = (millisecondsOf(a.at) ?? 0) - (millisecondsOf(b.at) ?? 0);
  return between !== 0 ? between : a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** All of them, oldest first. Each instant is read once: ten years are some twenty thousand entries. */
export const inAge = (entries: readonly Entry[]): Entry[] =>
  entries
    .map((entry) => ({ entry, at: millisecondsOf(entry.at) ?? 0 }))
    .sort((a, b) => a.at - b.at || byAge(a.entry, b.entry))
    .map(({ entry }) => entry);

export const sameEntry = (a: Entry, b: Entry): boolean => sameJson(a, b);

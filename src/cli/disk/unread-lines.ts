/**
 * Lines of a book that cannot be read stay in it, since it is only ever added to. Their copies go into a file
 * beside it, under a name of its own; what is in there has been said once and is not said again.
 */
import { readFile } from 'node:fs/promises';
import { readBook, type UnreadLine } from '../../book/book.ts';
import { lineOf, splitLines } from '../../book/lines.ts';
import { z } from '../../zod.ts';
import { codeOf } from './disk-trouble.ts';
import { replaceFile } from './replace-file.ts';

const asideSchema = z.object({ unreadLine: z.int(), why: z.string(), text: z.string() });
type Aside = z.infer<typeof asideSchema>;

/** "clampwright-log-unread.jsonl" */
export const asidePath = (book: string): string => book.replace(/(\.jsonl)?$/i, '-unread.jsonl');

/** Null where the file is somebody else's: then nothing is written over it. */
async function readAside(path: string): Promise<Aside[] | null> {
  try {
    const lines = (await readFile(path, 'utf8')).split('\n').filter((line) => line !== '');
    return lines.map((line) => asideSchema.parse(JSON.parse(line)));
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? [] : null;
  }
}

const keyOf = (line: number, text: string): string => `${line} ${text}`;

/** Those of a book's unread lines that were not set aside before. */
export async function newsOf(book: string, bytes: Uint8Array, unread: UnreadLine[]): Promise<UnreadLine[]> {
  if (unread.length === 0) return [];
  const known = new Set(
    ((await readAside(asidePath(book))) ?? []).map((one) => keyOf(one.unreadLine, one.text)),
  );
  const texts = textsOf(bytes);
  return unread.filter(({ line }) => !known.has(keyOf(line, texts.get(line) ?? '')));
}

/**
 * Copies of all lines that cannot be read, whole. Where that fails nothing is lost: they are in the book, and
 * will be said again.
 */
export async function setAside(book: string, bytes: Uint8Array): Promise<void> {
  const { unread } = readBook(bytes);
  const path = asidePath(book);
  if (unread.length === 0 || (await readAside(path)) === null) return;
  const texts = textsOf(bytes);
  const all = unread.map(({ line, why }): Aside => ({ unreadLine: line, why, text: texts.get(line) ?? '' }));
  await replaceFile(path, all.map(lineOf).join(''), { kind: 'unread', force: false }).catch(() => undefined);
}

/** Lines by number; bytes that are no UTF-8 as the signs of their numbers, each one. */
function textsOf(bytes: Uint8Array): Map<number, string> {
  const rows = Buffer.from(bytes).toString('latin1').split('\n');
  return new Map(splitLines(bytes).lines.map(({ number, text }) => [number, text ?? rows[number - 1]!]));
}

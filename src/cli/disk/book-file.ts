/**
 * The book on disk: JSON Lines, only ever added to, by one write under a lock, flushed. The lock keeps a
 * reader's look and the write behind it together; were it lost (a machine asleep for longer than a lock
 * lives), O_APPEND still puts each write whole at the end, and nothing is overwritten.
 */
import { open } from 'node:fs/promises';
import { dirname } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { lock } from 'proper-lockfile';
import { readBook, type BookReading, type UnreadLine } from '../../book/book.ts';
import type { Entry } from '../../book/entry.ts';
import { appendix } from '../../book/lines.ts';
import { readOlderLog } from '../../timing/older-log.ts';
import { decodeText } from '../../scenario/reading/decode-text.ts';
import { say } from '../print.ts';
import { COMMAND_WRONG, DISK_WRONG, Trouble } from '../trouble.ts';
import { codeOf, diskTrouble } from './disk-trouble.ts';
import { readBytes } from './read-file.ts';
import { flushFolder } from './replace-file.ts';
import { newsOf, setAside } from './unread-lines.ts';
import { writeAll } from './write-whole.ts';

const MOST = 512 * 1024 * 1024;
/** A lock that nobody has refreshed for so many ms belonged to a program that was killed. */
const STALE = 5_000;
/** So long is waited for others, ms. */
const PATIENCE = 120_000;
const LOCK = {
  realpath: false,
  stale: STALE,
  update: 1_000,
  // Only "locked" is worth another try, and the library tries again whatever the error.
  retries: 0,
  // The write in hand is whole whether the lock holds or not.
  onCompromised: () => undefined,
};

export interface BookFile {
  /** The file that entries go to. */
  path: string;
  reading: BookReading;
  /** Lines that could not be read and were not set aside before. */
  news: UnreadLine[];
  /** A log of the older form that is read with it and never written; null where there is none. */
  older: { path: string; entries: Entry[]; unread: string[] } | null;
  /** All entries: of the book, and of the older log those the book does not have yet. */
  entries: Entry[];
  /** The book's last byte; null where it is empty or not there. */
  last: number | null;
}

/**
 * The book at `path`, empty where there is none yet. A log of the older form is read into a book beside it.
 */
export async function readBookFile(path: string): Promise<BookFile> {
  const bytes = await bytesAt(path);
  const own = bytes === null ? null : olderLog(bytes);
  if (own !== null) {
    const book = besides(path);
    return bookFile(book, await bytesAt(book), { path, ...own });
  }
  const beside = path.replace(/\.jsonl$/i, '.json');
  const older = beside === path ? null : olderLog((await bytesAt(beside)) ?? new Uint8Array());
  return bookFile(path, bytes, older === null ? null : { path: beside, ...older });
}

const besides = (path: string): string => {
  const jsonl = path.replace(/(\.json)?$/i, '.jsonl');
  return jsonl === path ? `${path}.book.jsonl` : jsonl;
};

async function bookFile(path: string, bytes: Uint8Array | null, older: BookFile['older']): Promise<BookFile> {
  const reading = readBook(bytes ?? new Uint8Array());
  if (bytes !== null && !isBook(reading))
    throw new Trouble(
      COMMAND_WRONG,
      `${path} is there already and is no log. Name another file with --log; nothing was changed.`,
    );
  const ids = new Set(reading.entries.map((entry) => entry.id));
  const added = (older?.entries ?? []).filter((entry) => !ids.has(entry.id));
  return {
    path,
    reading,
    news: await newsOf(path, bytes ?? new Uint8Array(), reading.unread),
    older,
    entries: [...added, ...reading.entries],
    last: bytes?.at(-1) ?? null,
  };
}

/** Some entry is in it, or all there is could be the beginning of one, or what a crash leaves. */
function isBook({ entries, unread, tail }: BookReading): boolean {
  if (entries.length > 0) return true;
  const begins = (text: string): boolean =>
    '{"entry":'.startsWith(text.slice(0, 9)) || text.startsWith('{"entry":') || /^\0*$/.test(text);
  return unread.every((line) => begins(line.text)) && (tail === null || begins(tail));
}

function olderLog(bytes: Uint8Array): { entries: Entry[]; unread: string[] } | null {
  if (bytes.length > 100 * 1024 * 1024) return null;
  const decoded = decodeText(bytes);
  const read = decoded.kind === 'text' ? readOlderLog(decoded.text) : null;
  return read?.kind === 'older log' ? read : null;
}

async function bytesAt(path: string): Promise<Uint8Array | null> {
  try {
    return await readBytes(path, MOST, 'a log');
  } catch (error) {
    if (error instanceof Trouble && codeOf(error.cause) === 'ENOENT') return null;
    throw error;
  }
}

/**
 * Adds what `make` makes of the book as it stands at that moment. @returns the book with it.
 * @throws Trouble where the disk refuses or the book stays locked; then nothing was added.
 */
export async function addToBook(path: string, make: (book: BookFile) => Entry[]): Promise<BookFile> {
  const target = (await readBookFile(path)).path;
  try {
    const release = await locked(target);
    try {
      // Only now: another may have written in the meantime.
      const book = await readBookFile(path);
      const converted = book.entries.filter((entry) => !book.reading.entries.includes(entry));
      const made = make(book);
      await append(target, appendix([...converted, ...made], book.last)).catch(async (error: unknown) => {
        throw await partTrouble(error, target, made);
      });
      if (book.news.length > 0 || book.reading.tail !== null)
        await setAside(target, (await bytesAt(target)) ?? new Uint8Array());
      return { ...book, entries: [...book.entries, ...made] };
    } finally {
      await release().catch(() => undefined);
    }
  } catch (error) {
    throw diskTrouble(error, target, 'write');
  }
}

/** A disk that became full in the middle may have taken some of the entries: which, is said. */
async function partTrouble(error: unknown, path: string, made: readonly Entry[]): Promise<unknown> {
  const ids = new Set(readBook((await bytesAt(path)) ?? new Uint8Array()).entries.map((entry) => entry.id));
  const kept = made.filter((entry) => ids.has(entry.id));
  const trouble = diskTrouble(error, path, 'write');
  if (kept.length === 0 || !(trouble instanceof Trouble)) return trouble;
  const kinds = (list: readonly Entry[]): string => list.map((entry) => entry.kind).join(', ');
  const lost = made.filter((entry) => !ids.has(entry.id));
  return new Trouble(
    trouble.exitCode,
    `${trouble.message.replace(' Nothing was changed.', '')} Kept: ${kinds(kept)}; not kept: ${kinds(lost)}.`,
  );
}

async function locked(path: string): Promise<() => Promise<void>> {
  const from = Date.now();
  for (let told = false; Date.now() - from < PATIENCE;) {
    try {
      return await lock(path, LOCK);
    } catch (error) {
      if (codeOf(error) !== 'ELOCKED') throw error;
    }
    if (!told && Date.now() - from > 3_000) {
      say(`Another program is writing ${path}; waiting for it.`);
      told = true;
    }
    // At odd times, so that many who wait do not all come back at once.
    await pause(10 + 90 * Math.random());
  }
  throw new Trouble(
    DISK_WRONG,
    `${path} stayed in use by another program (${path}.lock). Nothing was changed; try again.`,
  );
}

/** One write at the end, flushed; a new file's name is flushed with its folder. */
async function append(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'a');
  try {
    // A part that a full disk took is left where it is: a tail that hides nothing, and that the next entry is
    // not glued to. Taking it away again could take another's entry with it.
    await writeAll(file, bytes);
    await file.sync();
  } finally {
    await file.close();
  }
  await flushFolder(dirname(path));
}

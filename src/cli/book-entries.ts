/** What commands add to the book of days. */
import { randomUUID } from 'node:crypto';
import { InvalidArgumentError, Option } from 'commander';
import { isDay } from '../book/calendar-day.ts';
import { nextEntries, type ToSay } from '../book/next-entry.ts';
import { VERSION } from '../report/version.ts';
import { addToBook, readBookFile, type BookFile } from './disk/book-file.ts';
import { asidePath } from './disk/unread-lines.ts';
import { say } from './print.ts';
import { leavePartial } from './surroundings.ts';

export const bookOption = (): Option =>
  new Option('--log <file>', 'the book of days').default('clampwright-log.jsonl');

/** Reads a day as it is typed. */
export function typedDay(text: string): string {
  if (isDay(text)) return text;
  throw new InvalidArgumentError('It takes a date as YYYY-MM-DD that the calendar has, such as 2027-03-05.');
}

/**
 * Adds what `make` says of the book as it stands at that moment.
 * @throws Trouble where the disk refuses; then nothing was added.
 */
export const sayInBook = (
  path: string,
  cell: string,
  make: (found: BookFile) => ToSay[],
): Promise<BookFile> =>
  addToBook(path, (found) => {
    const now = Date.now();
    return nextEntries(found.entries, make(found), {
      idOf: randomUUID,
      now,
      offset: -new Date(now).getTimezoneOffset(),
      by: `clampwright ${VERSION}`,
      cell,
    });
  });

/** For an answer from a book: what of it could not be read is said, and the answer is not the whole then. */
export async function bookToAnswerFrom(path: string): Promise<BookFile> {
  const book = await readBookFile(path);
  if (tellUnread(book).length > 0) leavePartial();
  return book;
}

/** Says what could not be read and was not said before; it stays where it is. @returns the sentences. */
export function tellUnread({ path, reading, older, news }: BookFile): string[] {
  const said = [
    ...news.map(({ line, why }) => `Line ${line} of ${path} was not read: ${why}.`),
    ...(reading.tail === null ? [] : [`The last line of ${path} was cut off and not read.`]),
    ...(older?.unread ?? []).map((one) => `${older!.path}: ${one}.`),
  ];
  said.slice(0, 10).forEach((sentence) => say(sentence));
  if (said.length > 10) say(`${said.length - 10} more lines were not read.`);
  if (said.length > 0) say('What was not read stays in the file; everything else was.');
  return said;
}

export function tellKept(book: BookFile): void {
  tellUnread(book);
  const from =
    book.older === null
      ? ''
      : ` The days of ${book.older.path}, in the older form, are in it; that file is left as it is.`;
  const aside =
    book.news.length === 0 && book.reading.tail === null
      ? ''
      : ` A copy of what could not be read is in ${asidePath(book.path)}; it is not said again.`;
  say(`Kept in ${book.path}.${from}${aside}`);
}

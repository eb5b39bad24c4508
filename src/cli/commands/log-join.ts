import { Argument, Command } from 'commander';
import { joinBooks } from '../../book/book.ts';
import type { Entry } from '../../book/entry.ts';
import { bookOption, tellUnread } from '../book-entries.ts';
import { addToBook, readBookFile, type BookFile } from '../disk/book-file.ts';
import { print, printJson } from '../print.ts';
import { jsonOption } from '../settings.ts';
import { leavePartial } from '../surroundings.ts';
import { commandWrong, SCENARIO_WRONG, Trouble } from '../trouble.ts';
import { VERSION } from '../../report/version.ts';

interface Words {
  log: string;
  json?: boolean;
}

/** Two tablets' logs of one cell, or a log that was saved in the page, become one. */
export function joinCommand(): Command {
  return new Command('join')
    .description('what other logs have and this one has not comes in; the others stay as they are')
    .addArgument(new Argument('<others...>', 'the other logs'))
    .addOption(bookOption())
    .addOption(jsonOption())
    .action(join);
}

async function join(paths: string[], words: Words): Promise<void> {
  const others = await Promise.all(paths.map(otherLog));
  let [added, there] = [0, 0];
  const book = await addToBook(words.log, (own): Entry[] => {
    const fresh = newcomers(own, others);
    added = fresh.length;
    there = new Set(others.flatMap(({ entries }) => entries.map(({ id }) => id))).size - added;
    return fresh;
  });
  const unread = [book, ...others].flatMap((one) => tellUnread(one));
  if (words.json === true)
    printJson({ command: 'log join', version: VERSION, log: book.path, added, already: there, unread });
  else
    print(
      `${added === 0 ? 'Nothing new' : `${added} new ${added === 1 ? 'entry' : 'entries'}`}; ${there} were here already. Kept in ${book.path}.\n`,
    );
  if (unread.length > 0) leavePartial();
}

async function otherLog(path: string): Promise<BookFile> {
  const book = await readBookFile(path);
  if (book.last === null && book.older === null)
    throw commandWrong(`There is no log ${path}. Check the name.`);
  return book;
}

function newcomers(own: BookFile, others: readonly BookFile[]): Entry[] {
  const joined = joinBooks(own.entries, ...others.map(({ entries }) => entries));
  if (joined.kind === 'refused')
    throw new Trouble(
      SCENARIO_WRONG,
      `These logs cannot be joined: ${joined.ids.length} of their entries ${joined.ids.length === 1 ? 'has' : 'have'} the same id and say different things, so that either may be the true one. Nothing was changed.`,
      joined.ids.slice(0, 10).map((id) => {
        const two = [own, ...others].flatMap(({ entries }) => entries.filter((one) => one.id === id));
        return `${id}: ${two.map(({ day, kind, content }) => `${kind} of ${day} ${JSON.stringify(content).slice(0, 120)}`).join('; against ')}`;
      }),
    );
  const ids = new Set(own.entries.map(({ id }) => id));
  return joined.entries.filter(({ id }) => !ids.has(id));
}

/**
 * A process that writes on and on until it is killed: every kind of file in the place of itself, and entries
 * into a book, all at once, by the functions the commands write with. Each entry is told once it is kept.
 */
import { writeSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { addToBook } from '../../src/cli/disk/book-file.ts';
import { writeAll } from '../../src/cli/disk/write-whole.ts';
import { replaceFileBy } from '../../src/cli/disk/replace-file.ts';
import type { Writer } from './writers.ts';

/** Tells on standard output; unlike a stream this is out before the next line runs. */
const tell = (line: string): unknown => writeSync(1, `${line}\n`);

async function replaceOn(folder: string, { file, kind }: Pick<Writer, 'file' | 'kind'>): Promise<void> {
  const contents = await Promise.all([0, 1].map((turn) => readFile(join(folder, `${turn}-${file}`))));
  for (let turn = 0; ; turn++)
    await replaceFileBy(join(folder, file), (to) => writeAll(to, contents[turn % 2]!), {
      kind,
      force: false,
    });
}

async function addOn(book: string, from: number): Promise<void> {
  for (let turn = from; ; turn++) {
    const id = `turn-${turn}`;
    const content = { good: turn % 100 };
    const by = 'tests';
    await addToBook(book, () => [
      { entry: 1, id, day: '2027-03-05', kind: 'result', at: '2027-03-05T15:00:00Z', by, content },
    ]);
    tell(id);
  }
}

export async function writeOn(
  folder: string,
  book: string,
  from: number,
  writers: readonly Pick<Writer, 'file' | 'kind'>[],
): Promise<void> {
  tell('begun');
  await Promise.all([addOn(book, from), ...writers.map((writer) => replaceOn(folder, writer))]);
}

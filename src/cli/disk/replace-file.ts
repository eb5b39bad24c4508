/**
 * Writing a whole file: whatever happens, there is the old content or the new. rename(2) lets every process
 * see one or the other (POSIX); that it is also so after a loss of power takes a flush of the new file before
 * and of the folder after it (Linux fsync(2): the file's own flush does not bring its entry in the folder to
 * the disk).
 */
import { access, open, stat, type FileHandle } from 'node:fs/promises';
import { dirname } from 'node:path';
import { commandWrong } from '../trouble.ts';
import { codeOf, diskTrouble } from './disk-trouble.ts';
import { isOurs, WHAT, type FileKind } from './ours.ts';
import { readBytes } from './read-file.ts';
import { isShard } from './shard-file.ts';
import { writeAll, writeWholeBy } from './write-whole.ts';

export interface Replacing {
  kind: FileKind;
  /** Overwrite whatever stands there. */
  force: boolean;
}

/** @throws Trouble where the disk refuses, or a file of somebody else's would be lost. */
export const replaceFile = (path: string, content: string, how: Replacing): Promise<void> =>
  replaceFileBy(path, (file) => writeAll(file, new TextEncoder().encode(content)), how);

/** The same for a content that is written bit by bit. */
export async function replaceFileBy(
  path: string,
  write: (file: FileHandle) => Promise<void>,
  how: Replacing,
): Promise<void> {
  try {
    const found = await foundAt(path);
    if (found === 'no file') {
      // A device or a pipe, such as /dev/stdout: there is nothing to keep and nothing to rename.
      const file = await open(path, 'w');
      try {
        await write(file);
      } finally {
        await file.close();
      }
      return;
    }
    if (found === 'content' && !how.force) await spareOthers(path, how.kind);
    await writeWholeBy(path, write);
    await flushFolder(dirname(path));
  } catch (error) {
    throw diskTrouble(error, path, 'write');
  }
}

/** Asked before long work is begun whose result is to be written: throws as `replaceFile` would. */
export async function mayReplace(path: string | undefined, how: Replacing): Promise<void> {
  if (path === undefined) return;
  try {
    if ((await foundAt(path)) === 'content' && !how.force) await spareOthers(path, how.kind);
    await access(dirname(path));
  } catch (error) {
    throw diskTrouble(error, path, 'write');
  }
}

async function foundAt(path: string): Promise<'nothing' | 'content' | 'no file'> {
  try {
    const found = await stat(path);
    if (found.isFile()) return found.size === 0 ? 'nothing' : 'content';
    if (found.isDirectory()) throw commandWrong(`${path} is a folder. Name a file in it.`);
    return 'no file';
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return 'nothing';
    throw error;
  }
}

const MOST = 256 * 1024 * 1024;

async function spareOthers(path: string, kind: FileKind): Promise<void> {
  const ours =
    kind === 'rows'
      ? await isShard(path)
      : isOurs(kind, new TextDecoder().decode(await readBytes(path, MOST, WHAT[kind])));
  if (!ours)
    throw commandWrong(
      `${path} is there already and is not ${WHAT[kind]}. Name another file, or say --force to overwrite it.`,
    );
}

/** Brings a new name in a folder to the disk, where the system lets folders be flushed. */
export async function flushFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (!['EISDIR', 'EPERM', 'EACCES', 'EINVAL', 'ENOTSUP'].includes(codeOf(error))) throw error;
  }
}

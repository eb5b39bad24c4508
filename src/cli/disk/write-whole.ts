/**
 * A whole content in the place of another. The libraries for this call write(2) once and do not look how much
 * of it was taken: a disk that becomes full in the middle takes a part, and the part would take the place of
 * what stood there.
 */
import { randomBytes } from 'node:crypto';
import { open, realpath, rename, rm, stat, type FileHandle } from 'node:fs/promises';
import { codeOf } from './disk-trouble.ts';

/** Leaves the old content, or puts what `write` writes; where it throws, the old one stands as it stood. */
export async function writeWholeBy(path: string, write: (file: FileHandle) => Promise<void>): Promise<void> {
  // By way of a link, what it leads to is replaced and not the link.
  const target = await realpath(path).catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') return path;
    throw error;
  });
  const beside = `${target}.${randomBytes(6).toString('hex')}.new`;
  try {
    const old = await stat(target).catch(() => null);
    const file = await open(beside, 'wx');
    try {
      if (old !== null) await file.chmod(old.mode & 0o777);
      // Some systems let nobody but the machine's owner give a file away: then it is the writer's.
      if (old !== null) await file.chown(old.uid, old.gid).catch(() => undefined);
      await write(file);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
}

/** Until all of it is taken: a disk that becomes full takes a part first, and refuses only then. */
export async function writeAll(file: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let done = 0; done < bytes.length;) {
    const { bytesWritten } = await file.write(bytes, done, bytes.length - done, null);
    done += bytesWritten;
  }
}

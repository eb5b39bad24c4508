/** What a disk refuses, in words. */
import { dirname } from 'node:path';
import { COMMAND_WRONG, DISK_WRONG, Trouble } from '../trouble.ts';

export const codeOf = (error: unknown): string =>
  error instanceof Error ? ((error as NodeJS.ErrnoException).code ?? '') : '';

/** Whether an error is the disk's: it has the code of a system call. */
export const isOfDisk = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && 'syscall' in error && codeOf(error) !== '';

type Words = (path: string) => string;
const OF_BOTH: Record<string, Words> = {
  EISDIR: (path) => `${path} is a folder. Name a file in it.`,
  ENOTDIR: (path) => `${dirname(path)} is no folder. Check the name.`,
  ENAMETOOLONG: () => 'The name of the file is longer than the disk allows. Choose a shorter one.',
  ELOOP: (path) => `${path} leads in a circle of links. Name the file itself.`,
  EIO: (path) => `The disk could not carry it out (${path}). Check the disk, or take another.`,
  ENXIO: (path) => `${path} is nothing that can be read or written now.`,
  EMFILE: () => 'Too many files are open. Close other programs and try again.',
  ENFILE: () => 'Too many files are open. Close other programs and try again.',
  EBUSY: (path) => `${path} is in use by another program. Close it there and try again.`,
};
const OF_READING: Record<string, Words> = {
  ENOENT: (path) => `There is no file ${path}. Check the name.`,
  EACCES: (path) => `${path} may not be read. Ask its owner for leave to read it.`,
};
const OF_WRITING: Record<string, Words> = {
  ENOENT: (path) => `There is no folder ${dirname(path)}. Make it first, or name another.`,
  EACCES: (path) => `${path} may not be written by you. Name a file in a folder of yours.`,
  EROFS: (path) => `${path} is on a disk that can only be read. Name a file on another.`,
  ENOSPC: (path) => `The disk is full: there is no room for ${path}. Make room and try again.`,
  EDQUOT: (path) => `Your share of the disk is full: there is no room for ${path}. Make room and try again.`,
  EFBIG: (path) => `${path} would be larger than the disk allows.`,
};
/** The name was typed wrong, rather than the disk at fault. */
const OF_NAMES = ['ENOENT', 'EISDIR', 'ENOTDIR', 'ENAMETOOLONG', 'ELOOP'];

/** An error of the disk as what the user reads; any other error stays what it is. */
export function diskTrouble(error: unknown, path: string, doing: 'read' | 'write'): unknown {
  if (!isOfDisk(error)) return error;
  const code = codeOf(error) === 'EPERM' ? 'EACCES' : codeOf(error);
  const words = { ...OF_BOTH, ...(doing === 'read' ? OF_READING : OF_WRITING) }[code];
  const sentence = words?.(path) ?? `${path} cannot be ${doing === 'read' ? 'read' : 'written'} (${code}).`;
  const kept = doing === 'write' ? ' Nothing was changed.' : '';
  const trouble = new Trouble(OF_NAMES.includes(code) ? COMMAND_WRONG : DISK_WRONG, `${sentence}${kept}`);
  trouble.cause = error;
  return trouble;
}

/** Files as they come: of any kind and size, in any writing, ended in words where they cannot be read. */
import { constants } from 'node:fs';
import { open, type FileHandle } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { decodeText } from '../../scenario/reading/decode-text.ts';
import { say } from '../print.ts';
import { commandWrong, DISK_WRONG, Trouble } from '../trouble.ts';
import { codeOf, diskTrouble } from './disk-trouble.ts';

const MB = 1024 * 1024;
/** A pipe that nothing comes through is given up after so many ms. */
const PATIENCE = 10_000;

/** Text of a file of at most `most` bytes. `what` names it: "a scenario has at most 40 MB". */
export async function readText(path: string, most: number, what: string): Promise<string> {
  const decoded = decodeText(await readBytes(path, most, what));
  const name = path === STANDARD_INPUT ? 'Standard input' : path;
  if (decoded.kind === 'no text') throw commandWrong(`${name} is no text: ${decoded.why}`);
  if (decoded.note !== null) say(`${name} ${decoded.note}`);
  return decoded.text;
}

/** In place of a file: what is written into the command. */
export const STANDARD_INPUT = '-';

async function bytesOfInput(most: number, what: string): Promise<Uint8Array> {
  if (process.stdin.isTTY) say('Reading what is typed here; Ctrl-D (on Windows Ctrl-Z and return) ends it.');
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of process.stdin as AsyncIterable<Buffer>) {
    length += part.length;
    if (length > most)
      throw commandWrong(`Standard input has more than ${most / MB} MB; ${what} has at most ${most / MB}.`);
    parts.push(part);
  }
  if (length === 0) throw commandWrong('Nothing came through standard input.');
  return Buffer.concat(parts);
}

/** @throws Trouble in words: not there, no leave, a folder, too large, a pipe that stays empty. */
export async function readBytes(path: string, most: number, what: string): Promise<Uint8Array> {
  if (path === STANDARD_INPUT) return bytesOfInput(most, what);
  try {
    // Opening a pipe would wait for somebody to write into it, without end.
    const file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    try {
      return await bytesOf(file, path, most, what);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw diskTrouble(error, path, 'read');
  }
}

async function bytesOf(file: FileHandle, path: string, most: number, what: string): Promise<Uint8Array> {
  const found = await file.stat();
  const tooLarge = (size: string): Trouble =>
    commandWrong(`${path} has ${size} MB; ${what} has at most ${most / MB} MB. Is it the right file?`);
  if (found.isDirectory()) throw commandWrong(`${path} is a folder. Name a file in it.`);
  if (found.isFile() && found.size > most) throw tooLarge(String(Math.round(found.size / MB)));
  const parts: Buffer[] = [];
  let length = 0;
  for (const until = Date.now() + PATIENCE; ;) {
    const part = Buffer.alloc(Math.min(MB, most + 1 - length));
    const count = await countRead(file, part);
    if (count > 0) {
      parts.push(part.subarray(0, count));
      length += count;
      if (length > most) throw tooLarge(`more than ${most / MB}`);
      continue;
    }
    // Nothing yet: nobody writes into the pipe so far, or there is an end to what was written.
    if (count === 0 && (length > 0 || found.isFile())) return Buffer.concat(parts);
    if (Date.now() > until)
      throw new Trouble(DISK_WRONG, `Nothing came through ${path} in ${PATIENCE / 1000} seconds.`);
    await pause(20);
  }
}

/** Bytes read; 0 at the end, -1 where a pipe has nothing at the moment. */
async function countRead(file: FileHandle, into: Buffer): Promise<number> {
  try {
    return (await file.read(into, 0, into.length, null)).bytesRead;
  } catch (error) {
    if (codeOf(error) === 'EAGAIN') return -1;
    throw error;
  }
}

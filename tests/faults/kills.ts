/** kill -9 at random moments: what stands in the file afterwards is the old or the new, never less. */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBook } from '../../src/book/book.ts';
import { type ADDING, addition, dayOf, daysIn, type Writer } from './writers.ts';

export interface Killed {
  kills: number;
  /** Ended before the signal came. */
  ended: number;
  /** The file was of neither content, or what had been said to be kept was gone. */
  lost: number;
  /** Killed, but the new content was whole already. */
  renewed: number;
}

export interface Setting {
  program: string;
  root: string;
  folder: string;
  /** Uniform numbers from 0 to 1. */
  random: () => number;
}

/** Runs the command and kills it after so many ms, or waits for its end. */
function runFor(
  words: string[],
  { program, root }: Setting,
  milliseconds: number,
): Promise<{ code: number | null; err: string }> {
  const child = spawn(process.execPath, [program, ...words], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const timer = Number.isFinite(milliseconds) ? setTimeout(() => child.kill('SIGKILL'), milliseconds) : null;
  let err = '';
  child.stderr.on('data', (data: Buffer) => (err += data.toString()));
  return new Promise((resolve) =>
    child.on('close', (code) => {
      if (timer !== null) clearTimeout(timer);
      resolve({ code, err });
    }),
  );
}

/** How long the command takes by itself, ms: kills are spread over the second half of it, where it writes. */
async function lengthOf(words: string[], setting: Setting): Promise<number> {
  const from = performance.now();
  const { code, err } = await runFor(words, setting, Infinity);
  if (code !== 0) throw new Error(`${words.join(' ')} ended with ${code}: ${err}`);
  return performance.now() - from;
}

const momentOf = (length: number, random: () => number): number => length * (0.4 + 0.7 * random());

export async function killReplacing(writer: Writer, kills: number, setting: Setting): Promise<Killed> {
  const path = join(setting.folder, writer.file);
  const length = await lengthOf(writer.words(path, 0), setting);
  const result: Killed = { kills, ended: 0, lost: 0, renewed: 0 };
  for (let turn = 1; turn <= kills; turn++) {
    const before = readFileSync(path);
    const { code } = await runFor(writer.words(path, turn), setting, momentOf(length, setting.random));
    const after = existsSync(path) ? readFileSync(path) : Buffer.alloc(0);
    if (!writer.whole(after)) {
      result.lost++;
      writeFileSync(path, before);
    }
    if (code !== null) result.ended++;
    else if (!after.equals(before)) result.renewed++;
  }
  return result;
}

/** After every kill each day that was said to be kept must be there; what was killed may be there or not. */
export async function killAdding(
  kills: number,
  setting: Setting,
  { name, kind, words }: (typeof ADDING)[number] = { name: 'log-add', kind: 'result', words: addition },
): Promise<Killed & { tails: number }> {
  const path = join(setting.folder, `killed-${name.replaceAll(/\W+/g, '-')}.jsonl`);
  const length = await lengthOf(words(path, 0), setting);
  const kept = new Set([dayOf(0)]);
  const result = { kills, ended: 0, lost: 0, renewed: 0, tails: 0 };
  for (let turn = 1; turn <= kills; turn++) {
    // What a killed program held is free again after a while; a test need not wait for that.
    rmSync(`${path}.lock`, { recursive: true, force: true });
    const { code, err } = await runFor(words(path, turn), setting, momentOf(length, setting.random));
    const { days, unread, tail } = daysIn(path, kind);
    for (const day of kept) if (!days.has(day)) result.lost++;
    result.tails += Number(tail || unread > 0);
    if (code !== null) result.ended++;
    else if (days.has(dayOf(turn))) result.renewed++;
    if (err.includes('Kept in') || days.has(dayOf(turn))) kept.add(dayOf(turn));
  }
  return result;
}

export interface KilledOn {
  kills: number;
  /** Times a file was of neither content; entries told to be kept that were gone. */
  lost: number;
  /** Files found half written beside the whole one: kills that fell into the middle of a write. */
  halves: number;
  /** Times a file's content was another than after the kill before. */
  renewed: number;
  /** Entries told to be kept; kills that left a line of the book cut off. */
  kept: number;
  tails: number;
}

/** A book is as long as this before another is begun: reading it again costs the more the longer it is. */
const ENTRIES = 400;

/**
 * Kills a process that does nothing but write: `module` has `writeOn`, and two contents of each writer's file
 * stand in the folder as "0-name" and "1-name".
 */
export async function killWriting(
  kills: number,
  writers: readonly Writer[],
  module: string,
  { folder, random }: Omit<Setting, 'program' | 'root'>,
): Promise<KilledOn> {
  const result: KilledOn = { kills, lost: 0, halves: 0, renewed: 0, kept: 0, tails: 0 };
  const told = writers.map(({ file, kind }) => ({ file, kind }));
  const contents = writers.map(({ file }) => [0, 1].map((n) => readFileSync(join(folder, `${n}-${file}`))));
  const stand = writers.map(({ file }, i) => {
    writeFileSync(join(folder, file), contents[i]![0]!);
    return 0;
  });
  let [book, kept, next] = ['', new Set<string>(), 0];
  for (let turn = 0; turn < kills; turn++) {
    if (book === '' || kept.size > ENTRIES)
      [book, kept] = [join(folder, `written-on-${turn}.jsonl`), new Set()];
    const call = `(await import(${JSON.stringify(module)})).writeOn(${[folder, book, next, told].map((one) => JSON.stringify(one)).join(', ')})`;
    const said = await killedAfter(call, Math.floor(4 * random()), 30 * random());
    rmSync(`${book}.lock`, { recursive: true, force: true });
    for (const id of said) kept.add(id);
    result.kept += said.length;
    next += said.length + 1;
    const { entries, tail, unread } = existsSync(book)
      ? readBook(readFileSync(book))
      : { entries: [], tail: null, unread: [] };
    const ids = new Set(entries.map(({ id }) => id));
    result.lost += [...kept].filter((id) => !ids.has(id)).length;
    result.tails += Number(tail !== null || unread.length > 0);
    for (const [i, { file }] of writers.entries()) {
      const found = existsSync(join(folder, file)) ? readFileSync(join(folder, file)) : Buffer.alloc(0);
      const which = contents[i]!.findIndex((content) => content.equals(found));
      if (which < 0) result.lost++;
      if (which !== stand[i]) result.renewed++;
      stand[i] = which;
    }
    for (const name of readdirSync(folder).filter((one) => one.endsWith('.new'))) {
      result.halves++;
      rmSync(join(folder, name));
    }
  }
  return result;
}

/**
 * The entries that were told to be kept until the kill: so many after the writing began (a clock alone
 * would find nothing written on a busy machine), and so many ms.
 */
function killedAfter(call: string, entries: number, milliseconds: number): Promise<string[]> {
  const child = spawn(process.execPath, ['--input-type=module', '-e', call], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let out = '';
  child.stdout.on('data', (data: Buffer) => {
    const before = out.split('\n').length;
    out += data.toString();
    if (before <= entries + 1 && out.split('\n').length > entries + 1)
      setTimeout(() => child.kill('SIGKILL'), milliseconds);
  });
  return new Promise((resolve, reject) =>
    child.on('close', (code) => {
      const lines = out.split('\n').slice(1, -1);
      // It ends by nothing but the kill.
      if (code === null) resolve(lines);
      else reject(new Error(`the writing ended by itself, with ${code}`));
    }),
  );
}

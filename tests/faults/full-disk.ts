/** No room: what was kept stays readable, what could not be kept is said, and the disk is named for it. */
import { execFileSync, spawn } from 'node:child_process';
import { appendFileSync, copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type ADDING, addition, dayOf, daysIn, type Writer } from './writers.ts';

export interface NoRoom {
  kind: 'tried';
  /** Writes asked for, and how many of them found no room. */
  tried: number;
  refused: number;
  /** Said to be kept and not in the log. */
  lost: number;
  /** A file to be replaced was neither the old nor the new. */
  spoiled: number;
  /** Ended otherwise than with the disk's own code, or called it a fault of the program; what was typed. */
  wrong: string[];
}
/** No small disk can be had here: only the machine's owner may mount one. */
export type Full = NoRoom | { kind: 'not possible'; why: string };

/** Those that are tried beside `log add`. */
export interface Writers {
  adding: typeof ADDING;
  replacing: readonly Writer[];
}

type Ended = { code: number | null; err: string };
/** The program's function called with these words. */
type Run = (words: string[]) => Promise<Ended>;
interface Place {
  root: string;
  folder: string;
  /** Address of the built program as a function. */
  program: string;
}

/** A disk of 1 MB that becomes full. */
export async function fillDisk({ root, folder, program }: Place, writers: Writers): Promise<Full> {
  const disk = join(folder, 'small-disk');
  mkdirSync(disk);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', disk], { stdio: 'pipe' });
  } catch {
    return { kind: 'not possible', why: 'only the owner of a machine may mount a small disk' };
  }
  try {
    return await withCalls([process.execPath], root, program, (run) =>
      withoutRoom(disk, run, () => fillUp(disk), folder, writers),
    );
  } finally {
    execFileSync('umount', [disk]);
    rmSync(disk, { recursive: true, force: true });
  }
}

/** No file may become larger than 1 KB: what `ulimit -f` does, for which nobody has to own the machine. */
export async function limitFiles({ root, folder, program }: Place, writers: Writers): Promise<Full> {
  if (process.platform === 'win32') return { kind: 'not possible', why: 'Windows has no limit of files' };
  const place = join(folder, 'small-files');
  mkdirSync(place);
  const limited = ['bash', '-c', 'ulimit -f 1; exec "$@"', 'bash', process.execPath];
  return withCalls(limited, root, program, (run) =>
    withoutRoom(place, run, () => undefined, folder, writers),
  );
}

/** One process for all of it: a start each would cost more than the rest. */
async function withCalls<T>(
  [command, ...words]: string[],
  root: string,
  program: string,
  use: (run: Run) => Promise<T>,
): Promise<T> {
  const inside = join(root, 'tests/faults/limited.mjs');
  const child = spawn(command!, [...words, inside, program], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  const answer = (): Promise<unknown> =>
    new Promise((resolve) => {
      const gone = (): void => resolve({ code: null, err: 'the process ended' });
      child.once('exit', gone);
      child.once('message', (message) => {
        child.off('exit', gone);
        resolve(message);
      });
    });
  try {
    await answer();
    return await use((asked) => {
      child.send(asked);
      return answer() as Promise<Ended>;
    });
  } finally {
    child.kill();
  }
}

/** Adds to a log and replaces files while room runs out; what stands there before is "0-name" in `folder`. */
async function withoutRoom(
  place: string,
  run: Run,
  fill: () => void,
  folder: string,
  { adding, replacing }: Writers,
): Promise<NoRoom> {
  const result: NoRoom = { kind: 'tried', tried: 0, refused: 0, lost: 0, spoiled: 0, wrong: [] };
  const log = join(place, 'log.jsonl');
  const kept: string[] = [];
  const asked = async (words: string[]): Promise<string> => {
    const { code, err } = await run(words);
    result.tried++;
    if (code === 4) result.refused++;
    if ((code !== 0 && code !== 4) || err.includes('fault of the program'))
      result.wrong.push(`${code}: ${words.join(' ')}`);
    return err;
  };
  for (let turn = 0; turn < 6; turn++) {
    if ((await asked(addition(log, turn))).includes('Kept in')) kept.push(dayOf(turn));
    if (turn === 1) fill();
  }
  const { days } = daysIn(log);
  result.lost = kept.filter((day) => !days.has(day)).length;
  for (const writer of adding) {
    fill();
    const before = readFileSync(log);
    await asked(writer.words(log, 3));
    if (!readFileSync(log).subarray(0, before.length).equals(before)) result.spoiled++;
  }
  for (const writer of replacing) {
    rmSync(join(place, 'filler'), { force: true });
    const path = join(place, writer.file);
    copyFileSync(join(folder, `0-${writer.file}`), path);
    fill();
    await asked(writer.words(path, 1));
    const after = readFileSync(path);
    if (!after.equals(readFileSync(join(folder, `0-${writer.file}`))) && !writer.whole(after))
      result.spoiled++;
    for (const name of readdirSync(place).filter((one) => one.endsWith('.new'))) {
      result.spoiled++;
      rmSync(join(place, name));
    }
    rmSync(path);
  }
  return result;
}

/** Takes what room is left but a few hundred bytes. */
function fillUp(disk: string): void {
  const filler = join(disk, 'filler');
  for (const size of [4096, 512, 64])
    for (let i = 0; i < 300; i++) {
      try {
        appendFileSync(filler, Buffer.alloc(size));
      } catch {
        break;
      }
    }
}

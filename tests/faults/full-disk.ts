/** No room: what was kept stays readable, what could not be kept is said, and the disk is named for it. */
import { execFileSync, spawnSync } from 'node:child_process';
import { appendFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { EVENT_COLUMNS } from '../../src/timing/events-csv.ts';
import type { Setting } from './kills.ts';
import { addition, dayOf, daysIn, REPLACING } from './writers.ts';

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

type Run = (words: string[]) => { code: number | null; err: string };

/** A disk of 64 KB that becomes full. */
export function fillDisk({ program, root, folder }: Omit<Setting, 'random'>): Full {
  const disk = join(folder, 'small-disk');
  mkdirSync(disk);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk], { stdio: 'pipe' });
  } catch {
    return { kind: 'not possible', why: 'only the owner of a machine may mount a small disk' };
  }
  try {
    const run: Run = (words) => {
      const { status, stderr } = spawnSync(process.execPath, [program, ...words], {
        cwd: root,
        encoding: 'utf8',
      });
      return { code: status, err: stderr };
    };
    return withoutRoom(disk, run, () => fillUp(disk));
  } finally {
    execFileSync('umount', [disk]);
    rmSync(disk, { recursive: true, force: true });
  }
}

/** No file may become larger than 1 KB: what `ulimit -f` does, for which nobody has to own the machine. */
export function limitFiles({ program, root, folder }: Omit<Setting, 'random'>): Full {
  if (process.platform === 'win32') return { kind: 'not possible', why: 'Windows has no limit of files' };
  const place = join(folder, 'small-files');
  mkdirSync(place);
  const run: Run = (words) => {
    const { status, stderr } = spawnSync(
      'bash',
      ['-c', 'ulimit -f 1; exec "$@"', 'bash', process.execPath, program, ...words],
      { cwd: root, encoding: 'utf8' },
    );
    return { code: status, err: stderr };
  };
  return withoutRoom(place, run, () => undefined);
}

/** Adds to a log and replaces files while room runs out. */
function withoutRoom(place: string, run: Run, fill: () => void): NoRoom {
  const result: NoRoom = { kind: 'tried', tried: 0, refused: 0, lost: 0, spoiled: 0, wrong: [] };
  const log = join(place, 'log.jsonl');
  const kept: string[] = [];
  const asked = (words: string[]): string => {
    const { code, err } = run(words);
    result.tried++;
    if (code === 4) result.refused++;
    if ((code !== 0 && code !== 4) || err.includes('fault of the program'))
      result.wrong.push(`${code}: ${words.join(' ')}`);
    return err;
  };
  for (let turn = 0; turn < 6; turn++) {
    if (asked(addition(log, turn)).includes('Kept in')) kept.push(dayOf(turn));
    if (turn === 1) fill();
  }
  const { days } = daysIn(log);
  result.lost = kept.filter((day) => !days.has(day)).length;
  for (const writer of REPLACING.slice(0, 3)) {
    rmSync(join(place, 'filler'), { force: true });
    const path = join(place, writer.file);
    // What stands there is whole, and small enough for the disk.
    const before =
      writer.file === 'events.csv'
        ? `${EVENT_COLUMNS.join(',')}\r\n`
        : readFileSync('scenarios/one-step.json', 'utf8');
    writeFileSync(path, before);
    fill();
    asked(writer.words(path, 1));
    const after = readFileSync(path, 'utf8');
    if (after !== before && !writer.whole(after)) result.spoiled++;
  }
  return result;
}

/** Takes what room is left but a few hundred bytes. */
function fillUp(disk: string): void {
  const filler = join(disk, 'filler');
  for (const size of [4096, 512, 64])
    for (let i = 0; i < 200; i++) {
      try {
        appendFileSync(filler, Buffer.alloc(size));
      } catch {
        break;
      }
    }
}

/** Many at once: each one that says "Kept" is in the log, whole. */
import { spawn } from 'node:child_process';
import { addition, dayOf, daysIn } from './writers.ts';
import type { Setting } from './kills.ts';

export interface Parallel {
  writers: number;
  saidKept: number;
  inLog: number;
  /** Said to be kept and not there. */
  lost: number;
  unread: number;
}

export async function writeAtOnce(
  writers: number,
  { program, root, folder }: Omit<Setting, 'random'>,
): Promise<Parallel> {
  const path = `${folder}/parallel.jsonl`;
  const kept = await Promise.all(
    Array.from({ length: writers }, (_, turn) => {
      const child = spawn(process.execPath, [program, ...addition(path, turn)], {
        cwd: root,
        stdio: ['ignore', 'ignore', 'pipe'],
      });
      let err = '';
      child.stderr.on('data', (data: Buffer) => (err += data.toString()));
      return new Promise<boolean>((resolve) => child.on('close', () => resolve(err.includes('Kept in'))));
    }),
  );
  const { days, unread, tail } = daysIn(path);
  return {
    writers,
    saidKept: kept.filter(Boolean).length,
    inLog: days.size,
    lost: kept.filter((said, turn) => said && !days.has(dayOf(turn))).length,
    unread: unread + Number(tail),
  };
}

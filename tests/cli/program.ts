/** The built program: called, and run as a user runs it. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import stringWidth from 'string-width';
import { calledFrom, type Ended } from './called.ts';

export type { Ended };

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const PROGRAM = fileURLToPath(new URL('../../dist/cli/clampwright.js', import.meta.url));
export const scenarioFile = (name: string): string =>
  fileURLToPath(new URL(`../../scenarios/${name}.json`, import.meta.url));

if (!existsSync(PROGRAM)) throw new Error('the command line is not built: npm run build');

/** In a process of its own: what threads, signals, pipes and ends of a process do to it. */
export function spawned(words: string[]): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 256 * 1024 * 1024,
  });
  return { code: status, out: stdout, err: stderr };
}

/**
 * Called as the function that a process of it calls, with the same words, in a thread that is kept: most of
 * what a process of its own costs is its start.
 */
export function clampwright(words: string[]): Ended {
  called ??= calledFrom(new URL('program.js', pathToFileURL(PROGRAM)));
  return called(words);
}

let called: ((words: string[]) => Ended) | null = null;

/** Starts it, and presses Ctrl-C after a while; later the next time, if it had not got under way by then. */
export async function stoppedUnderWay(words: string[], underWay: (ended: Ended) => boolean): Promise<Ended> {
  for (const wait of [1500, 4000]) {
    const ended = await stoppedAfter(words, wait);
    if (ended.code !== null && underWay(ended)) return ended;
  }
  return stoppedAfter(words, 15_000);
}

function stoppedAfter(words: string[], milliseconds: number): Promise<Ended> {
  const child = spawn(process.execPath, [PROGRAM, ...words], { cwd: ROOT });
  const ended: Ended = { code: null, out: '', err: '' };
  child.stdout.on('data', (data: Buffer) => (ended.out += data.toString()));
  child.stderr.on('data', (data: Buffer) => (ended.err += data.toString()));
  setTimeout(() => child.kill('SIGINT'), milliseconds);
  return new Promise((resolve) => child.on('close', (code) => resolve({ ...ended, code })));
}

export const json = <T = Record<string, unknown>>(text: string): T => JSON.parse(text) as T;

/** The widest line, a wide character counting two. */
export const widest = (text: string): number =>
  Math.max(...text.split('\n').map((line) => stringWidth(line)));

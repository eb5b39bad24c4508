/** The built program: called, and run as a user runs it. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';
import stringWidth from 'string-width';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const PROGRAM = fileURLToPath(new URL('../../dist/cli/clampwright.js', import.meta.url));
export const scenarioFile = (name: string): string =>
  fileURLToPath(new URL(`../../scenarios/${name}.json`, import.meta.url));

if (!existsSync(PROGRAM)) throw new Error('the command line is not built: npm run build');

export interface Ended {
  code: number | null;
  out: string;
  err: string;
}

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
  called ??= calledIn(new URL('./called.mjs', import.meta.url));
  return called(words);
}

let called: ((words: string[]) => Ended) | null = null;

function calledIn(thread: URL): (words: string[]) => Ended {
  const done = new Int32Array(new SharedArrayBuffer(4));
  const { port1, port2 } = new MessageChannel();
  const worker = new Worker(thread, {
    workerData: { port: port2, done, program: new URL('program.js', pathToFileURL(PROGRAM)).href },
    transferList: [port2],
  });
  worker.unref();
  return (words) => {
    Atomics.store(done, 0, 0);
    port1.postMessage(words);
    if (Atomics.wait(done, 0, 0, LONGEST) === 'timed-out') throw new Error(`no end: ${words.join(' ')}`);
    return (receiveMessageOnPort(port1) as { message: Ended }).message;
  };
}

/** No command of the tests takes as long, milliseconds. */
const LONGEST = 240_000;

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

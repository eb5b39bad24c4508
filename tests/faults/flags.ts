/** Junk typed at every command: an answer or words, never a fault of the program, never without an end. */
import { Worker } from 'node:worker_threads';
import type { Setting } from './kills.ts';

export interface Flags {
  tried: number;
  refused: number;
  fine: number;
  /** Code 3, or a thread that ended; what was typed. */
  faults: string[];
  /** Took longer than the limit, of the processor's time. */
  hangs: string[];
  /** Longest time of the processor one took, seconds. */
  longest: number;
  /** The most memory of the whole process, MB. */
  memory: number;
}

/** What is typed on after it so that sound words do not ask for a long piece of work. */
const FEW: Record<string, string[]> = {
  run: ['--count', '2', '--no-why'],
  compare: ['--count', '2'],
  'one-more': ['--count', '2'],
  limits: ['--count', '2'],
  grid: ['--count', '2'],
  learn: ['--count', '2'],
  ledger: ['--count', '2'],
  brief: ['--count', '2'],
  replay: ['--count', '2'],
  rows: ['--count', '2'],
  crew: ['--count', '30', '--search', '100', '--no-absences'],
  week: ['--no-crew'],
};

const COMMANDS = [
  'check',
  'record',
  'schema',
  'questions',
  'log',
  'now',
  'times',
  'run',
  'crew',
  'brief',
  'compare',
  'one-more',
  'limits',
  'grid',
  'learn',
  'ledger',
  'morning',
  'handover',
  'result',
  'replay',
  'new',
  'measures',
  'completion',
  'rows',
  'merge',
  'week',
];
const WORDS = [
  '--seed',
  '--count',
  '--precision',
  '--threads',
  '--option',
  '--with',
  '--json',
  '--date',
  '--good',
  '--log',
  '--at',
  '--state',
  '--events',
  '--waiting',
  '--in-hand',
  '--curing',
  '--save',
  '--save',
  '--and',
  '--move',
  '--gear-count',
  '--clamp',
  '--replication',
  '--map',
  '--use',
  '--help',
  '--',
  '-x',
  '--no',
  '--good=',
  '--target',
  '--try',
  '--late',
  '--pace',
  '--even-out',
  '--known-to',
  'show',
  'add',
  'why',
  'join',
  'undo',
  '--day',
  '--keep',
  '--from',
  '--across',
  '--down',
  '--step',
  '--form',
  '--promised',
  '--by-hour',
  '--scrap',
  '--overtime',
  '--which',
  '--rush',
  '--gear',
  '--people',
];
const VALUES = [
  '',
  '0',
  '-1',
  '1e9',
  'NaN',
  '999999999999',
  'a=b',
  'fit=1',
  '=',
  'fit=',
  '{}',
  '{"steps":null}',
  '{"a":',
  '[]',
  '../..',
  '/dev/null',
  'scenarios',
  'scenarios/one-step.json',
  '2027-02-30',
  '10:40',
  '25:00',
  '\u202E',
  'é',
  '💥',
  'x'.repeat(5000),
  '__proto__',
  'constructor',
  '{"__proto__":{"a":1}}',
  "'; ls",
  '%s',
  '-',
  '2',
];

/** Seconds of the processor's time that one command may take, and ms in all. */
const LIMIT = 5;
const WAITED = 60_000;

/**
 * In the scratch folder, which has a copy of the scenarios: some of the junk names files to write. `program`
 * is called as a function, in a thread that is given up where a command has no end.
 */
export async function throwFlags(tries: number, { program, folder, random }: Setting): Promise<Flags> {
  const pick = (list: string[]): string => list[Math.floor(random() * list.length)]!;
  const result: Flags = { tried: tries, refused: 0, fine: 0, faults: [], hangs: [], longest: 0, memory: 0 };
  const caller = new Caller(program);
  const before = process.cwd();
  process.chdir(folder);
  try {
    for (let i = 0; i < tries; i++) {
      const words = [pick(COMMANDS)];
      for (let more = Math.floor(random() * 5); more > 0; more--)
        words.push(pick(random() < 0.5 ? WORDS : VALUES));
      const typed = [...words, ...(FEW[words[0]!] ?? [])];
      const { code, seconds } = await caller.call(typed, LIMIT);
      const shown = JSON.stringify(words).slice(0, 300);
      if (code === 0 || code === 5) result.fine++;
      else if (code === 1 || code === 2 || code === 4) result.refused++;
      else if (code === 'no end') result.hangs.push(shown);
      else result.faults.push(`${code}: ${shown}`);
      result.longest = Math.max(result.longest, seconds);
      result.memory = Math.max(result.memory, process.memoryUsage.rss() / 1024 / 1024);
    }
  } finally {
    process.chdir(before);
    await caller.end();
  }
  return result;
}

type Called = { code: number | 'gone' | 'no end'; seconds: number };

/** Calls the built program's function in a thread of its own, again and again. */
class Caller {
  private worker: Worker | null = null;
  private readonly program: string;

  constructor(program: string) {
    this.program = program;
  }

  async call(words: string[], limit: number): Promise<Called> {
    const worker = (this.worker ??= await begun(this.program));
    const from = process.cpuUsage();
    const seconds = (): number => {
      const { user, system } = process.cpuUsage(from);
      return (user + system) / 1e6;
    };
    const code = await new Promise<Called['code']>((resolve) => {
      // By the processor's time, since others may have the processor; or where it waits for what never comes.
      const began = performance.now();
      const watch = setInterval(() => {
        if (seconds() > limit || performance.now() - began > WAITED) end('no end');
      }, 100);
      const end = (how: Called['code']): void => {
        clearInterval(watch);
        worker.off('message', end).off('exit', gone).off('error', gone);
        resolve(how);
      };
      const gone = (): void => end('gone');
      worker.on('message', end).on('exit', gone).on('error', gone);
      worker.postMessage(words);
    });
    if (typeof code !== 'number') await this.end();
    return { code, seconds: seconds() };
  }

  async end(): Promise<void> {
    await this.worker?.terminate();
    this.worker = null;
  }
}

const INSIDE = `
  const { parentPort, workerData } = require('node:worker_threads');
  const silent = () => undefined;
  import(workerData).then(({ main }) => {
    parentPort.on('message', async (words) =>
      parentPort.postMessage(await main(words, { out: silent, err: silent, alone: true })));
    parentPort.postMessage('begun');
  });`;

function begun(program: string): Promise<Worker> {
  const worker = new Worker(INSIDE, {
    eval: true,
    workerData: program,
    stdin: true,
    stdout: true,
    stderr: true,
  });
  worker.stdin?.end();
  worker.stdout.resume();
  worker.stderr.resume();
  return new Promise((resolve, reject) => {
    worker.once('error', reject);
    worker.once('message', () => {
      worker.off('error', reject);
      resolve(worker);
    });
  });
}

/** Junk typed at every command: an answer or words, and never a fault of the program. */
import { spawn } from 'node:child_process';
import type { Setting } from './kills.ts';

export interface Flags {
  tried: number;
  refused: number;
  fine: number;
  /** Code 3, a signal, or longer than five minutes; what was typed. */
  faults: string[];
}

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

const FEW: Record<string, string[]> = {
  run: ['--count', '2', '--no-why'],
  compare: ['--count', '2'],
  brief: ['--count', '2'],
  crew: ['--count', '30', '--search', '100', '--no-absences'],
};

/** In the scratch folder, which has a copy of the scenarios: some of the junk names files to write. */
export async function throwFlags(tries: number, { program, folder, random }: Setting): Promise<Flags> {
  const pick = (list: string[]): string => list[Math.floor(random() * list.length)]!;
  const result: Flags = { tried: tries, refused: 0, fine: 0, faults: [] };
  for (let i = 0; i < tries; i++) {
    const words = [pick(COMMANDS)];
    for (let more = Math.floor(random() * 5); more > 0; more--)
      words.push(pick(random() < 0.5 ? WORDS : VALUES));
    // Sound words ask for a long piece of work: a few shifts do.
    const code = await endOf([program, ...words, ...(FEW[words[0]!] ?? [])], folder);
    if (code === 0 || code === 5) result.fine++;
    else if (code === 1 || code === 2 || code === 4) result.refused++;
    else result.faults.push(`${code ?? 'killed'}: ${JSON.stringify(words).slice(0, 300)}`);
  }
  return result;
}

function endOf(words: string[], cwd: string): Promise<number | null> {
  const child = spawn(process.execPath, words, { cwd, stdio: 'ignore' });
  const timer = setTimeout(() => child.kill('SIGKILL'), 300_000);
  return new Promise((resolve) =>
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve(code);
    }),
  );
}

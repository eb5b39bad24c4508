/**
 * What a command line speaks to: a process has one, and tests, which call the program within their own, hand
 * theirs over.
 */
import { FINE, PARTIAL } from './trouble.ts';

export interface Surroundings {
  /** The answer: pages, data, files. */
  out: (text: string) => void;
  /** Remarks beside it, and troubles. */
  err: (text: string) => void;
  /** Whether shifts are run in this very thread, not in threads of their own. The answer is the same. */
  alone?: boolean;
}

const OF_PROCESS: Surroundings = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

let current = OF_PROCESS;
let code = FINE;
let full = false;

/** Those of the command that runs; one runs at a time. */
export const surroundings = (): Surroundings => current;

/** The exit code of the command that runs, so far. */
export const codeSoFar = (): number => code;

/** Whether cautions and remarks were asked for in full. */
export const inFull = (): boolean => full;
export function tellInFull(): void {
  full = true;
}

/** There is an answer, but not the whole of it. */
export function leavePartial(): void {
  code = PARTIAL;
}

/** Runs a command in these surroundings. @returns its exit code. */
export async function within(
  given: Surroundings | undefined,
  command: () => Promise<number | undefined>,
): Promise<number> {
  current = given ?? OF_PROCESS;
  code = FINE;
  full = false;
  try {
    code = (await command()) ?? code;
  } finally {
    current = OF_PROCESS;
  }
  return code;
}

/** What ends a command, as sentences for the person who typed it and as plain data for `--json`. */
import type { Fault } from '../scenario/check.ts';

/** The exit codes, the same for every command. */
export const FINE = 0;
export const SCENARIO_WRONG = 1;
export const COMMAND_WRONG = 2;
export const PROGRAM_WRONG = 3;
/** The disk, or whatever the answer is written to: full, out of reach, no leave. */
export const DISK_WRONG = 4;
/** There is an answer, but not the whole of it: stopped by hand, or not all could be read. */
export const PARTIAL = 5;

export class Trouble extends Error {
  override name = 'Trouble';
  readonly exitCode: number;
  readonly items: string[];
  readonly faults: Fault[];

  constructor(exitCode: number, headline: string, items: string[] = [], faults: Fault[] = []) {
    super(headline);
    this.exitCode = exitCode;
    this.items = items;
    this.faults = faults;
  }
}

/** The file, or the file with the changes asked for, cannot be run. */
export function scenarioWrong(what: string, faults: Fault[]): Trouble {
  const count = faults.length === 1 ? 'one thing is' : `${faults.length} things are`;
  return new Trouble(
    SCENARIO_WRONG,
    `${what} cannot be run: ${count} wrong with it.`,
    faults.map((fault) => fault.text),
    faults,
  );
}

export const commandWrong = (sentence: string): Trouble => new Trouble(COMMAND_WRONG, sentence);

import { threadRunner } from '../../src/work/threads.ts';
import { crewBench } from './crew.ts';

/** @param entry the built inside of a thread. */
export const run = (entry: URL, print: (line: string) => void): Promise<void> =>
  crewBench((width) => threadRunner({ width, entry }), print);

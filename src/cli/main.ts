#!/usr/bin/env node
/** The program as a process: its words, its outputs and their ends, its exit code. */
import { main, tell } from './program.ts';
import { codeSoFar } from './surroundings.ts';

const words = process.argv.slice(2);

// A reader that closes early ("| head") has seen what it wanted; a full disk has not taken the answer.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? codeSoFar() : tell(error, words.includes('--json')));
});
// A file larger than this user may have: the write fails and is told; the signal would end the program mute.
process.on('SIGXFSZ', () => undefined);
// Nobody is left to be told.
process.stderr.on('error', () => undefined);

process.exitCode = await main(words);

#!/usr/bin/env node
/**
 * The command line: what was typed goes to its command; what goes wrong comes back as sentences and an exit
 * code.
 */
import { Command, CommanderError } from 'commander';
import { arranged } from './arguments.ts';
import { COMMANDS } from './commands.ts';
import { COLUMNS, printTrouble } from './print.ts';
import { diskTrouble, isOfDisk } from './disk/disk-trouble.ts';
import { COMMAND_WRONG, DISK_WRONG, FINE, PROGRAM_WRONG, Trouble } from './trouble.ts';
import { VERSION } from '../report/version.ts';

const program = new Command('clampwright')
  .description(
    'Plans a joint-fitting and glue-up cell: crew, clamp sets and racks, with honest ranges.\nA forecast, not a promise; it sets no cure times, breaks or pay.',
  )
  .version(VERSION, '-V, --version', 'the version')
  .helpCommand('help [command]', 'what a command understands')
  .addHelpText(
    'after',
    [
      '\nExit codes: 0 fine; 1 the scenario is wrong; 2 the command line is wrong; 3 the program is;',
      '4 the disk or the output would not; 5 there is an answer, but not the whole of it.',
    ].join('\n'),
  );

for (const make of COMMANDS) program.addCommand(make());
const within = (command: Command): Command[] => [command, ...command.commands.flatMap(within)];
for (const command of within(program)) {
  command
    .exitOverride()
    .showSuggestionAfterError()
    .helpOption('-h, --help', 'this help')
    .configureHelp({ helpWidth: COLUMNS, showGlobalOptions: false })
    .configureOutput({ getOutHelpWidth: () => COLUMNS, getErrHelpWidth: () => COLUMNS });
}

// A reader that closes early ("| head") has seen what it wanted; a full disk has not taken the answer.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? (process.exitCode ?? FINE) : tell(ofOutput(error)));
});
// A file larger than this user may have: the write fails and is told; the signal would end the program mute.
process.on('SIGXFSZ', () => undefined);
// Nobody is left to be told.
process.stderr.on('error', () => undefined);

try {
  await program.parseAsync(arranged(program, process.argv.slice(2)), { from: 'user' });
} catch (error) {
  process.exitCode = tell(error);
}

/** Says what went wrong. @returns the exit code. */
function tell(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? FINE : COMMAND_WRONG;
  const trouble = error instanceof Trouble ? error : ofOutput(error);
  if (trouble instanceof Trouble) {
    printTrouble(trouble, process.argv.includes('--json') && trouble.exitCode !== DISK_WRONG);
    return trouble.exitCode;
  }
  console.error(error);
  console.error(
    'This is a fault of the program and not yours. Please report it with the lines above, the command and the file.',
  );
  return PROGRAM_WRONG;
}

/** What the disk did is nobody's fault here: an output that takes no more, a file that went away. */
function ofOutput(error: unknown): unknown {
  if (!isOfDisk(error)) return error;
  if (typeof error.path === 'string') return diskTrouble(error, error.path, 'write');
  const why = error.code === 'ENOSPC' ? 'there is no room for it' : error.code;
  return new Trouble(DISK_WRONG, `The answer could not be written: ${why}.`);
}

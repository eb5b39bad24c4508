#!/usr/bin/env node
/**
 * The command line: what was typed goes to its command; what goes wrong comes back as sentences and an exit
 * code.
 */
import { Command, CommanderError } from 'commander';
import { COMMANDS } from './commands.ts';
import { COLUMNS, printTrouble } from './print.ts';
import { COMMAND_WRONG, FINE, PROGRAM_WRONG, Trouble } from './trouble.ts';
import { VERSION } from '../report/version.ts';

const program = new Command('clampwright')
  .description(
    'Plans a joint-fitting and glue-up cell: crew, clamp sets and racks, with honest ranges.\nA forecast, not a promise; it sets no cure times, breaks or pay.',
  )
  .version(VERSION, '--version', 'the version')
  .helpCommand('help [command]', 'what a command understands')
  .addHelpText(
    'after',
    '\nExit codes: 0 fine; 1 the scenario is wrong; 2 the command line is wrong; 3 the program is.',
  );

for (const make of COMMANDS) program.addCommand(make());
for (const command of [program, ...program.commands]) {
  command
    .exitOverride()
    .showSuggestionAfterError()
    .helpOption('-h, --help', 'this help')
    .configureHelp({ helpWidth: COLUMNS, showGlobalOptions: false })
    .configureOutput({ getOutHelpWidth: () => COLUMNS, getErrHelpWidth: () => COLUMNS });
}

// A reader that closes early ("| head") has seen what it wanted.
process.stdout.on('error', (error: NodeJS.ErrnoException) =>
  process.exit(error.code === 'EPIPE' ? FINE : COMMAND_WRONG),
);

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? FINE : COMMAND_WRONG;
  else if (error instanceof Trouble) {
    printTrouble(error, process.argv.includes('--json'));
    process.exitCode = error.exitCode;
  } else {
    console.error(error);
    console.error(
      'This is a fault of the program and not yours. Please report it with the lines above, the command and the file.',
    );
    process.exitCode = PROGRAM_WRONG;
  }
}

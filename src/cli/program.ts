/**
 * The command line as a function: what was typed goes to its command; what goes wrong comes back as sentences
 * and an exit code.
 */
import { inspect } from 'node:util';
import { Command, CommanderError } from 'commander';
import { VERSION } from '../report/version.ts';
import { arranged } from './arguments.ts';
import { COMMANDS } from './commands.ts';
import { diskTrouble, isOfDisk } from './disk/disk-trouble.ts';
import { COLUMNS, printTrouble } from './print.ts';
import { surroundings, tellInFull, within, type Surroundings } from './surroundings.ts';
import { COMMAND_WRONG, DISK_WRONG, FINE, PROGRAM_WRONG, Trouble } from './trouble.ts';

/**
 * Runs the command that was typed.
 *
 * @param words what was typed after the name of the program.
 * @param given default: those of the process.
 * @returns the exit code.
 */
export const main = (words: string[], given?: Surroundings): Promise<number> =>
  within(given, async () => {
    const program = made();
    try {
      await program.parseAsync(arranged(program, words), { from: 'user' });
      return undefined;
    } catch (error) {
      return tell(error, words.includes('--json'));
    }
  });

function made(): Command {
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
  program.hook('preAction', (_, command) => {
    if (command.opts()['cautions'] === true) tellInFull();
  });
  const withAll = (command: Command): Command[] => [command, ...command.commands.flatMap(withAll)];
  for (const command of withAll(program)) {
    command
      .exitOverride()
      .showSuggestionAfterError()
      .helpOption('-h, --help', 'this help')
      .configureHelp({ helpWidth: COLUMNS, showGlobalOptions: false })
      .configureOutput({
        getOutHelpWidth: () => COLUMNS,
        getErrHelpWidth: () => COLUMNS,
        writeOut: (text) => surroundings().out(text),
        writeErr: (text) => surroundings().err(text),
      });
  }
  return program;
}

/** Says what went wrong. @returns the exit code. */
export function tell(error: unknown, json: boolean): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? FINE : COMMAND_WRONG;
  const trouble = error instanceof Trouble ? error : ofOutput(error);
  if (trouble instanceof Trouble) {
    printTrouble(trouble, json && trouble.exitCode !== DISK_WRONG);
    return trouble.exitCode;
  }
  surroundings().err(
    `${inspect(error)}\nThis is a fault of the program and not yours. Please report it with the lines above, the command and the file.\n`,
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

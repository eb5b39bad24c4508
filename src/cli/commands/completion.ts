import { Argument, Command } from 'commander';
import { print } from '../print.ts';
import { completionFor, SHELLS, type Shell } from '../completion.ts';

/** What a shell reads so as to complete commands and options. */
export function completionCommand(): Command {
  return new Command('completion')
    .description('lets a shell complete commands and options: eval "$(clampwright completion bash)"')
    .addArgument(new Argument('<shell>', 'which shell').choices(SHELLS))
    .action((shell: Shell, _words: unknown, command: Command) => {
      print(completionFor(shell, command.parent!));
    });
}

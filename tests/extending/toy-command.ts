/** A command as a newcomer would add it. Tests put it into a copy of the sources. */
export const COMMAND_FILE = 'src/cli/commands/head-count.ts';
export const COMMAND_LIST = 'src/cli/commands.ts';

export const COMMAND = `import { Command } from 'commander';
import { resolve } from '../../scenario/resolve.ts';
import { readInput } from '../input.ts';
import { printJson, printPage } from '../print.ts';
import { fileArgument, jsonOption } from '../settings.ts';

export function headCountCommand(): Command {
  return new Command('head-count')
    .description('how many people a file names')
    .addArgument(fileArgument())
    .addOption(jsonOption())
    .action(async (file: string | undefined, { json }: { json?: boolean }) => {
      const { scenario } = await readInput(file);
      const people = resolve(scenario).people.length;
      const title = \`\${scenario.name}: \${people} people\`;
      if (json === true) printJson({ command: 'head-count', people });
      else printPage({ title, blocks: [{ kind: 'heading', level: 1, text: title }] });
    });
}
`;

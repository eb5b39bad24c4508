import { Command, Option } from 'commander';
import { outputJsonSchema, WITH_SCHEMA } from '../../report/output-schema.ts';
import { scenarioJsonSchema } from '../../scenario/json-schema.ts';
import { printJson } from '../print.ts';

/** The published form of the file, for editors that check while one types, and of the answers. */
export function schemaCommand(): Command {
  return new Command('schema')
    .description('the JSON Schema (2020-12) of the scenario file, or of what a command prints with --json')
    .addOption(new Option('--of <command>', 'of that command’s document').choices(WITH_SCHEMA))
    .action(({ of }: { of?: (typeof WITH_SCHEMA)[number] }) =>
      printJson(of === undefined ? scenarioJsonSchema() : outputJsonSchema(of)),
    );
}

import { Command } from 'commander';
import { scenarioJsonSchema } from '../../scenario/json-schema.ts';
import { printJson } from '../print.ts';

/** The published form of the file, for editors that check while one types. */
export function schemaCommand(): Command {
  return new Command('schema')
    .description('the JSON Schema (2020-12) of the scenario file')
    .action(() => printJson(scenarioJsonSchema()));
}

/** The published JSON Schema of the scenario file, from the same source as its types and checks. */
import { z } from '../zod.ts';
import { scenarioSchema } from './schema.ts';

/**
 * JSON Schema 2020-12 of a scenario file. It says what an entry may look like; names that must exist, order
 * and sense are the check's to say (check.ts).
 */
export function scenarioJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(scenarioSchema, { target: 'draft-2020-12', io: 'input', reused: 'inline' });
  const { $schema, ...rest } = schema;
  return {
    $schema,
    title: 'Clampwright scenario, format 1',
    description:
      'A joint-fitting and glue-up cell: its products, steps, gear, people, shift and intake, and options to it. Minutes, "HH:MM", per cent.',
    ...rest,
  };
}

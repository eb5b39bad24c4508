/**
 * The published form of what commands print with `--json`. Every such document says which form it has under
 * `output`; within a form fields are added, and none is taken away or given another meaning. A figure that
 * does not exist (a range from too few shifts, a lead time where nothing was good) is null.
 */
import { z } from '../zod.ts';
import { CREWS } from './outputs/crews.ts';
import { DAYS, OTHERS, TROUBLE } from './outputs/days.ts';
import { STUDIES } from './outputs/studies.ts';
import { OUTPUT } from './version.ts';

const OUTPUTS = { ...STUDIES, ...CREWS, ...DAYS, ...OTHERS, trouble: TROUBLE };

/** Commands whose documents have a published schema. `merge` prints the document of its question. */
export const WITH_SCHEMA = Object.keys(OUTPUTS) as (keyof typeof OUTPUTS)[];

/** JSON Schema (2020-12) of a command's document; `trouble`: of what is printed instead of any. */
export function outputJsonSchema(command: keyof typeof OUTPUTS): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(OUTPUTS[command], {
    target: 'draft-2020-12',
    io: 'output',
    reused: 'ref',
  });
  return { $schema, title: `clampwright ${command} --json, form ${OUTPUT}`, ...rest };
}

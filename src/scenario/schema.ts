/**
 * The scenario file: one source for its types, its checks and its published JSON Schema.
 *
 * Every duration in a file is in minutes, every clock time is "HH:MM" (24 h), every share is in per cent,
 * every amount of money is in the file's own currency. All fields but `format`, `name`, `steps` and `people`
 * may be left out; the value that then holds is given in the field's description and filled in by `resolve`
 * (resolve.ts), never here, so that a small file stays small when it is saved again.
 */
import { minutes } from '../duration/entries.ts';
import { z } from '../zod.ts';
import { calendarSchema } from './schema/calendar.ts';
import { id, label, factor, money } from './schema/common.ts';
import { limitsSchema, moneySchema, paySchema, studySchema } from './schema/office.ts';
import { personSchema } from './schema/people.ts';
import { carrySchema, holdSchema, intakeSchema, shiftSchema } from './schema/shift.ts';
import { gearSchema, productSchema, stepSchema } from './schema/work.ts';

export const scenarioSchema = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal(1).describe('The format number of this file.'),
  name: label.min(1),
  about: z.string().max(4000).optional(),
  invented: z.boolean().optional().describe('The figures are made up. Default false.'),
  seed: z
    .string()
    .max(200)
    .optional()
    .describe('Any text; the same text gives the same shifts. Default "clampwright".'),
  products: z.record(id, productSchema).optional().describe('Default: one product.'),
  steps: z.record(id, stepSchema).describe('In the order of the work.'),
  gear: z.record(id, gearSchema).optional(),
  people: z.record(id, personSchema).describe('In crew order: who is asked first.'),
  skillLevels: z
    .strictObject({
      factors: z.array(factor).length(4).optional(),
      rework: z.array(z.number().min(0).max(20)).length(4).optional(),
    })
    .optional()
    .describe('Time and rework factors of levels 1 to 4. Default 1.6, 1.25, 1, 1 and 1, 1, 1, 1.'),
  shift: shiftSchema.optional(),
  intake: intakeSchema.optional().describe('Default: 60 units at the start.'),
  carryOver: z.array(carrySchema).max(10_000).optional(),
  holds: z.array(holdSchema).max(1000).optional(),
  outRack: z
    .strictObject({
      size: z.int().min(1).max(10_000),
      racks: z.int().min(1).max(1000).optional(),
      back: minutes.optional(),
      standing: z
        .int()
        .min(0)
        .max(10_000)
        .optional()
        .describe('Finished units that stand on a part-filled one at the start. Default 0.'),
      away: z
        .array(minutes)
        .max(1000)
        .optional()
        .describe('Racks that are away at the start: minutes until each is back. Default none.'),
    })
    .optional()
    .describe(
      'Finished units leave on racks of `size`; `racks` of them (default 1), each back `back` minutes after it left (default 0).',
    ),
  nextShifts: z
    .array(
      z.strictObject({
        name: label.optional(),
        days: z.int().min(0).max(60).optional(),
        changes: z.record(z.string(), z.unknown()).optional(),
      }),
    )
    .max(60)
    .optional()
    .describe('Shifts that follow, `days` after the first (default 1), each a change to the first.'),
  pay: paySchema,
  money: moneySchema,
  limits: limitsSchema,
  study: studySchema,
  calendar: calendarSchema.optional(),
  options: z
    .record(
      id,
      z.strictObject({
        name: label.optional(),
        note: z.string().max(2000).optional(),
        price: money.optional().describe('What it costs once.'),
        changes: z.record(z.string(), z.unknown()).describe('A JSON Merge Patch (RFC 7396) on this file.'),
      }),
    )
    .optional()
    .describe('Named changes to this cell.'),
});

export type Product = z.infer<typeof productSchema>;
export type Step = z.infer<typeof stepSchema>;
export type Gear = z.infer<typeof gearSchema>;
export type Person = z.infer<typeof personSchema>;
export type Shift = z.infer<typeof shiftSchema>;
export type Intake = z.infer<typeof intakeSchema>;
export type CarryOver = z.infer<typeof carrySchema>;
export type Hold = z.infer<typeof holdSchema>;
export type Scenario = z.infer<typeof scenarioSchema>;

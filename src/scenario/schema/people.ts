/** People: what they can do, where they stand, when they are there. */
import { DEFAULTS } from '../defaults.ts';
import { timeSchema } from '../../duration/time.ts';
import { z } from '../../zod.ts';
import { shareKnownSchema } from '../known.ts';
import { clock } from './clock.ts';
import { id, label, percent, factor, money, breakSchema } from './common.ts';

const skillSchema = z.union([
  z.int().min(0).max(4).describe('Level: 0 none, 1 training, 2 with help, 3 alone, 4 can train others.'),
  z.strictObject({
    level: z.int().min(0).max(4).optional(),
    factor: factor.optional(),
    rework: z.number().min(0).max(20).optional(),
  }),
]);

export const personSchema = z.strictObject({
  name: label.optional(),
  skills: z
    .record(id, skillSchema)
    .optional()
    .describe('What they can do, by step. Default: everything they cover, alone.'),
  covers: z
    .array(id)
    .optional()
    .describe(
      "The steps they stand at, in order of preference. Default: all they can do, in the file's order.",
    ),
  changes: z
    .array(z.strictObject({ from: clock, covers: z.array(id) }))
    .optional()
    .describe('Other cover from a time on.'),
  rule: z
    .enum(['in order', 'oldest'])
    .optional()
    .describe(
      `Takes the first of their steps that can begin, or the piece that has waited longest. Default ${DEFAULTS.person.rule}.`,
    ),
  from: clock.optional().describe("Own start. Default: the shift's."),
  to: clock.optional().describe("Own end. Default: the shift's."),
  breaks: z.array(breakSchema).optional().describe("Own breaks instead of the shift's."),
  away: z
    .array(z.strictObject({ from: clock, to: clock, payShare: percent.optional() }))
    .optional()
    .describe('Times on another line; `payShare` per cent of that pay is borne here (default 0).'),
  attendance: z
    .strictObject({
      percent: percent.optional(),
      late: timeSchema.optional(),
      latePercent: percent.optional(),
      known: shareKnownSchema.optional(),
    })
    .optional()
    .describe(
      `Chance of coming at all (default ${DEFAULTS.person.attendance} %), chance of being late (default ${DEFAULTS.person.latePercent} % where \`late\` is given) and by how much.`,
    ),
  pay: money.optional().describe(`Pay an hour. Default ${DEFAULTS.person.pay}.`),
  overtime: z.boolean().optional().describe('May be asked for overtime. Default true.'),
  hoursThisWeek: z
    .number()
    .min(0)
    .max(168)
    .optional()
    .describe(
      `Hours already worked this week, those paid as overtime left out. Default ${DEFAULTS.person.hoursThisWeek}.`,
    ),
  daysThisWeek: z
    .int()
    .min(0)
    .max(6)
    .optional()
    .describe(`Days in a row already worked this week. Default ${DEFAULTS.person.daysThisWeek}.`),
});

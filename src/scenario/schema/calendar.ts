/** The calendar of a cell: which days are worked, and what is different on some of them. */
import { z } from '../../zod.ts';
import { DAY_WORDS, isDay, WEEKDAYS } from '../days.ts';
import { clock } from './clock.ts';
import { id, label } from './common.ts';

const day = z.string().refine(isDay, `write ${DAY_WORDS}`).describe('A date, YYYY-MM-DD.');
const units = z.int().min(1).max(100_000);
const namedDays = z.array(z.strictObject({ day, name: label.optional() })).max(10_000);

export const calendarSchema = z
  .strictObject({
    workingDays: z
      .array(z.enum(WEEKDAYS))
      .min(1)
      .max(7)
      .optional()
      .describe('Days of the week that are worked. Default mon to fri.'),
    holidays: namedDays.optional().describe('Not worked, whatever the day of the week.'),
    alsoWorked: namedDays.optional().describe('Worked, whatever the day of the week.'),
    absences: z
      .array(z.strictObject({ person: id, from: day, to: day.optional(), why: label.optional() }))
      .max(10_000)
      .optional()
      .describe('Leave and other absence, whole days, the last one in; `to` left out: one day.'),
    gearAway: z
      .array(
        z.strictObject({
          gear: id,
          from: day,
          to: day.optional(),
          items: z.int().min(1).max(1000).optional().describe('Default 1.'),
          why: label.optional(),
        }),
      )
      .max(10_000)
      .optional()
      .describe('Gear that is not there (repair, lent out), whole days, the last one in.'),
    deliveries: z
      .array(
        z.strictObject({
          day,
          at: clock.optional().describe("Default: the shift's start."),
          units,
          product: id.optional(),
          name: label.optional(),
          instead: z
            .boolean()
            .optional()
            .describe('The usual pieces of that day do not come. Default false: these come on top.'),
        }),
      )
      .max(10_000)
      .optional()
      .describe('Pieces that come on a day. On a day not worked: at the start of the next that is.'),
    orders: z
      .array(
        z.strictObject({
          name: label.min(1),
          units,
          product: id.optional(),
          day: day.describe('Its pieces come that day.'),
          at: clock.optional().describe("Default: the shift's start."),
          due: day,
          dueAt: clock.optional().describe("Default: the shift's end."),
          rush: z.boolean().optional().describe('First in every line. Default false.'),
        }),
      )
      .max(1000)
      .optional()
      .describe('Pieces that belong together and are due on a day.'),
  })
  .describe('Which days are worked, and what is different on some of them.');

export type Calendar = z.infer<typeof calendarSchema>;

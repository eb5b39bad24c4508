/**
 * What is known of the numbers a file takes for granted: how well the mean of a time, a share of rework or an
 * attendance is known. Written beside the number it speaks of; where nothing is written, what the number's
 * form deserves is assumed (`inputsOf` in inputs.ts).
 */
import { z } from '../zod.ts';
import { clock } from './schema/clock.ts';

const by = z.string().max(120).optional().describe('Whose timings or count this is.');
const on = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'write a date as YYYY-MM-DD, for example 2024-03-05')
  .optional()
  .describe('The day, YYYY-MM-DD; of several days the last.');

/** What a range made of timings cannot know, as their list showed when it was put into the file. */
const mind = z
  .strictObject({
    people: z
      .enum(['differ', 'not named'])
      .optional()
      .describe(
        'People take different times; or several work there and it was not noted whose times these are.',
      ),
    between: z.tuple([clock, clock]).optional().describe('All were taken in this part of the day.'),
    hourly: z
      .number()
      .gt(0)
      .max(10)
      .optional()
      .describe('Pieces take so many times as long an hour later in the day.'),
    days: z.literal('differ').optional().describe('Days differ by more than times within a day do.'),
  })
  .describe('What the range cannot know of them. It is said with every answer.');

/** How well the mean of a time is known. */
export const timeKnownSchema = z
  .union([
    z.literal('exact').describe('Not in doubt: a cure from the data sheet, a machine cycle.'),
    z
      .strictObject({ within: z.number().gt(0).max(90), by, on })
      .describe('From memory: the mean is right to so many per cent either way, 95 times in 100.'),
    z
      .strictObject({
        times: z.int().min(2).max(1e6).describe('How many times it was timed.'),
        mean: z.number().gt(0).max(100_000).optional().describe("Their mean, minutes. Default: the curve's."),
        spread: z
          .number()
          .min(0)
          .max(100_000)
          .optional()
          .describe("Their standard deviation, minutes. Default: the curve's."),
        by,
        on,
        mind: mind.optional(),
      })
      .describe('Timed at the bench.'),
  ])
  .describe(
    'How well its mean is known. Default: the timings of an `observed` curve; any other curve that varies `within` 10 % (see `study.memory`); a time that is always the same is exact.',
  );

/** How well a share (rework, scrap, attendance) is known. */
export const shareKnownSchema = z
  .union([
    z.literal('exact'),
    z
      .strictObject({
        of: z.int().min(1).max(1e9).describe('Counted over so many pieces (or days).'),
        by,
        on,
      })
      .describe('Counted.'),
  ])
  .describe(
    'How well it is known. Default: as if counted over 100 pieces or days (see `study.counted`); 0 and 100 % are exact.',
  );

export type Mind = z.infer<typeof mind>;
export type TimeKnown = z.infer<typeof timeKnownSchema>;
export type ShareKnown = z.infer<typeof shareKnownSchema>;

/** A mean from memory is taken to be right to so many per cent either way, 95 times in 100. */
export const MEMORY_PERCENT = 10;
/** A share from memory is taken as if it had been counted over so many pieces or days. */
export const COUNTED_OVER = 100;

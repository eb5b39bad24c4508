/** Pay, money, limits and how sure an answer has to be. Each part may be left out. */
import { z } from '../../zod.ts';
import { DEFAULTS } from '../defaults.ts';
import { id, money, percent } from './common.ts';

export const paySchema = z
  .strictObject({
    overtimeFactor: z.number().min(1).max(10).optional().describe(`Default ${DEFAULTS.pay.overtimeFactor}.`),
    dailyAfter: z
      .number()
      .min(0)
      .max(24)
      .nullable()
      .optional()
      .describe(
        "Overtime pay after so many hours a day; null: never by the day. Default: after the person's own end.",
      ),
    weeklyAfter: z
      .number()
      .min(0)
      .max(168)
      .nullable()
      .optional()
      .describe(
        `Overtime pay after so many hours a week; null: never by the week. Default ${DEFAULTS.pay.weeklyAfter}.`,
      ),
    doubleAfter: z
      .number()
      .min(0)
      .max(24)
      .nullable()
      .optional()
      .describe('Double time after so many hours a day. Default: never.'),
    doubleFactor: z.number().min(1).max(10).optional().describe(`Default ${DEFAULTS.pay.doubleFactor}.`),
    seventhDay: z
      .boolean()
      .optional()
      .describe('Seventh day in a row is paid at the overtime factor, after 8 h at double. Default false.'),
  })
  .optional();

export const moneySchema = z
  .strictObject({
    currency: z.string().max(8).optional().describe(`Default "${DEFAULTS.money.currency}".`),
    margin: money.optional().describe('What one extra good unit brings in, material off.'),
    sellsMore: z
      .boolean()
      .optional()
      .describe('Good units beyond the target can be sold as well. Default false.'),
    shiftsPerYear: z.number().gt(0).max(2000).optional().describe(`Default ${DEFAULTS.money.shiftsPerYear}.`),
    discount: percent
      .optional()
      .describe(`Yearly discount rate for the present value, per cent. Default ${DEFAULTS.money.discount}.`),
    benchPrice: money.optional(),
  })
  .optional();

export const limitsSchema = z
  .strictObject({
    vibration: z
      .record(id, z.number().min(0).max(100))
      .optional()
      .describe('By step: vibration of the tool, m/s2.'),
    trigger: z
      .record(id, percent)
      .optional()
      .describe(`By step: per cent of the time the trigger is held. Default ${DEFAULTS.limits.trigger}.`),
    vibrationPoints: z
      .number()
      .gt(0)
      .max(10_000)
      .optional()
      .describe(`Most exposure points a day in an offered plan. Default ${DEFAULTS.limits.vibrationPoints}.`),
    hoursPerDay: z.number().gt(0).max(24).optional(),
  })
  .optional();

export const studySchema = z
  .strictObject({
    timesKnown: z
      .boolean()
      .optional()
      .describe(
        'Take every time, share and attendance as known exactly: ranges then say luck alone. Default false.',
      ),
    memory: z
      .number()
      .gt(0)
      .max(90)
      .optional()
      .describe(
        'How well a mean time from memory is known where nothing else is said: to so many per cent either way, 95 times in 100. Default 10.',
      ),
    counted: z
      .int()
      .min(1)
      .max(1e9)
      .optional()
      .describe(
        'A share of rework, scrap or attendance from memory is taken as if counted over so many pieces or days. Default 100.',
      ),
    precision: z
      .number()
      .gt(0)
      .max(1e6)
      .optional()
      .describe(`Half-width wanted on the difference, units a shift. Default ${DEFAULTS.study.precision}.`),
    confidence: z.number().min(50).max(99.99).optional().describe(`Default ${DEFAULTS.study.confidence} %.`),
    difference: z
      .number()
      .gt(0)
      .max(1e6)
      .optional()
      .describe(`The difference that matters, units a shift. Default ${DEFAULTS.study.difference}.`),
    most: z.int().min(30).max(10_000_000).optional().describe('Most shifts an option. Default 20,000.'),
    promise: z
      .number()
      .min(1)
      .max(99.9)
      .optional()
      .describe(`Chance asked of a promise, per cent. Default ${DEFAULTS.study.promise}.`),
  })
  .optional();

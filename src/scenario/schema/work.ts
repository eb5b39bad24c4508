/** Products, steps and gear. */
import { DEFAULTS } from '../defaults.ts';
import { positiveMinutes } from '../../duration/entries.ts';
import { timeSchema } from '../../duration/time.ts';
import { z } from '../../zod.ts';
import { shareKnownSchema, timeKnownSchema } from '../known.ts';
import { ruleFields } from '../step-rules.ts';
import { clock } from './clock.ts';
import { id, label, origin, percent, factor, money, count } from './common.ts';

export const productSchema = z.strictObject({
  name: label.optional(),
  share: z
    .number()
    .min(0)
    .max(1e6)
    .optional()
    .describe(`Share of the mix, relative to the other products. Default ${DEFAULTS.product.share}.`),
  factors: z
    .record(id, factor)
    .optional()
    .describe(
      `By step: how many times the step's time this product takes. Default ${DEFAULTS.product.factor}.`,
    ),
  times: z
    .record(id, timeSchema)
    .optional()
    .describe("By step: this product's own time instead of the step's (a longer cure, say)."),
  timesFrom: z.record(id, origin).optional().describe("By step: where this product's own time comes from."),
  known: z
    .record(id, timeKnownSchema)
    .optional()
    .describe("By step: how well the mean of this product's own time is known."),
  skips: z.array(id).optional().describe('Steps this product does not go through.'),
  returned: z
    .boolean()
    .optional()
    .describe(
      'Its pieces come back from a later department: counted once already, they are no new good units. Default false.',
    ),
  enters: id.optional().describe('The step it enters at. Default: the first step it does not skip.'),
});

export const stepSchema = z.strictObject({
  name: label.optional(),
  kind: z
    .enum(['hands', 'wait'])
    .optional()
    .describe(`Needs people, or only time (cure, rest). Default ${DEFAULTS.step.kind}.`),
  time: timeSchema,
  repeatTime: timeSchema
    .optional()
    .describe('The time of a second and later visit of the same unit. Default: as the first.'),
  timesFrom: z
    .strictObject({ time: origin.optional(), repeatTime: origin.optional() })
    .optional()
    .describe('Where its times come from.'),
  known: z
    .strictObject({
      time: timeKnownSchema.optional(),
      repeatTime: timeKnownSchema.optional(),
      scrap: shareKnownSchema.optional(),
    })
    .optional()
    .describe('How well the means of its times and its scrap are known.'),
  people: z
    .union([z.literal(1), z.literal(2)])
    .optional()
    .describe(`Hands needed at once. Default ${DEFAULTS.step.people}.`),
  rack: count
    .nullable()
    .optional()
    .describe('Slots in the rack before this step; 0 is a hand-over in place. Default: no limit.'),
  order: z
    .enum(['first come', 'earliest due'])
    .optional()
    .describe(`Who is next in the line (rush always first). Default ${DEFAULTS.step.order}.`),
  whole: z
    .boolean()
    .optional()
    .describe('Once begun it is finished before any break. Default false: it can be put down.'),
  plannedAt: z
    .union([z.literal('mean'), z.number().min(1).max(99.9)])
    .optional()
    .describe(
      'The time reckoned with when asking whether a whole piece still fits: the mean, or a percentile. Default mean.',
    ),
  ...ruleFields,
  benches: z
    .int()
    .min(0)
    .max(1000)
    .optional()
    .describe(
      'Benches of its own. Default 1 where `uses` is left out, otherwise 0 (0: it needs none of its own).',
    ),
  uses: z.array(id).optional().describe('Gear used from the start of the step until the unit leaves it.'),
  takes: z
    .array(z.strictObject({ gear: id, until: id }))
    .optional()
    .describe(
      'Gear that is taken here and stays with the unit until the end of a later step (a clamp set, until unclamping).',
    ),
  rework: z
    .array(z.strictObject({ to: id, percent, cause: label.optional(), known: shareKnownSchema.optional() }))
    .optional(),
  scrap: percent
    .optional()
    .describe(`Per cent scrapped at the end of the step. Default ${DEFAULTS.step.scrap}.`),
  aside: z.boolean().optional().describe('Off the main path, reached by rework only. Default false.'),
  then: id.optional().describe('For a step aside: the step that follows it.'),
});

export const gearSchema = z.strictObject({
  name: label.optional(),
  count: z.int().min(0).max(1000),
  price: money.optional().describe('What one more costs to buy.'),
  fails: z
    .strictObject({ every: timeSchema, repair: timeSchema })
    .optional()
    .describe('Minutes of shift time between failures, and of repair.'),
  out: z
    .array(
      z.strictObject({ from: clock, minutes: positiveMinutes, items: z.int().min(1).max(1000).optional() }),
    )
    .optional()
    .describe(`Planned times out of order; \`items\` of them (default ${DEFAULTS.gear.itemsOut}).`),
});

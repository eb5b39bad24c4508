/**
 * The scenario file: one source for its types, its checks and its published JSON Schema.
 *
 * Every duration in a file is in minutes, every clock time is "HH:MM" (24 h), every share is in per cent,
 * every amount of money is in the file's own currency. All fields but `format`, `name`, `steps` and `people`
 * may be left out; the value that then holds is given in the field's description and filled in by `resolve`
 * (resolve.ts), never here, so that a small file stays small when it is saved again.
 */
import { DEFAULTS } from './defaults.ts';
import { minutes, positiveMinutes } from '../duration/entries.ts';
import { timeSchema } from '../duration/time.ts';
import { z } from '../zod.ts';
import { shareKnownSchema, timeKnownSchema } from './known.ts';

const id = z
  .string()
  .regex(
    /^(?!constructor$)[a-z][a-z0-9-]{0,39}$/,
    'use small letters, digits and hyphens, beginning with a letter',
  )
  .describe('A short name used inside the file: small letters, digits and hyphens.');
const label = z.string().max(120).describe('The name people see.');
const origin = z.string().max(500).describe('Where a time comes from, in words.');
const percent = z.number().min(0).max(100);
const factor = z.number().gt(0).max(20);
const money = z.number().min(0).max(1e9);
const count = z.int().min(0).max(100_000);
const clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a clock time as HH:MM, for example 06:00')
  .describe('Clock time, HH:MM, 24 hours.');

const breakSchema = z.strictObject({
  from: clock,
  minutes: positiveMinutes,
  name: label.optional(),
  paid: z.boolean().optional().describe('Paid like work. Default true.'),
});

export const productSchema = z.strictObject({
  name: label.optional(),
  share: z
    .number()
    .min(0)
    .max(1e6)
    .optional()
    .describe('Share of the mix, relative to the other products. Default 1.'),
  factors: z
    .record(id, factor)
    .optional()
    .describe("By step: how many times the step's time this product takes. Default 1."),
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
  enters: id.optional().describe('The step it enters at. Default: the first step it does not skip.'),
});

export const stepSchema = z.strictObject({
  name: label.optional(),
  kind: z
    .enum(['hands', 'wait'])
    .optional()
    .describe('Needs people, or only time (cure, rest). Default hands.'),
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
    .describe('Hands needed at once. Default 1.'),
  rack: count
    .nullable()
    .optional()
    .describe('Slots in the rack before this step; 0 is a hand-over in place. Default: no limit.'),
  order: z
    .enum(['first come', 'earliest due'])
    .optional()
    .describe('Who is next in the line (rush always first). Default first come.'),
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
  lastStart: clock.optional().describe('Not begun after this time (it may begin exactly then).'),
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
  scrap: percent.optional().describe('Per cent scrapped at the end of the step. Default 0.'),
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
    .describe('Planned times out of order; `items` of them (default 1).'),
});

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
      'Takes the first of their steps that can begin, or the piece that has waited longest. Default in order.',
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
      'Chance of coming at all (default 100 %), chance of being late (default 100 % where `late` is given) and by how much.',
    ),
  pay: money.optional().describe('Pay an hour. Default 0.'),
  overtime: z.boolean().optional().describe('May be asked for overtime. Default true.'),
  hoursThisWeek: z
    .number()
    .min(0)
    .max(168)
    .optional()
    .describe('Hours already worked this week, those paid as overtime left out. Default 0.'),
  daysThisWeek: z
    .int()
    .min(0)
    .max(6)
    .optional()
    .describe('Days in a row already worked this week. Default 0.'),
});

export const overtimeSchema = z.strictObject({
  until: z
    .enum(['none', 'empty', 'target'])
    .optional()
    .describe('No overtime, until the cell is empty, or until the target is met. Default none.'),
  cap: minutes.optional().describe('At most this many minutes. Default 60.'),
  who: z.array(id).optional().describe('Only these people. Default: everybody who may.'),
});

export const shiftSchema = z.strictObject({
  start: clock.optional().describe('Default 06:00.'),
  end: clock.optional().describe('Default 14:30. At or before the start: the next day.'),
  breaks: z.array(breakSchema).optional(),
  tidyUp: minutes.optional().describe('No new piece this many minutes before the end. Default 0.'),
  atEnd: z
    .enum(['finish', 'put down'])
    .optional()
    .describe('What happens to pieces in hand that can be put down. Default finish.'),
  allowance: z.number().min(1).max(3).optional().describe('Factor on all hands times. Default 1.'),
  target: count.nullable().optional().describe('Good units due this shift. Default none.'),
  overtime: overtimeSchema.optional(),
});

const arrivalSchema = z.strictObject({
  at: clock,
  units: z.int().min(1).max(100_000).optional(),
  product: id.optional(),
  due: clock.optional(),
  rush: z.boolean().optional(),
  name: label.optional(),
});
const whenFull = z
  .enum(['hold', 'divert'])
  .optional()
  .describe('Rack of the first step full: wait outside (default) or go elsewhere.');
const late = minutes.optional().describe('Everything comes this many minutes later. Default 0.');

export const intakeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('at start'), units: count, whenFull, late }),
  z.strictObject({
    kind: z.literal('beat'),
    every: positiveMinutes,
    units: count.optional(),
    whenFull,
    late,
  }),
  z.strictObject({ kind: z.literal('random'), gap: timeSchema, units: count.optional(), whenFull, late }),
  z.strictObject({ kind: z.literal('list'), arrivals: z.array(arrivalSchema).max(100_000), whenFull, late }),
  z.strictObject({ kind: z.literal('constant'), inside: z.int().min(1).max(100_000), whenFull, late }),
]);

export const carrySchema = z.strictObject({
  at: id.describe('The step it waits before, is worked at, or cures in.'),
  state: z
    .enum(['waiting', 'in hand', 'curing', 'put down', 'blocked'])
    .optional()
    .describe(
      'Default waiting (a unit after its cure waits in its clamps). Blocked: it has ended `at` and could not move on.',
    ),
  units: z.int().min(1).max(10_000).optional().describe('So many alike. Default 1.'),
  product: id.optional(),
  minutes: minutes
    .optional()
    .describe('In hand: already worked. Curing or put down: left. Default: none worked, a full time left.'),
  person: id.optional().describe('In hand: whose.'),
  gear: z.array(id).optional().describe('Taken gear it holds. Default: what the path says it holds here.'),
  visits: z
    .record(id, z.int().min(0).max(1000))
    .optional()
    .describe('Visits it already had, by step. Default: one at each step before.'),
  to: id.optional().describe('Blocked: the step it should go to. Default: the next one.'),
  arrived: minutes.optional().describe('Minutes before the start at which it came. Default 0.'),
  due: clock.optional(),
  rush: z.boolean().optional(),
  name: label.optional(),
});

export const holdSchema = z.strictObject({
  before: id.describe('The step before which it stands aside.'),
  until: clock,
  product: id.optional(),
  units: z.array(label).optional().describe('Named units (the names given in arrivals or carry-over).'),
  whose: label.optional().describe('Who has to decide.'),
});

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
  pay: z
    .strictObject({
      overtimeFactor: z.number().min(1).max(10).optional().describe('Default 1.5.'),
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
        .describe('Overtime pay after so many hours a week; null: never by the week. Default 40.'),
      doubleAfter: z
        .number()
        .min(0)
        .max(24)
        .nullable()
        .optional()
        .describe('Double time after so many hours a day. Default: never.'),
      doubleFactor: z.number().min(1).max(10).optional().describe('Default 2.'),
      seventhDay: z
        .boolean()
        .optional()
        .describe('Seventh day in a row is paid at the overtime factor, after 8 h at double. Default false.'),
    })
    .optional(),
  money: z
    .strictObject({
      currency: z.string().max(8).optional().describe('Default "$".'),
      margin: money.optional().describe('What one extra good unit brings in, material off.'),
      shiftsPerYear: z.number().gt(0).max(2000).optional().describe('Default 240.'),
      discount: percent
        .optional()
        .describe('Yearly discount rate for the present value, per cent. Default 8.'),
      benchPrice: money.optional(),
    })
    .optional(),
  limits: z
    .strictObject({
      vibration: z
        .record(id, z.number().min(0).max(100))
        .optional()
        .describe('By step: vibration of the tool, m/s2.'),
      trigger: z
        .record(id, percent)
        .optional()
        .describe('By step: per cent of the time the trigger is held. Default 100.'),
      vibrationPoints: z
        .number()
        .gt(0)
        .max(10_000)
        .optional()
        .describe('Most exposure points a day in an offered plan. Default 400.'),
      hoursPerDay: z.number().gt(0).max(24).optional(),
    })
    .optional(),
  study: z
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
        .describe('Half-width wanted on the difference, units a shift. Default 0.25.'),
      confidence: z.number().min(50).max(99.99).optional().describe('Default 95 %.'),
      difference: z
        .number()
        .gt(0)
        .max(1e6)
        .optional()
        .describe('The difference that matters, units a shift. Default 0.5.'),
      most: z.int().min(30).max(10_000_000).optional().describe('Most shifts an option. Default 20,000.'),
      promise: z
        .number()
        .min(1)
        .max(99.9)
        .optional()
        .describe(`Chance asked of a promise, per cent. Default ${DEFAULTS.study.promise}.`),
    })
    .optional(),
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

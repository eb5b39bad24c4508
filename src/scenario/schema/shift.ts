/** The shift: its hours, what comes in, what is there already, what stands aside. */
import { DEFAULTS } from '../defaults.ts';
import { minutes, positiveMinutes } from '../../duration/entries.ts';
import { timeSchema } from '../../duration/time.ts';
import { z } from '../../zod.ts';
import { clock } from './clock.ts';
import { id, label, count, breakSchema } from './common.ts';

export const overtimeSchema = z.strictObject({
  until: z
    .enum(['none', 'empty', 'target'])
    .optional()
    .describe('No overtime, until the cell is empty, or until the target is met. Default none.'),
  cap: minutes.optional().describe(`At most this many minutes. Default ${DEFAULTS.shift.overtime.cap}.`),
  who: z.array(id).optional().describe('Only these people. Default: everybody who may.'),
});

export const shiftSchema = z.strictObject({
  start: clock.optional().describe(`Default ${DEFAULTS.shift.start}.`),
  end: clock.optional().describe(`Default ${DEFAULTS.shift.end}. At or before the start: the next day.`),
  breaks: z.array(breakSchema).optional(),
  tidyUp: minutes
    .optional()
    .describe(`No new piece this many minutes before the end. Default ${DEFAULTS.shift.tidyUp}.`),
  atEnd: z
    .enum(['finish', 'put down'])
    .optional()
    .describe(`What happens to pieces in hand that can be put down. Default ${DEFAULTS.shift.atEnd}.`),
  allowance: z
    .number()
    .min(1)
    .max(3)
    .optional()
    .describe(`Factor on all hands times. Default ${DEFAULTS.shift.allowance}.`),
  target: count.nullable().optional().describe('Good units due this shift. Default none.'),
  overtime: overtimeSchema.optional(),
});

const arrivalSchema = z.strictObject({
  at: clock,
  units: z.int().min(1).max(100_000).optional(),
  product: id.optional(),
  due: clock.optional(),
  dueAfter: minutes
    .optional()
    .describe(
      'Due so many minutes after it has come, over several days too; instead of `due` and of what all have.',
    ),
  rush: z.boolean().optional(),
  name: label.optional(),
});
const whenFull = z
  .enum(['hold', 'divert'])
  .optional()
  .describe('Rack of the first step full: wait outside (default) or go elsewhere.');
const late = minutes
  .optional()
  .describe(`Everything comes this many minutes later. Default ${DEFAULTS.intake.late}.`);

const dueAfter = minutes
  .optional()
  .describe(
    'Every piece is due so many minutes after it has come, over several days too. Default: at no time.',
  );

export const intakeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('at start'), units: count, whenFull, late, dueAfter }),
  z.strictObject({
    kind: z.literal('beat'),
    every: positiveMinutes,
    units: count.optional(),
    whenFull,
    late,
    dueAfter,
  }),
  z.strictObject({
    kind: z.literal('random'),
    gap: timeSchema,
    units: count.optional(),
    whenFull,
    late,
    dueAfter,
  }),
  z.strictObject({
    kind: z.literal('list'),
    arrivals: z.array(arrivalSchema).max(100_000),
    whenFull,
    late,
    dueAfter,
  }),
  z.strictObject({
    kind: z.literal('constant'),
    inside: z.int().min(1).max(100_000),
    whenFull,
    late,
    dueAfter,
  }),
]);

export const carrySchema = z.strictObject({
  at: id.describe('The step it waits before, is worked at, or cures in.'),
  state: z
    .enum(['waiting', 'in hand', 'curing', 'put down', 'blocked'])
    .optional()
    .describe(
      'Default waiting (a unit after its cure waits in its clamps). Blocked: it has ended `at` and could not move on.',
    ),
  units: z.int().min(1).max(10_000).optional().describe(`So many alike. Default ${DEFAULTS.carried.units}.`),
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
  arrived: minutes
    .optional()
    .describe(`Minutes before the start at which it came. Default ${DEFAULTS.carried.arrived}.`),
  waited: minutes
    .optional()
    .describe(
      `Minutes it has stood in this line, or blocked, already: the oldest may go first. Default ${DEFAULTS.carried.waited}.`,
    ),
  due: clock.optional(),
  dueIn: z
    .number()
    .min(-1e6)
    .max(1e6)
    .optional()
    .describe(
      'Due so many minutes after the start, over several days too; under 0: overdue. Instead of `due`.',
    ),
  dueAfter: minutes
    .optional()
    .describe('Due so many minutes after it came (see `arrived`). Instead of `due` and `dueIn`.'),
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

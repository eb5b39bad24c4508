/**
 * The published form of what commands print with `--json`. Every such document says which form it has under
 * `output`; within a form fields are added, and none is taken away or given another meaning. A figure that
 * does not exist (a range from too few shifts, a lead time where nothing was good) is null.
 */
import { z } from '../zod.ts';
import { OUTPUT } from './version.ts';

const figure = z.number().nullable();
const text = z.string();
const about = (said: string) => text.describe(said);

const interval = z
  .looseObject({
    estimate: figure,
    low: figure,
    high: figure,
    half: figure.describe('(high - low) / 2'),
    luck: figure.describe('half the width for luck alone'),
    inputs: figure.describe('what is not known of the inputs adds: half^2 = luck^2 + inputs^2'),
    count: z.int().describe('observations behind it'),
    inARow: z.int().optional().describe('shifts in a row behind each observation; left out: one'),
    confidence: z.number(),
  })
  .describe('an average, or a chance, and how well it is known');
const range = z.looseObject({ estimate: figure, low: figure, high: figure });

const hangsOn = z
  .looseObject({ shares: z.array(z.looseObject({ input: text, share: figure })) })
  .nullable()
  .describe('which inputs the range hangs on; null where everything is known');

const spread = z.looseObject({
  nineInTen: figure,
  half: figure,
  oneInTen: figure,
  least: figure,
  most: figure,
  counts: z.array(z.looseObject({ value: figure, shifts: z.int() })),
  reached: z.array(z.looseObject({ value: figure, share: figure })),
  inside: figure,
});

const kpi = z.looseObject({
  name: about('as ISO 22400-2 calls it'),
  formula: text,
  meaning: text,
  unit: z.enum(['share', 'units an hour']),
  value: figure,
});

const shift = z.looseObject({
  name: text,
  start: about('HH:MM'),
  length: z.number().describe('minutes scheduled'),
  scalars: z.record(text, interval),
  goodSpread: spread,
  goodByHour: z.array(figure),
  rework: z.array(z.looseObject({ step: text, to: text, cause: text, perShift: figure })),
  lines: z.array(z.looseObject({ step: text, mean: interval, most: figure })),
  people: z.array(z.looseObject({ id: text, minutes: z.array(figure), overtime: z.array(figure) })),
  gear: z.array(z.looseObject({ id: text, count: z.int(), minutes: z.array(figure) })),
});

const aCase = z.looseObject({
  id: text,
  name: text,
  count: z.int(),
  shiftsInARow: z.int(),
  good: interval.describe('good units a shift'),
  total: interval.describe('of all shifts in a row'),
  hangsOn,
  spread,
  target: z.looseObject({ units: figure, chance: interval }).nullable(),
  overtimeChance: interval,
  overtime: interval.describe('minutes a shift'),
  cost: interval.describe('in the currency of the file, a shift'),
  costPerGood: figure,
  measures: z.record(text, interval).describe('by name; what they mean stands under measures'),
  shifts: z.array(shift),
});

const pair = z.looseObject({
  before: text,
  after: text,
  good: interval,
  overtime: interval,
  cost: interval,
  hangsOn,
});

const study = z.looseObject({
  kind: z.enum(['interim', 'final', 'partial']),
  count: z.int(),
  needed: z.int(),
  capped: z.boolean(),
  precision: z.number(),
  confidence: z.number(),
  seed: text,
  measures: z.array(z.looseObject({ name: text, unit: text, label: text, description: text })),
  cases: z.array(aCase),
  pairs: z.array(pair),
  inputs: z.array(z.looseObject({ id: text, name: text, deviation: figure })),
});

const eachOne = {
  study,
  rows: z.array(
    z.looseObject({
      id: text,
      kind: text,
      of: text,
      name: text,
      constraint: text,
      price: figure,
      gain: interval,
    }),
  ),
  constraint: z
    .array(text)
    .describe('what holds the cell back; empty where nothing surely gains what matters'),
};
const each = z.looseObject(eachOne);

const usual = z
  .looseObject({
    warmUp: z.int(),
    counted: z.int(),
    begins: figure,
    ends: figure,
    byShift: z.array(figure),
    pairs: z.array(pair),
  })
  .nullable();

const fault = z.looseObject({ path: text, found: text, allowed: text, remedy: text, text });
const cautions = z.array(z.looseObject({ topic: text, text }));

const document = <Fields extends z.ZodRawShape>(command: string, fields: Fields) =>
  z.looseObject({
    output: z.literal(OUTPUT).describe('the form of this document'),
    command: z.literal(command),
    version: about('of the program'),
    file: text,
    seed: text,
    ...fields,
  });

const answered = {
  partial: z.boolean().describe('stopped before it was done'),
  cautions,
  remarks: z.array(fault),
  again: z.array(text).describe('the words that give the same figures again'),
};
const applied = z.array(text);
const axis = z.looseObject({ typed: text, name: text, values: z.array(z.number()), told: z.array(text) });

const OUTPUTS = {
  run: document('run', { ...answered, applied, study, each: each.nullable(), kpis: z.array(kpi) }),
  compare: document('compare', {
    ...answered,
    options: z.array(text),
    study,
    usual,
    why: z.array(z.looseObject({ name: text, constraint: z.array(text) })).nullable(),
  }),
  'one-more': document('one-more', {
    ...answered,
    applied,
    study,
    usual,
    gear: z.looseObject({ id: text, name: text, count: z.int(), price: figure }),
    gain: interval,
    nextGain: interval,
    matters: z.number(),
    verdict: z.looseObject({ kind: text }).nullable(),
    then: z.looseObject({ ...eachOne, withOneMore: z.boolean() }).nullable(),
  }),
  limits: document('limits', { ...answered, ...eachOne, applied }),
  grid: document('grid', {
    ...answered,
    applied,
    down: axis,
    across: axis,
    grid: z.looseObject({
      columns: z.int(),
      target: figure,
      promise: z.number(),
      cells: z.array(
        z.looseObject({
          row: z.int(),
          column: z.int(),
          good: interval,
          chance: interval.nullable(),
          nineInTen: figure,
          cost: range,
          net: range.nullable(),
          price: figure,
          makes: z.enum(['yes', 'perhaps', 'no']).nullable(),
        }),
      ),
      cheapest: z.looseObject({ at: z.int(), sure: z.boolean() }).nullable(),
    }),
  }),
  record: document('record', {
    applied,
    replication: z.int(),
    start: about('HH:MM'),
    shifts: z.array(z.array(z.looseObject({ time: z.int().describe('milliseconds'), event: text }))),
    cautions,
  }),
  rows: document('rows', {
    question: text,
    from: z.int(),
    count: z.int(),
    cells: z.int(),
    saved: text,
  }),
};

/** Commands whose documents have a published schema. `merge` prints the document of its question. */
export const WITH_SCHEMA = Object.keys(OUTPUTS) as (keyof typeof OUTPUTS)[];

/** JSON Schema (2020-12) of a command's document. */
export function outputJsonSchema(command: keyof typeof OUTPUTS): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(OUTPUTS[command], {
    target: 'draft-2020-12',
    io: 'output',
    reused: 'ref',
  });
  return { $schema, title: `clampwright ${command} --json, form ${OUTPUT}`, ...rest };
}

/** What several documents of `--json` have in common. */
import { z } from '../../zod.ts';
import { OUTPUT } from '../version.ts';

export const figure = z.number().nullable();
export const text = z.string();
export const about = (said: string) => text.describe(said);

export const interval = z
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
export const range = z.looseObject({ estimate: figure, low: figure, high: figure });

export const hangsOn = z
  .looseObject({ shares: z.array(z.looseObject({ input: text, share: figure })) })
  .nullable()
  .describe('which inputs the range hangs on; null where everything is known');

const levelRange = z.looseObject({ low: figure, high: figure });

export const spread = z.looseObject({
  nineInTen: figure,
  half: figure,
  oneInTen: figure,
  ranges: z
    .looseObject({ nineInTen: levelRange, half: levelRange, oneInTen: levelRange })
    .describe('between what each of the three surely lies; null where too few shifts were run to say'),
  least: figure,
  most: figure,
  counts: z.array(z.looseObject({ value: figure, shifts: z.int() })),
  reached: z.array(z.looseObject({ value: figure, share: figure })),
  inside: figure,
});

export const kpi = z.looseObject({
  name: about('as ISO 22400-2 calls it'),
  formula: text,
  meaning: text,
  unit: z.enum(['share', 'units an hour']),
  value: figure,
});

export const shift = z.looseObject({
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

export const aCase = z.looseObject({
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

export const pair = z.looseObject({
  before: text,
  after: text,
  good: interval,
  overtime: interval,
  cost: interval,
  hangsOn,
});

export const study = z.looseObject({
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

export const eachOne = {
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
export const each = z.looseObject(eachOne);

export const usual = z
  .looseObject({
    warmUp: z.int(),
    counted: z.int(),
    begins: figure,
    ends: figure,
    byShift: z.array(figure),
    pairs: z.array(pair),
  })
  .nullable();

export const fault = z.looseObject({ path: text, found: text, allowed: text, remedy: text, text });
export const cautions = z.array(z.looseObject({ topic: text, text }));

/** What every command's document says of itself, and `fields`. */
export const document = <Name extends string, Fields extends z.ZodRawShape>(command: Name, fields: Fields) =>
  z.looseObject({
    output: z.literal(OUTPUT).describe('the form of this document'),
    command: z.literal(command),
    version: about('of the program'),
    ...fields,
  });

/** Of which file and seed it is. */
export const asked = { file: text, seed: text };

export const answered = {
  partial: z.boolean().describe('stopped before it was done'),
  cautions,
  remarks: z.array(fault),
  again: z.array(text).describe('the words that give the same figures again'),
};
export const applied = z.array(text);
export const axis = z.looseObject({
  typed: text,
  name: text,
  values: z.array(z.number()),
  told: z.array(text),
});

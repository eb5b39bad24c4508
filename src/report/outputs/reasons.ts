/** Why gear and people stood, as run, limits and replay give it. */
import { z } from '../../zod.ts';
import { figure, interval, text } from './shapes.ts';

const cause = z
  .looseObject({ kind: text })
  .describe('a closed list of kinds; numbers are places in the file, times minutes from the start');

export const minutesOf = z
  .looseObject({
    shifts: z.int().describe('added up'),
    length: figure.describe('minutes of one until its report closes'),
    of: z.array(
      z.looseObject({
        kind: z.enum(['person', 'gear']),
        id: text,
        name: text,
        count: z.int(),
        lines: z
          .array(
            z.looseObject({
              doing: text,
              why: text,
              behind: text,
              minutes: figure,
              first: cause.nullable(),
              last: cause.nullable(),
            }),
          )
          .describe('minutes a shift; they add up to the whole of it'),
      }),
    ),
  })
  .describe('where the minutes of one shift of the day went, by reason');

export const stood = z
  .looseObject({
    tightest: z
      .looseObject({ gear: text, minutes: figure, stood: figure, held: figure })
      .nullable()
      .describe('the gear that stands the smallest share of its minutes; held: by a good unit'),
    reasons: z.array(
      z.looseObject({
        reason: text,
        name: text,
        gear: z.record(text, figure).describe('minutes a shift by id'),
        people: figure,
        units: figure.describe('good units that the minutes of the tightest gear would hold'),
        tried: interval.nullable().describe('good units more with that alone put right; null: not tried'),
      }),
    ),
    words: z.array(text),
  })
  .describe('what stood, by what would have to be put right');

const told = z.looseObject({ kind: text, words: text });

export const replayed = z.looseObject({
  name: text,
  good: z.int(),
  ends: figure.describe('minutes from the start'),
  apart: z
    .array(
      z.looseObject({
        trait: z.looseObject({ kind: text }),
        value: figure,
        mean: figure,
        pieces: figure.describe('good units that go with such a difference'),
        words: text,
      }),
    )
    .describe('what set it apart from the others'),
  stands: z
    .array(
      z.looseObject({
        kind: z.enum(['gear', 'person']),
        name: text,
        from: figure,
        to: figure,
        lost: figure.describe('minutes of it in which pieces were there'),
        units: figure.describe('good units that these minutes would hold'),
        words: z.array(text),
        reasons: z.array(
          z.looseObject({
            from: figure,
            to: figure,
            there: z.int(),
            chain: z.array(told),
            others: z.array(told),
          }),
        ),
      }),
    )
    .describe('stretches in which something stood, the dearest first'),
  minutes: minutesOf,
  stood,
});

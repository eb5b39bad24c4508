/** Of one day or shift: now, handover, result, morning, replay; of the book of days; of lists of times. */
import { z } from '../../zod.ts';
import { about, answered, applied, asked, document, fault, figure, interval, text } from './shapes.ts';
import { replayed } from './reasons.ts';

const day = about('YYYY-MM-DD');
const inside = z.array(z.looseObject({ at: about('a step'), units: z.number().optional() }));
const counted = z
  .looseObject({
    at: about('HH:MM'),
    goodByHour: z.array(figure),
    good: figure.optional(),
    inside,
    holds: z.array(z.looseObject({})),
    out: z.array(text),
  })
  .describe('what stands in the cell');
const page = z
  .looseObject({ title: text, blocks: z.array(z.looseObject({ kind: text })) })
  .describe('as it is printed, block by block');

const hourLine = z.array(z.looseObject({ at: figure, low: figure, middle: figure, high: figure }));
const forecast = z.looseObject({
  now: counted,
  soFar: figure,
  ends: z.looseObject({ nineInTen: figure, half: figure, oneInTen: figure, mean: interval }),
  target: z.looseObject({ units: figure, chance: interval }).nullable(),
  overtime: interval.describe('minutes'),
  cost: interval.describe('of the rest'),
  plan: hourLine.describe('the day as it was planned, by the hour'),
  fact: z.array(z.looseObject({ at: figure, good: figure })),
  ahead: hourLine.describe('where it may go from now on'),
  over: z.boolean(),
  count: z.int(),
  seed: text,
});

const coverage = z
  .looseObject({
    count: z.int(),
    inside: z.int(),
    below: z.int(),
    above: z.int(),
    share: interval,
    claimed: z.number(),
    verdict: z.enum(['holds', 'too narrow', 'too wide', 'too few to say']),
    bias: figure,
    lean: interval,
    run: z.looseObject({ side: z.enum(['under', 'over']), count: z.int() }).nullable(),
    overTime: z.array(z.looseObject({ date: day, good: figure, inside: z.boolean(), share: figure })),
    target: z.looseObject({ count: z.int(), met: z.int(), expected: figure }),
  })
  .describe('how the forecasts came out so far');

const unread = z.array(z.unknown()).describe('lines that could not be read');
const drift = z.looseObject({
  step: text,
  count: z.int(),
  ratio: figure.describe('times as long as in the file'),
  low: figure,
  high: figure,
  verdict: z.enum(['slower', 'quicker', 'as before', 'cannot tell']),
});
const logDay = z.looseObject({ date: day, target: figure.optional(), good: figure.optional() });

export const DAYS = {
  now: document('now', {
    file: text,
    seed: text.optional(),
    day: day.nullable().optional(),
    sum: z
      .looseObject({ opening: figure, came: figure, good: figure, inside: figure, missing: figure })
      .nullable()
      .optional(),
    forecast: forecast.optional(),
    moves: z
      .array(
        z.looseObject({
          move: z.looseObject({ id: text, kind: text, name: text }),
          gain: interval,
          chance: interval.nullable(),
          overtime: interval,
        }),
      )
      .nullable()
      .optional(),
    now: counted.optional().describe('with --handover, which has no forecast'),
    handover: page.optional(),
  }),
  handover: document('handover', { day, now: counted, promised: z.unknown(), handover: page }),
  result: document('result', { day, result: z.looseObject({ good: figure }), coverage }),
  morning: document('morning', { day, lines: z.array(z.looseObject({ what: text, text, to: text })) }),
  replay: document('replay', {
    ...asked,
    applied,
    replication: z.int(),
    kind: text,
    shifts: z.array(replayed),
    cautions: answered.cautions,
    remarks: answered.remarks,
    again: answered.again,
  }),
  times: document('times', {
    ...asked,
    list: about('the file of the list'),
    columns: z.array(z.looseObject({ column: text, role: text })),
    read: z.looseObject({
      observations: z.array(
        z.looseObject({ step: text, minutes: figure, repeat: z.boolean(), row: z.int() }),
      ),
      unread: z.array(z.unknown()),
    }),
    study: z.looseObject({
      places: z.array(
        z.looseObject({
          fit: z.looseObject({ step: text, count: z.int(), mean: figure, why: text }),
          drift: drift.nullable(),
        }),
      ),
      unseen: z.array(z.looseObject({ step: text })),
    }),
    forecast: z.unknown().describe('what the times leave open of the forecast, where it was asked for'),
  }),
  'log show': document('log show', {
    log: z.looseObject({ cell: text, days: z.array(logDay) }),
    unread,
    coverage,
    drifts: z.array(drift),
  }),
  // What log add and log forecast print.
  log: document('log', { day: logDay, coverage }),
  'log why': document('log why', {
    date: day,
    day: z.looseObject({ good: figure.optional() }),
    why: z.looseObject({
      planned: interval,
      good: figure,
      parts: z.array(z.looseObject({ cause: text, units: interval, told: z.boolean() })),
      asFew: figure.describe('share of planned shifts that come out as low'),
      count: z.int(),
    }),
  }),
  'log import': document('log import', { days: z.int(), added: z.int(), unread, coverage }),
  'log new-times': document('log new-times', {
    places: z.array(
      z.looseObject({
        step: text,
        before: figure.describe('minutes, the mean of the file'),
        after: figure.describe('minutes, the mean of the last days'),
      }),
    ),
    study: z.looseObject({}).nullable().describe('the cell with the new times against as it is'),
  }),
  'log join': document('log join', {
    log: about('the file that was added to'),
    added: z.int(),
    already: z.int(),
    unread,
  }),
};

const explained = { name: text, label: text, unit: text, description: text };

/** What is the same for every cell, and what is told where there is no answer. */
export const OTHERS = {
  measures: document('measures', {
    measures: z.array(z.looseObject(explained)),
    lists: z.array(z.looseObject(explained)),
    kpis: z.array(z.looseObject({ name: text, formula: text, meaning: text, unit: text })),
  }),
  questions: document('questions', {
    questions: z.array(z.looseObject({ number: z.int(), words: text, ask: z.array(z.array(text)) })),
    whatIfs: z.array(z.looseObject({ word: text, group: text, takes: text, says: text, example: text })),
  }),
};

/** Instead of an answer, where something is wrong; the exit code is not 0. */
export const TROUBLE = z.looseObject({
  kind: z.literal('wrong'),
  exitCode: z.int(),
  problem: text,
  faults: z.array(fault),
});

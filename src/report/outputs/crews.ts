/** Of who stands where: crew, week, learn; and of what to do: ledger, brief. */
import { z } from '../../zod.ts';
import {
  about,
  aCase,
  answered,
  applied,
  asked,
  cautions,
  document,
  each,
  fault,
  figure,
  interval,
  pair,
  shift,
  spread,
  study,
  text,
  usual,
} from './shapes.ts';

const scenario = z.looseObject({ format: z.int(), name: text }).describe('as in a file: schema without --of');
const changes = z.record(text, z.unknown()).describe('a JSON merge patch of the file');
const minutesFromStart = z.number().describe('minutes from the start of the shift');

const sheet = z.looseObject({
  cell: text,
  start: about('HH:MM'),
  length: z.number().describe('minutes'),
  people: z.array(
    z.looseObject({
      id: text,
      name: text,
      from: minutesFromStart,
      to: minutesFromStart,
      posts: z.array(
        z.looseObject({
          from: minutesFromStart,
          to: minutesFromStart,
          steps: z.array(z.looseObject({ id: text, name: text })),
        }),
      ),
      breaks: z.array(z.looseObject({ from: minutesFromStart, minutes: z.number() })),
      overtime: z.number(),
    }),
  ),
  ruleSentences: z.array(text),
  lastStarts: z.array(z.looseObject({ step: text, name: text, at: minutesFromStart })),
});

const planRow = {
  good: interval,
  chance: interval.nullable(),
  promiseChance: interval.nullable(),
  cost: interval,
  worth: figure.describe('margin times wanted units less cost, a shift'),
};

const plan = z.looseObject({
  cell: text,
  seed: text,
  kind: z.enum(['makes', 'promises', 'nothing', 'over the limit']),
  target: figure,
  confidence: z.number(),
  promise: figure.describe('the most that can be promised at the confidence, units'),
  chance: interval.nullable().describe('of the target'),
  promiseChance: interval.nullable(),
  scenario,
  changes: changes.describe('a JSON merge patch that makes the plan of the file'),
  sheet,
  study,
  row: z.looseObject(planRow),
  filed: z.looseObject({ ...planRow, sheet, isPlan: z.boolean(), overLimit: figure }),
  moves: z.array(z.looseObject({})).nullable(),
  overtime: z.array(z.looseObject({ id: text, name: text, minutes: interval, asked: z.number() })),
  exposure: z.array(z.looseObject({ id: text, name: text, points: figure, high: figure, over: figure })),
  constraint: each.nullable(),
  runnerUp: z.looseObject({ ...planRow, sheet, changes, lostBy: text }).nullable(),
  absences: z
    .array(
      z.looseObject({
        id: text,
        name: text,
        best: z.enum(['same plan', 'other posts', 'nothing']),
        uncovered: z.array(text),
        spread: spread.nullable(),
        chance: interval.nullable(),
        loses: interval.nullable(),
        sheet: sheet.nullable(),
      }),
    )
    .nullable(),
  wouldDo: z
    .array(
      z.looseObject({
        kind: text,
        name: text,
        price: figure,
        chance: interval,
        enough: z.enum(['yes', 'perhaps', 'no']),
      }),
    )
    .nullable(),
  search: z.looseObject({ kind: z.enum(['all', 'searched']), tried: z.int(), capped: z.boolean() }),
});

const ledger = z.looseObject({
  rows: z.array(
    z.looseObject({
      id: text,
      group: text,
      name: text,
      price: figure,
      about: text,
      alone: pair.nullable(),
      after: pair.nullable(),
    }),
  ),
  first: z.array(text).describe('free fixes to do, by id, each on top of those before it'),
  together: pair.nullable(),
  usual,
  priced: usual,
});

const week = z.looseObject({
  days: z.array(z.looseObject({ day: text, crew: text, scenario })),
  opening: z.looseObject({ kind: text }),
  shifts: z.array(shift),
  total: aCase,
  orders: z.array(z.looseObject({})),
  pushedBack: z.array(z.looseObject({})),
  hours: z.array(
    z.looseObject({
      id: text,
      name: text,
      days: z.array(figure).describe('hours by day'),
      hours: figure,
      overtimeMinutes: figure,
      premiumHours: figure,
    }),
  ),
  count: z.int(),
  seed: text,
});

export const CREWS = {
  crew: document('crew', {
    ...asked,
    ...answered,
    applied,
    day: text.nullable(),
    plan,
    tried: z.unknown().describe('the plan of the file’s own words, where one was asked for'),
    training: z.unknown().describe('whom to train next, where it was asked for'),
  }),
  week: document('week', { file: text, week }),
  learn: document('learn', {
    cell: text,
    step: text,
    currency: text,
    brings: figure.describe('a good unit, in the currency'),
    cost: figure.describe('of the newcomer, a shift'),
    found: z.array(z.looseObject({ factor: z.number(), gain: interval })),
    answer: z.looseObject({
      days: z.array(
        z.looseObject({ day: z.int(), factor: z.number(), pieces: figure, net: figure, sum: figure }),
      ),
      paysFrom: figure.describe('the day from which it pays'),
      backOn: figure.describe('the day on which it is earned back'),
    }),
    first: z.number().describe('times as long on the first day'),
    rate: z.number().describe('so much of the time, when what was done has doubled'),
    words: z.array(text),
  }),
  ledger: document('ledger', {
    ...asked,
    ...answered,
    applied,
    says: z.array(text),
    ledger: ledger.nullable(),
  }),
  brief: document('brief', {
    ...asked,
    applied,
    partial: z.boolean(),
    title: text,
    data: z.looseObject({
      question: z.looseObject({ kind: text }),
      answer: z.looseObject({ kind: text }),
      staircase: z.looseObject({}).nullable(),
      sensitivity: z.looseObject({}).nullable(),
      ledger: ledger.nullable(),
    }),
    remarks: z.array(fault),
    again: about('the words that give the same figures again, as one line'),
  }),
  check: document('check', { file: text, kind: z.literal('fine'), remarks: z.array(fault), cautions }),
};

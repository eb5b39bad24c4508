/**
 * What an entry of each kind holds. One more kind is one line here. Fields that a later version adds are let
 * be, so that an older program which joins two books hands them on.
 */
import { z } from '../zod.ts';

/** Good units; a forecast's middle may lie between two whole ones. */
export const unitsSchema = z.number().min(0).max(1e6);

/** Good units that one shift in ten stays under, half, one in ten passes; chance of the target, 0 to 1. */
export const forecastSchema = z.looseObject({
  p10: unitsSchema,
  p50: unitsSchema,
  p90: unitsSchema,
  chance: z.number().min(0).max(1).nullable(),
});

/** A time read off the record of the day, minutes, the allowance in it. */
export const timeTakenSchema = z.looseObject({
  step: z.string(),
  product: z.string().nullable(),
  person: z.string().nullable(),
  minutes: z.number().gt(0).max(100_000),
  repeat: z.boolean(),
});

/** "HH:MM", 24 hours. */
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a clock time as HH:MM, for example 10:40');
const name = z.string().max(120);
/** Of a scenario's own form: looked at by the scenario's check when the cell is at hand, not here. */
const parts = z.array(z.record(z.string(), z.unknown())).max(10_000);
const counted = z.record(z.string().max(200), unitsSchema);

/** What stands where at a minute of the shift, as the page and the command line count it. */
const countSchema = z.looseObject({
  at: clock,
  good: unitsSchema.optional(),
  goodByHour: z.array(unitsSchema).max(48).optional(),
  inside: parts.optional(),
  holds: parts.optional(),
  out: z.array(name).max(1000).optional(),
  broken: parts.optional(),
  outRack: z.looseObject({ standing: unitsSchema, away: z.array(z.number().min(0)).max(1000) }).optional(),
});

export const CONTENT = {
  /** Who stands where and when, as a change to the cell's file; what is due and what is promised of it. */
  plan: z.looseObject({
    changes: z.record(z.string(), z.unknown()),
    target: unitsSchema.nullable().optional(),
    /** Good units, and the chance (0 to 1) that a shift makes them. */
    promise: z
      .looseObject({ units: unitsSchema, chance: z.number().min(0).max(1) })
      .nullable()
      .optional(),
    /** In sentences: what the plan answers. */
    answer: z.array(z.string().max(2000)).max(50).optional(),
    /** Which state of the cell it was made of; another one: the plan is of an older cell. */
    of: z.string().max(100).optional(),
  }),
  /** What was said before the shift, and what was due; `start` is the shift's, by the clock on the wall. */
  forecast: z.looseObject({
    forecast: forecastSchema,
    target: unitsSchema.nullable().optional(),
    start: clock.optional(),
  }),
  /** One of several a day: those of one clock time stand in for each other. */
  count: countSchema,
  /** A batch put aside until somebody decides, over as many days as it takes; `over`: it is decided. */
  hold: z.looseObject({
    name,
    before: name.optional(),
    whose: name.optional(),
    over: z.boolean().optional(),
  }),
  /** What stands where when the shift hands over: the opening stock of the next working day. */
  handover: countSchema.extend({
    promised: z.string().max(500).optional(),
    note: z.string().max(2000).optional(),
  }),
  /** What came. */
  result: z.looseObject({
    good: unitsSchema,
    target: unitsSchema.nullable().optional(),
    byHour: z.array(unitsSchema).max(48).optional(),
    /** Pieces by cause, in words. */
    scrap: counted.optional(),
    rework: counted.optional(),
    /** Minutes by person. */
    overtime: counted.optional(),
  }),
  /** The record of the shift, as `record` writes it (comma-separated values). */
  record: z.looseObject({ events: z.string().max(15_000_000) }),
  /** Takes an earlier entry back, or an earlier taking back: nothing is ever lost. */
  correction: z.looseObject({ undoes: z.string().min(1).max(100), why: z.string().max(500).optional() }),
  /** What is due, where neither a forecast nor a result says it. */
  target: z.looseObject({ target: unitsSchema.nullable() }),
  note: z.looseObject({ note: z.string().max(2000) }),
  times: z.looseObject({ times: z.array(timeTakenSchema).max(20_000) }),
};

export type Kind = keyof typeof CONTENT;
export const KINDS = Object.keys(CONTENT) as Kind[];
export type Content<K extends Kind> = z.infer<(typeof CONTENT)[K]>;

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

export const CONTENT = {
  /** What was said before the shift, and what was due. */
  forecast: z.looseObject({ forecast: forecastSchema, target: unitsSchema.nullable().optional() }),
  /** What came. */
  result: z.looseObject({ good: unitsSchema, target: unitsSchema.nullable().optional() }),
  /** What is due, where neither a forecast nor a result says it. */
  target: z.looseObject({ target: unitsSchema.nullable() }),
  note: z.looseObject({ note: z.string().max(2000) }),
  times: z.looseObject({ times: z.array(timeTakenSchema).max(20_000) }),
};

export type Kind = keyof typeof CONTENT;
export type Content<K extends Kind> = z.infer<(typeof CONTENT)[K]>;

/** Fields that several parts of the file have. */
import { positiveMinutes } from '../../duration/entries.ts';
import { z } from '../../zod.ts';
import { clock } from './clock.ts';

export const id = z
  .string()
  .regex(
    /^(?!constructor$)[a-z][a-z0-9-]{0,39}$/,
    'use small letters, digits and hyphens, beginning with a letter',
  )
  .describe('A short name used inside the file: small letters, digits and hyphens.');

export const label = z.string().max(120).describe('The name people see.');

export const origin = z.string().max(500).describe('Where a time comes from, in words.');

export const percent = z.number().min(0).max(100);

export const factor = z.number().gt(0).max(20);

export const money = z.number().min(0).max(1e9);

export const count = z.int().min(0).max(100_000);

export const breakSchema = z.strictObject({
  from: clock,
  minutes: positiveMinutes,
  name: label.optional(),
  paid: z.boolean().optional().describe('Paid like work. Default true.'),
});

/** A time of day. */
import { z } from '../../zod.ts';

export const clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'write a clock time as HH:MM, for example 06:00')
  .describe('Clock time, HH:MM, 24 hours.');

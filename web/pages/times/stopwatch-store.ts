/**
 * Pieces being timed and times taken, kept in this browser at every touch: a tablet that sleeps or is closed
 * loses nothing.
 */
import { z } from '../../../src/zod.ts';
import type { Observation } from '../../../src/timing/observation.ts';

const timed = z.object({
  id: z.string(),
  step: z.string(),
  product: z.string().nullable(),
  person: z.string().nullable(),
  began: z.number(),
});
const taken = z.object({
  id: z.string(),
  step: z.string(),
  product: z.string().nullable(),
  person: z.string().nullable(),
  began: z.number(),
  minutes: z.number(),
});
const keptSchema = z.object({ running: z.array(timed), taken: z.array(taken) });
export type Running = z.infer<typeof timed>;
export type Taken = z.infer<typeof taken>;
export type Kept = z.infer<typeof keptSchema>;

const KEY = 'clampwright-stopwatch';

function all(): Record<string, unknown> {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
  } catch {
    return {};
  }
}

export function takenFor(cell: string): Kept {
  const read = keptSchema.safeParse(all()[cell]);
  return read.success ? read.data : { running: [], taken: [] };
}

/** False where this browser keeps nothing. */
export function keepTaken(cell: string, kept: Kept): boolean {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...all(), [cell]: kept }));
    return true;
  } catch {
    return false;
  }
}

/** What the stopwatch took, as observations; rows are their places. */
export const observationsOf = (kept: Kept): Observation[] =>
  kept.taken.map((one, i) => ({
    step: one.step,
    product: one.product,
    person: one.person,
    minutes: one.minutes,
    rating: null,
    repeat: false,
    date: new Date(one.began).toISOString().slice(0, 10),
    row: i + 1,
  }));

/**
 * Pieces being timed and times taken, kept in this browser at every touch: a tablet that sleeps or is closed
 * loses nothing.
 */
import { z } from '../../../src/zod.ts';
import type { Observation } from '../../../src/timing/observation.ts';
import { mergeById, Own } from '../../store/own.ts';

const timed = z.object({
  id: z.string(),
  step: z.string(),
  product: z.string().nullable(),
  person: z.string().nullable(),
  began: z.number(),
  /** Ms that it was stopped so far; and since when it is stopped, null while it runs. */
  stopped: z.number().default(0),
  stoppedAt: z.number().nullable().default(null),
});
const taken = z.object({
  id: z.string(),
  step: z.string(),
  product: z.string().nullable(),
  person: z.string().nullable(),
  began: z.number(),
  minutes: z.number(),
  /** Struck out: kept and shown, in no figure. */
  struck: z.boolean().default(false),
});
const keptSchema = z.object({ running: z.array(timed), taken: z.array(taken) });
export type Running = z.infer<typeof timed>;
export type Taken = z.infer<typeof taken>;
export type Kept = z.infer<typeof keptSchema>;

const NONE: Kept = { running: [], taken: [] };

const kept = new Own<Kept>({
  key: 'clampwright-stopwatch',
  name: 'times taken with the stopwatch',
  read: (value) => {
    const read = keptSchema.safeParse(value);
    return read.success ? read.data : null;
  },
  // Two benches, two tabs: what either took is there. A piece ended in one no longer runs in the other.
  merge: (base, theirs, ours) => {
    const before = base ?? NONE;
    const all = mergeById(before.taken, theirs.taken, ours.taken);
    const ended = new Set(all.map(({ id }) => id));
    const running = mergeById(before.running, theirs.running, ours.running);
    return { running: running.filter(({ id }) => !ended.has(id)), taken: all };
  },
});

export const takenFor = (cell: string): Kept => kept.get(cell) ?? NONE;

/** What is kept now, another tab's times with ours; null where this browser keeps nothing. */
export const keepTaken = (cell: string, one: Kept): Kept | null => kept.set(cell, one);

/** Told of what another tab takes for this cell. Returns the way to stop. */
export const watchTaken = (cell: string, told: (now: Kept) => void): (() => void) => kept.watch(cell, told);

/** What the stopwatch took, as observations; rows are their places. */
export const observationsOf = (kept: Kept): Observation[] =>
  kept.taken.flatMap((one, i) => (one.struck ? [] : [observationOf(one, i)]));

const observationOf = (one: Taken, i: number): Observation => ({
  step: one.step,
  product: one.product,
  person: one.person,
  minutes: one.minutes,
  rating: null,
  repeat: false,
  date: new Date(one.began).toISOString().slice(0, 10),
  row: i + 1,
});

/** Ms that a piece has been timed at an instant, stops not counted. */
export const timedMs = ({ began, stopped, stoppedAt }: Running, now: number): number =>
  Math.max(0, (stoppedAt === null ? now : stoppedAt) - began - stopped);

/** Stopped where it runs, running again where it is stopped. */
export const turned = (piece: Running, now: number): Running =>
  piece.stoppedAt === null
    ? { ...piece, stoppedAt: now }
    : { ...piece, stopped: piece.stopped + now - piece.stoppedAt, stoppedAt: null };

/** A time of the scenario file: what it may look like, and the curve that knows the rest of it. */
import { z } from '../zod.ts';
import type { Curve } from './curve.ts';
import { CURVES } from './curves.ts';

type Known = (typeof CURVES)[number];

/** Minutes, as one of the curves has them. */
export type Time = z.output<Known['schema']>;
export type TimeKind = Known['kind'];

/** How long something takes, in minutes: a plain number (always the same) or one of the curves. */
export const timeSchema: z.ZodType<Time, Time> = z
  .union(CURVES.map((curve): z.ZodType<Time, Time> => curve.schema))
  .describe('How long it takes, in minutes.');

/** The curves, each seen as one that takes any time: true of the one that says the time is its own. */
const SEEN = CURVES as unknown as readonly Curve<TimeKind, Time>[];

/** The curve of a time, also of one whose numbers are wrong. Throws a RangeError where it is no time. */
export function curveOf<T extends Time>(time: T): Curve<TimeKind, T> {
  const found = SEEN.find((curve) => curve.is(time));
  if (found === undefined) throw new RangeError(`no curve for the time ${JSON.stringify(time)}`);
  return found as Curve<TimeKind, Time> as unknown as Curve<TimeKind, T>;
}

/** Throws a RangeError for a kind that is not in the list. */
export function curveNamed(kind: TimeKind): Curve<TimeKind, Time> {
  const found = SEEN.find((curve) => curve.kind === kind);
  if (found === undefined) throw new RangeError(`no curve of the kind ${kind}`);
  return found;
}

/** Kinds and what a page calls them, in the order of the list. */
export const timeChoices = (): { value: TimeKind; label: string }[] =>
  SEEN.map(({ kind, words }) => ({ value: kind, label: words.choice }));

/** Whether a file may say so: the shape of a time, and nothing wrong with it. */
export const isTime = (time: Time): boolean =>
  timeSchema.safeParse(time).success && curveOf(time).faults(time).length === 0;

/** Times that somebody left out: they stay in the list and are shown, and come in again when asked. */
import type { Observation } from './observation.ts';

/** A time among the others, for a person to leave out or take in. */
export interface TimeSeen {
  key: string;
  minutes: number;
  /** Row of the list, or the how manieth of the stopwatch. */
  row: number;
  date: string | null;
}

/** The same time of the same list, however often it is read. */
export const timeKey = ({ row, step, minutes, date }: Observation): string =>
  [row, step, minutes, date].join(' ');

export const asSeen = (one: Observation): TimeSeen => ({
  key: timeKey(one),
  minutes: one.minutes,
  row: one.row,
  date: one.date,
});

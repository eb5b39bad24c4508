/** What the files of the theory cases have in common. */
import type { Measure } from '../case.ts';

/** Shifts of so many hours each, one that warms up and `measured` that follow. */
export interface Length {
  hours: number;
  measured: number;
}

const clockOf = (hour: number): string => `${String(hour % 24).padStart(2, '0')}:00`;
/**
 * What is in hand at the end of a shift is put down and goes on in the next, so that the shifts make one long
 * run.
 */
const ON_AND_ON = { atEnd: 'put down' };

/**
 * A file of shifts that follow each other without a gap: one that warms up, then those measured. The rest is
 * the case's.
 */
export const steady =
  (file: Record<string, unknown>) =>
  ({ hours, measured }: Length): unknown => ({
    format: 1,
    shift: { start: clockOf(0), end: clockOf(hours), ...ON_AND_ON },
    ...file,
    nextShifts: Array.from({ length: measured }, (_, at) => {
      const from = (at + 1) * hours;
      return {
        days: Math.floor(from / 24),
        changes: { shift: { start: clockOf(from), end: clockOf(from + hours) } },
      };
    }),
  });
/** A file of one shift, from its start. */
export const single = (file: Record<string, unknown>) => (): unknown => ({
  format: 1,
  shift: { start: '00:00', end: '00:00', ...ON_AND_ON },
  ...file,
});

export const exponential = (mean: number): unknown => ({ curve: 'exponential', mean });
export const atRandom = (gap: number, more: Record<string, unknown> = {}): unknown => ({
  kind: 'random',
  gap: exponential(gap),
  ...more,
});
/** So many people who all cover the same. */
export const people = (
  count: number,
  name: string,
  covers: string[],
  more: Record<string, unknown> = {},
): Record<string, unknown> =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`${name}${i + 1}`, { covers, ...more }]));

type Extra = Pick<Measure, 'printed' | 'not'>;

/**
 * Times in a file are scaled, so that a day holds tens of thousands of pieces; figures are told in the
 * source's own units.
 * @param unit minutes of the file that are one of the source's units of time.
 */
export function measuresIn(unit: number) {
  return {
    /** Good units per unit of time. */
    rate: (name: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => shift.scalar('good'),
      per: (shift) => shift.scalar('length') / unit,
    }),
    /** Units that begin a step, per unit of time. */
    begun: (name: string, step: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => shift.starts(step),
      per: (shift) => shift.scalar('length') / unit,
    }),
    /** Mean number in a step's line. */
    waiting: (name: string, step: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => shift.line(step) * shift.scalar('length'),
      per: (shift) => shift.scalar('length'),
    }),
    /** Mean number in a step's line and at it. */
    inside: (name: string, step: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => shift.line(step) * shift.scalar('length') + shift.worked(step),
      per: (shift) => shift.scalar('length'),
    }),
    /** Mean wait in a step's line. */
    wait: (name: string, step: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => shift.waited(step) / unit,
      per: (shift) => shift.starts(step),
    }),
    /** Arrival to good. */
    lead: (name: string, expected: number, extra: Extra = {}): Measure => ({
      name,
      expected,
      ...extra,
      of: (shift) => (shift.scalar('leadMean') * shift.scalar('good')) / unit,
      per: (shift) => shift.scalar('good'),
    }),
  };
}

/** A scalar of the report itself, mean over the shifts, divided by `unit`. */
export const mean = (name: string, of: Measure['of'], expected: number, extra: Extra = {}): Measure => ({
  name,
  expected,
  ...extra,
  of,
  per: () => 1,
});

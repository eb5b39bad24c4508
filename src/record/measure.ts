/**
 * What an entry of the table of measures says: its name and words, where its value comes from, and how the
 * shifts of a day combine. Places in a row, resets, the day's figures, the JSON, tables and the list of
 * measures all follow from the entries, so nothing about a measure is written anywhere else.
 */
import type { Recorder } from '../engine/recorder.ts';
import type { Accounts } from './accounts.ts';
import type { ReportLayout } from './report.ts';

/** Shares are 0 to 1; `yes` is 1 or 0; money is in the file's currency. */
export type MeasureUnit = 'units' | 'minutes' | 'share' | 'yes' | 'money' | 'money a unit' | 'racks';

/** How the values of the shifts of a day make the day's. */
export type DayRule =
  /** They add up; the day's value over the number of its shifts is the value a shift. */
  | { kind: 'sum' }
  /** What the last shift says: what is left over, or a time of the last shift. */
  | { kind: 'last' }
  /** The largest. */
  | { kind: 'most' }
  /** 1 where it is 1 in every shift, else 0. */
  | { kind: 'all' }
  /** The mean, each shift counting as often as `by` (their sum) says; not at all where that is 0. */
  | { kind: 'mean'; by: readonly Measure[] }
  /** One day value over another; NaN where that is 0. */
  | { kind: 'ratio'; of: Measure; over: Measure };

interface Words<Name extends string> {
  /** In rows and JSON. */
  name: Name;
  unit: MeasureUnit;
  /** Heads a row of a table. */
  label: string;
  /** A sentence for whoever reads the figures. */
  description: string;
}

/** What a measure keeps during a shift, by the values a shift begins with. */
export type Kept = Record<string, number>;

/** Called for a fact with what the measure keeps and what the recorder is told. */
export type Hears<K extends Kept> = {
  [Fact in keyof Recorder]?: (kept: K, ...told: Parameters<Recorder[Fact]>) => void;
};

/**
 * One number a shift, NaN where it does not exist in it. Either read off the accounts, or grown from the
 * facts it hears: then the table makes what it `keeps` anew for every shift.
 */
export interface Measure<Name extends string = string> extends Words<Name> {
  day: DayRule;
  /** Null where the accounts are enough. */
  heard: { keeps: Kept; hears: Hears<Kept> } | null;
  read: (accounts: Accounts, kept: Kept) => number;
}

export const readMeasure = <const Name extends string>(
  entry: Words<Name> & { day: DayRule; read: (accounts: Accounts) => number },
): Measure<Name> => ({ ...entry, heard: null });

/**
 * For a measure that the accounts are not enough for.
 *
 * @public No measure that ships needs it; the test that adds one does.
 */
export const heardMeasure = <const Name extends string, K extends Kept>(
  entry: Words<Name> & {
    day: DayRule;
    keeps: K;
    hears: Hears<NoInfer<K>>;
    read: (kept: NoInfer<K>, accounts: Accounts) => number;
  },
): Measure<Name> => {
  const { keeps, hears, read, ...words } = entry;
  return {
    ...words,
    heard: { keeps, hears: hears as Hears<Kept> },
    // What is kept has the keys of `keeps`, since it is made from it.
    read: (accounts, kept) => read(kept as K, accounts),
  };
};

/** What a list of numbers is counted along. */
export type Axis = 'hours' | 'causes' | 'steps' | 'bins' | 'people' | 'personStates' | 'gear' | 'gearStates';

/** Many numbers a shift, told shift by shift: the shifts of a day may differ in their crews and hours. */
export interface ListMeasure<Name extends string = string> extends Words<Name> {
  /** A matrix is row by row. */
  per: readonly [Axis] | readonly [Axis, Axis];
  /** Writes its numbers from `at` on; every one of them, since the row may hold those of an earlier shift. */
  write: (accounts: Accounts, row: Float64Array, at: number) => void;
}

export const listMeasure = <const Name extends string>(entry: ListMeasure<Name>): ListMeasure<Name> => entry;

/** Numbers of a list measure in a row. */
export const sizeOf = ({ per }: ListMeasure, sizes: ReportLayout['sizes']): number =>
  per.reduce((product, axis) => product * sizes[axis], 1);

/**
 * What set one shift apart from the others: its kits, people, times, rework and gear beside theirs, each with
 * the good pieces that go with such a difference as a rule (the straight line through all the shifts).
 */
import { NOT_IN, OUT_OF_ORDER, workingAt } from '../engine/states.ts';
import type { Came } from '../record/why/sums.ts';
import { layoutOfShift } from '../record/layout.ts';
import { scalarAt, type ReportLayout } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';

/** Numbers are places in the resolved shift; `cause` in the layout's list. */
export type Trait =
  /** Minutes of a shift that the person was not in. */
  | { kind: 'not in'; person: number }
  /** Minutes a start of the step took. */
  | { kind: 'minutes a piece'; step: number }
  | { kind: 'sent back'; cause: number }
  | { kind: 'scrap' }
  | { kind: 'arrived' }
  /** Minutes out of order. */
  | { kind: 'gear out'; gear: number }
  /** The minute by which so many pieces had come in. */
  | { kind: 'come by'; pieces: number };

export interface Apart {
  trait: Trait;
  /** Of this shift, and the mean of all. */
  value: number;
  mean: number;
  /** Good pieces more (or fewer) than on average that go with it. */
  pieces: number;
}

/** What a shift made, and what it makes on average. */
export interface Beside {
  own: number;
  mean: number;
}

export function besideOthers(shift: ResolvedShift, rows: Float64Array, replication: number): Beside {
  const layout = layoutOfShift(shift);
  const good = column(layout, rows, (row) => row[scalarAt(layout, 'good')]!);
  return { own: good[replication]!, mean: meanOf(good) };
}

/** Told from what other shifts do: over so many standard deviations away. */
const FAR = 1;
/** Good pieces that are worth a word. */
const WORTH_A_WORD = 0.3;

/**
 * The differences of one replication that go with its making more or fewer than the mean, the greatest first.
 * `rows` are those of one shift of a day, by replication; `came` is when its pieces came, beside all.
 */
export function whatSetApart(
  shift: ResolvedShift,
  rows: Float64Array,
  replication: number,
  came: { by: number; all: Came } | null = null,
): Apart[] {
  const layout = layoutOfShift(shift);
  const count = rows.length / layout.size;
  const good = column(layout, rows, (row) => row[scalarAt(layout, 'good')]!);
  const own = good[replication]! - meanOf(good);
  const each = traitsOf(shift, layout).flatMap(({ trait, of }): Apart[] => {
    const values = filled(column(layout, rows, of));
    if (Number.isNaN(of(rows.subarray(replication * layout.size, (replication + 1) * layout.size))))
      return [];
    const mean = meanOf(values);
    const spread = Math.sqrt(products(values, values) / count);
    const away = values[replication]! - mean;
    if (!(spread > 0) || Math.abs(away) < FAR * spread) return [];
    const pieces = (products(values, good) / products(values, values)) * away;
    return [{ trait, value: values[replication]!, mean, pieces }];
  });
  return [...each, ...comeBy(came)]
    .filter(({ pieces }) => pieces * own > 0 && Math.abs(pieces) >= WORTH_A_WORD)
    .sort((a, b) => Math.abs(b.pieces) - Math.abs(a.pieces));
}

function comeBy(came: { by: number; all: Came } | null): Apart[] {
  if (came === null) return [];
  const { by, all } = came;
  const away = by - all.mean;
  if (!(all.spread > 0) || Math.abs(away) < FAR * all.spread) return [];
  const trait: Trait = { kind: 'come by', pieces: all.pieces };
  return [{ trait, value: by, mean: all.mean, pieces: all.perMinute * away }];
}

type Of = (row: Float64Array) => number;

function traitsOf(shift: ResolvedShift, layout: ReportLayout): { trait: Trait; of: Of }[] {
  const { at, personStates, gearStates } = layout;
  const minutes = (row: Float64Array, person: number, state: number): number => {
    const place = person * personStates + state;
    return row[at.personMinutes + place]! + row[at.personOvertime + place]!;
  };
  const atStep = (row: Float64Array, step: number): number =>
    shift.people.reduce(
      (sum, _, person) => sum + minutes(row, person, workingAt(shift.gear.length, step)),
      0,
    );
  return [
    ...shift.people.map((_, person): { trait: Trait; of: Of } => ({
      trait: { kind: 'not in', person },
      of: (row) => minutes(row, person, NOT_IN),
    })),
    ...shift.steps.flatMap(({ kind, people }, step): { trait: Trait; of: Of }[] =>
      kind === 'wait'
        ? []
        : [
            {
              trait: { kind: 'minutes a piece', step },
              of: (row) => atStep(row, step) / people / row[at.starts + step]!,
            },
          ],
    ),
    ...layout.causes.map((_, cause): { trait: Trait; of: Of } => ({
      trait: { kind: 'sent back', cause },
      of: (row) => row[at.rework + cause]!,
    })),
    { trait: { kind: 'scrap' }, of: (row) => row[scalarAt(layout, 'scrap')]! },
    { trait: { kind: 'arrived' }, of: (row) => row[scalarAt(layout, 'arrived')]! },
    ...shift.gear.map((_, gear): { trait: Trait; of: Of } => ({
      trait: { kind: 'gear out', gear },
      of: (row) => row[at.gearMinutes + gear * gearStates + OUT_OF_ORDER]!,
    })),
  ];
}

function column({ size }: ReportLayout, rows: Float64Array, of: Of): Float64Array {
  return Float64Array.from({ length: rows.length / size }, (_, i) =>
    of(rows.subarray(i * size, (i + 1) * size)),
  );
}

/** A shift in which a step was never begun says nothing of its time: it has the mean of the others. */
function filled(values: Float64Array): Float64Array {
  const known = values.filter((value) => !Number.isNaN(value));
  const mean = meanOf(known);
  return values.map((value) => (Number.isNaN(value) ? mean : value));
}

const meanOf = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Sum of products of what two are away from their means. */
function products(a: Float64Array, b: Float64Array): number {
  const [meanA, meanB] = [meanOf(a), meanOf(b)];
  return a.reduce((sum, value, i) => sum + (value - meanA) * (b[i]! - meanB), 0);
}

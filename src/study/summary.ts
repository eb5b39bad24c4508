/**
 * A study's answer as plain JSON: every number a page, a sentence or a table needs. Minutes are minutes,
 * shares 0 to 1.
 */
import { personPresence } from '../engine/states.ts';
import { MEASURE_WORDS, type MeasureWords } from '../record/describe.ts';
import type { MeasureUnit } from '../record/measure.ts';
import { MEASURES } from '../record/measures.ts';
import { SCALARS, scalarAt, type Scalar } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import {
  dayMoments,
  momentsOf,
  ROWS_KEPT,
  scalarsAShift,
  scalarsOf,
  shiftsCounted,
  type CaseRecord,
} from './case-record.ts';
import { chanceInterval } from './intervals/chance-interval.ts';
import { around, type Interval } from './intervals/interval.ts';
import { meanInterval } from './intervals/mean-interval.ts';
import { deviationOf, type Moments } from './intervals/moments.ts';
import { madeByShare, percentile, sortedValues } from './intervals/percentile-interval.ts';
import { studentQuantile } from './intervals/student-quantile.ts';
import { lazily, once } from './once.ts';
import type { StudyState } from './study.ts';

/** The spread of single shifts, or of so many in a row together: for promises. */
export interface Spread {
  /** What nine in ten, half, and one in ten make. */
  nineInTen: number;
  half: number;
  oneInTen: number;
  least: number;
  most: number;
  /** How often each value came, ascending. */
  counts: { value: number; shifts: number }[];
}

export interface LineDay {
  step: string;
  mean: Interval;
  most: number;
  /** [bins] average length: the one shift in ten below, the median, the one in ten above. */
  low: number[];
  middle: number[];
  high: number[];
}

export interface ShiftSummary {
  name: string;
  /** Clock of the start; minutes of the scheduled shift. */
  start: string;
  length: number;
  scalars: Record<Scalar, Interval>;
  goodSpread: Spread;
  /**
   * By hour from the start: good units of this hour (mean), and so far: one shift in ten below, median, one
   * in ten above.
   */
  goodByHour: number[];
  goodSoFar: { low: number[]; middle: number[]; high: number[] };
  rework: { step: string; to: string; cause: string; perShift: number }[];
  lines: LineDay[];
  binMinutes: number;
  waitedPerUnit: { step: string; minutes: number }[];
  /** Mean minutes by state code, before and after their own end. */
  people: { id: string; minutes: number[]; overtime: number[]; overtimeMinutes: Interval; cost: number }[];
  gear: { id: string; count: number; minutes: number[] }[];
}

export interface CaseSummary {
  id: string;
  name: string;
  count: number;
  /** Shifts in a row that count: figures "a shift" are those of all of them over their number. */
  shiftsInARow: number;
  /** Good units a shift, and of all shifts in a row together. */
  good: Interval;
  total: Interval;
  /** Of all shifts in a row together: what can be promised of them. */
  spread: Spread;
  /** Null without a target. Several shifts: the sum of theirs, and the chance that each makes its own. */
  target: { units: number; chance: Interval } | null;
  /** Of a shift: that there is any. */
  overtimeChance: Interval;
  /** A shift. */
  overtime: Interval;
  cost: Interval;
  /** Labour cost of all units over all good units. */
  costPerGood: number;
  /** All shifts together, a shift where they add up: see the measure's rule. */
  measures: Record<Scalar, Interval>;
  shifts: ShiftSummary[];
}

export interface PairSummary {
  before: string;
  after: string;
  /** Good units a shift; intervals of all pairs hold together. */
  good: Interval;
  /** A shift. */
  overtime: Interval;
  cost: Interval;
}

export interface StudySummary {
  kind: 'interim' | 'final' | 'partial';
  count: number;
  needed: number;
  /** The cap was hit before the precision was reached. */
  capped: boolean;
  precision: number;
  confidence: number;
  seed: string;
  /** What the names of `cases[].measures` and `cases[].shifts[].scalars` mean. */
  measures: readonly MeasureWords[];
  cases: CaseSummary[];
  pairs: PairSummary[];
}

/**
 * @param inFull whether the cases' `shifts` are told (else they are empty): the most of the work, so each is
 *   worked out when it is first looked at, from the state as it is then. Ask for them once the study is over.
 */
export function summarize(state: StudyState, inFull = true): StudySummary {
  const { request, stopping, look } = state;
  const { confidence, precision } = stopping.settings;
  return {
    kind: state.partial ? 'partial' : look.kind,
    count: stopping.done,
    needed: stopping.needed,
    capped: stopping.capped,
    precision,
    confidence,
    seed: request.cases[0]!.shifts[0]!.seed,
    measures: MEASURE_WORDS,
    cases: state.records.map((record, index) => {
      const measures = once(() => namedIntervals(dayMoments(record), 0, confidence));
      return {
        ...summarizeCase(state, record, index),
        get measures() {
          return measures();
        },
        shifts: inFull ? shiftsOfCase(state, index) : [],
      };
    }),
    pairs: request.pairs.map(({ before, after }, pair) => {
      const shifts = shiftsCounted(state.records[after]!);
      const of = (name: Scalar): Interval =>
        inARow(intervalOf(state.differences[pair]!, SCALARS.indexOf(name), confidence), shifts);
      return {
        before: request.cases[before]!.id,
        after: request.cases[after]!.id,
        good: inARow(look.ranges[pair]!, shifts),
        overtime: of('overtime'),
        cost: of('cost'),
      };
    }),
  };
}

/** Of every measure by its name; in the rows they begin at `from`. */
const namedIntervals = (moments: Moments, from: number, confidence: number): Record<Scalar, Interval> =>
  Object.fromEntries(
    MEASURES.map(({ name, unit }, i) => [name, measureInterval(unit, moments, from + i, confidence)]),
  ) as Record<Scalar, Interval>;

/** No measure is under 0, and no share over 1. */
function measureInterval(unit: MeasureUnit, moments: Moments, column: number, confidence: number): Interval {
  const count = moments.count[column]!;
  if (unit === 'yes') return chanceInterval(Math.round(moments.mean[column]! * count), count, confidence);
  const range = intervalOf(moments, column, confidence);
  const most = unit === 'share' ? 1 : Infinity;
  return { ...range, low: Math.max(0, range.low), high: Math.min(most, range.high) };
}

export function intervalOf(moments: Moments, column: number, confidence: number): Interval {
  const count = moments.count[column]!;
  if (count === 0) return around(NaN, Infinity, 0, confidence);
  return count < 2
    ? around(moments.mean[column]!, Infinity, count, confidence)
    : meanInterval(count, moments.mean[column]!, deviationOf(moments, column), confidence);
}

/** The shifts of one case in full. */
function shiftsOfCase({ request, records, stopping }: StudyState, index: number): ShiftSummary[] {
  const { shifts } = request.cases[index]!;
  return lazily(shifts.length, (shift) =>
    summarizeShift(records[index]!, shifts, shift, stopping.settings.confidence),
  );
}

function summarizeCase(
  state: StudyState,
  record: CaseRecord,
  index: number,
): Omit<CaseSummary, 'measures' | 'shifts'> {
  const { request, stopping } = state;
  const { confidence } = stopping.settings;
  const one = request.cases[index]!;
  const all = (name: Scalar): Float64Array => scalarsOf(record, SCALARS.indexOf(name));
  const aShift = (name: Scalar): Float64Array => scalarsAShift(record, SCALARS.indexOf(name));
  const mean = (values: Float64Array): Interval => intervalOfValues(values, confidence);
  const met = all('targetMet');
  const shiftsInARow = shiftsCounted(record);
  const targets = one.shifts.map((shift) => shift.target);
  const hasTarget = targets.every((target) => target !== null);
  const cost = mean(aShift('cost'));
  const good = inARow(
    request.pairs.length === 0 ? state.look.ranges[index]! : mean(aShift('good')),
    shiftsInARow,
  );
  return {
    id: one.id,
    name: one.name,
    count: record.count,
    shiftsInARow,
    good,
    total: times(good, shiftsInARow),
    spread: spreadOf(all('good')),
    target: hasTarget
      ? {
          units: targets.reduce<number>((sum, target) => sum + (target ?? 0), 0),
          chance: chanceInterval(
            met.reduce((sum, one) => sum + one, 0),
            record.count,
            confidence,
          ),
        }
      : null,
    // Shifts of one replication are alike, so they do not count as so many tries.
    overtimeChance: chanceInterval(
      aShift('anyOvertime').reduce((sum, share) => sum + share, 0),
      record.count,
      confidence,
    ),
    overtime: mean(aShift('overtime')),
    cost,
    costPerGood: good.estimate > 0 ? cost.estimate / good.estimate : NaN,
  };
}

/** Says how many shifts in a row stand behind each observation, where there are several. */
const inARow = (one: Interval, shifts: number): Interval => (shifts > 1 ? { ...one, inARow: shifts } : one);

const times = (one: Interval, by: number): Interval => ({
  ...one,
  estimate: one.estimate * by,
  low: one.low * by,
  high: one.high * by,
  half: one.half * by,
});

export function intervalOfValues(values: Float64Array, confidence: number): Interval {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  if (count < 2) return around(mean, Infinity, count, confidence);
  const squares = values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0);
  return around(
    mean,
    studentQuantile(confidence, count - 1) * Math.sqrt(squares / (count - 1) / count),
    count,
    confidence,
  );
}

export function spreadOf(values: Float64Array): Spread {
  const sorted = sortedValues(values);
  const counts: Spread['counts'] = [];
  for (const value of sorted) {
    const last = counts[counts.length - 1];
    if (last !== undefined && last.value === value) last.shifts++;
    else counts.push({ value, shifts: 1 });
  }
  return {
    nineInTen: madeByShare(sorted, 0.9),
    half: madeByShare(sorted, 0.5),
    oneInTen: madeByShare(sorted, 0.1),
    least: sorted[0] ?? NaN,
    most: sorted[sorted.length - 1] ?? NaN,
    counts,
  };
}

function summarizeShift(
  record: CaseRecord,
  shifts: StudyState['request']['cases'][number]['shifts'],
  shift: number,
  confidence: number,
): ShiftSummary {
  const layout = record.layouts[shift]!;
  const moments = momentsOf(record, shift);
  const resolved = shifts[shift]!;
  const { at } = layout;
  const means = (from: number, count: number): number[] =>
    Array.from(moments.mean.subarray(from, from + count));
  const rows = Math.min(record.count, ROWS_KEPT);
  const soFar = cumulativeBands(record, shift, rows);
  const lines = once(() => linesOf(record, resolved, shift, confidence));
  return {
    name: resolved.name,
    start: resolved.start,
    length: resolved.length,
    scalars: namedIntervals(moments, at.scalars, confidence),
    goodSpread: spreadOf(sortedColumn(record, shift, scalarAt(layout, 'good'))),
    goodByHour: means(at.goodByHour, layout.hours),
    goodSoFar: soFar,
    rework: layout.causes.map((cause, i) => ({ ...cause, perShift: moments.mean[at.rework + i]! })),
    get lines() {
      return lines();
    },
    binMinutes: layout.binMinutes,
    waitedPerUnit: layout.steps.map((step, s) => {
      const starts = moments.mean[at.starts + s]!;
      return { step, minutes: starts > 0 ? moments.mean[at.waited + s]! / starts : 0 };
    }),
    people: layout.people.map((id, person) => {
      const overtime = means(at.personOvertime + person * layout.personStates, layout.personStates);
      return {
        id,
        minutes: means(at.personMinutes + person * layout.personStates, layout.personStates),
        overtime,
        overtimeMinutes: overtimeOf(record, shift, person, confidence),
        cost: moments.mean[at.personCost + person]!,
      };
    }),
    gear: layout.gear.map((id, gear) => ({
      id,
      count: resolved.gear[gear]!.count,
      minutes: means(at.gearMinutes + gear * layout.gearStates, layout.gearStates),
    })),
  };
}

/** One measure of the kept rows, ascending. */
function sortedColumn(record: CaseRecord, shift: number, place: number): Float64Array {
  const [rows, { size }] = [record.kept[shift]!, record.layouts[shift]!];
  const values = new Float64Array(Math.min(record.count, ROWS_KEPT));
  for (let row = 0; row < values.length; row++) values[row] = rows[row * size + place]!;
  return sortedValues(values);
}

/**
 * The lines before the steps with hands: the most of the work of a summary, and only for those who look at
 * the day.
 */
function linesOf(record: CaseRecord, resolved: ResolvedShift, shift: number, confidence: number): LineDay[] {
  const { at, bins: count, steps } = record.layouts[shift]!;
  return steps.flatMap((step, s): LineDay[] => {
    if (resolved.steps[s]!.kind === 'wait') return [];
    const bins = Array.from({ length: count }, (_, bin) =>
      sortedColumn(record, shift, at.lineAt + s * count + bin),
    );
    return [
      {
        step,
        mean: intervalOf(momentsOf(record, shift), at.lineMean + s, confidence),
        most: Math.max(...sortedColumn(record, shift, at.lineMost + s)),
        low: bins.map((bin) => percentile(bin, 0.1)),
        middle: bins.map((bin) => percentile(bin, 0.5)),
        high: bins.map((bin) => percentile(bin, 0.9)),
      },
    ];
  });
}

/** Minutes a person worked or waited after their own end (not those they were gone), over the kept rows. */
function overtimeOf(record: CaseRecord, shift: number, person: number, confidence: number): Interval {
  const layout = record.layouts[shift]!;
  const rows = Math.min(record.count, ROWS_KEPT);
  const from = layout.at.personOvertime + person * layout.personStates;
  const values = Float64Array.from({ length: rows }, (_, row) => {
    let minutes = 0;
    for (let state = 0; state < layout.personStates; state++)
      if (personPresence(state) !== 'gone') minutes += record.kept[shift]![row * layout.size + from + state]!;
    return minutes;
  });
  return intervalOfValues(values, confidence);
}

function cumulativeBands(record: CaseRecord, shift: number, rows: number): ShiftSummary['goodSoFar'] {
  const layout = record.layouts[shift]!;
  const low: number[] = [];
  const middle: number[] = [];
  const high: number[] = [];
  const sums = new Float64Array(rows);
  for (let hour = 0; hour < layout.hours; hour++) {
    for (let row = 0; row < rows; row++)
      sums[row] = sums[row]! + record.kept[shift]![row * layout.size + layout.at.goodByHour + hour]!;
    const sorted = sortedValues(sums);
    low.push(percentile(sorted, 0.1));
    middle.push(percentile(sorted, 0.5));
    high.push(percentile(sorted, 0.9));
  }
  return { low, middle, high };
}

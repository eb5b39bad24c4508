/** One shift of a case in an answer: its measures, its hours, its lines, its people and gear. */
import { personPresence } from '../engine/states.ts';
import type { MeasureUnit } from '../record/measure.ts';
import { MEASURES } from '../record/measures.ts';
import { scalarAt, type Scalar } from '../record/report.ts';
import { momentsOf, ROWS_KEPT, type CaseRecord } from './case-record.ts';
import type { InputComponents } from './inputs/components.ts';
import { inputsPart } from './inputs/input-study.ts';
import { endOf } from './inputs/predictive.ts';
import { chanceInterval } from './intervals/chance-interval.ts';
import { frequenciesOf } from './intervals/frequencies.ts';
import { around, type Interval } from './intervals/interval.ts';
import { percentileRange, type LevelRange } from './level-range.ts';
import { percentile, sortedValues } from './intervals/percentile-interval.ts';
import type { Moments } from './intervals/moments.ts';
import { studentQuantile } from './intervals/student-quantile.ts';
import { once } from './once.ts';
import { columnPart, intervalOf, shiftMean, widened } from './ranges.ts';
import { spreadOf, type Spread } from './spread.ts';
import type { StudyState } from './study.ts';

export interface LineDay {
  step: string;
  mean: Interval;
  most: number;
  /** [bins] average length: the one shift in ten below, the median, the one in ten above. */
  low: number[];
  middle: number[];
  high: number[];
}

export type Band = 'low' | 'middle' | 'high';

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
  goodSoFar: Record<Band, number[]> & { ranges: Record<Band, LevelRange[]> };
  rework: { step: string; to: string; cause: string; perShift: number }[];
  lines: LineDay[];
  binMinutes: number;
  waitedPerUnit: { step: string; minutes: number }[];
  /** Mean minutes by state code, before and after their own end. */
  people: {
    id: string;
    minutes: number[];
    overtime: number[];
    overtimeMinutes: Interval;
    /** Minutes of the overtime with the piece in hand at their own end. */
    finishing: number;
    /** Minutes after their own end that one shift in ten reaches, and between what that surely lies. */
    staysOneInTen: number;
    staysBetween: LevelRange;
    cost: number;
  }[];
  gear: { id: string; count: number; minutes: number[] }[];
}

export const named = (rangeOf: (name: Scalar, unit: MeasureUnit) => Interval): Record<Scalar, Interval> =>
  Object.fromEntries(MEASURES.map(({ name, unit }) => [name, rangeOf(name, unit)])) as Record<
    Scalar,
    Interval
  >;

/** No measure is under 0, and no share over 1. */
export function measureInterval(
  state: StudyState,
  unit: MeasureUnit,
  moments: Moments,
  column: number,
  part: InputComponents | null,
): Interval {
  const { confidence } = state.stopping.settings;
  const count = moments.count[column]!;
  if (unit === 'yes') return chanceInterval(Math.round(moments.mean[column]! * count), count, confidence);
  const range = widened(intervalOf(moments, column, confidence), part);
  const most = unit === 'share' ? 1 : Infinity;
  return { ...range, low: Math.max(0, range.low), high: Math.min(most, range.high) };
}

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

export function summarizeShift(state: StudyState, index: number, shift: number): ShiftSummary {
  const record = state.records[index]!;
  const { shifts } = state.request.cases[index]!;
  const layout = record.layouts[shift]!;
  const moments = momentsOf(record, shift);
  const resolved = shifts[shift]!;
  const { at } = layout;
  const means = (from: number, count: number): number[] =>
    Array.from(moments.mean.subarray(from, from + count));
  const rows = Math.min(record.count, ROWS_KEPT);
  const soFar = cumulativeBands(state, index, shift, rows);
  const lines = once(() => linesOf(state, index, shift));
  const goodPart = columnPart(state, index, shift, scalarAt(layout, 'good'));
  return {
    name: resolved.name,
    start: resolved.start,
    length: resolved.length,
    scalars: named((name, unit) => {
      const column = scalarAt(layout, name);
      return measureInterval(state, unit, moments, column, columnPart(state, index, shift, column));
    }),
    goodSpread: spreadOf(
      frequenciesOf(sortedColumn(record, shift, scalarAt(layout, 'good'))),
      state.stopping.settings.confidence,
      goodPart,
    ),
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
        ...overtimeOf(state, index, shift, person),
        finishing: moments.mean[at.personFinishing + person]!,
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
function linesOf(state: StudyState, index: number, shift: number): LineDay[] {
  const record = state.records[index]!;
  const resolved = state.request.cases[index]!.shifts[shift]!;
  const { at, bins: count, steps } = record.layouts[shift]!;
  return steps.flatMap((step, s): LineDay[] => {
    if (resolved.steps[s]!.kind === 'wait') return [];
    const bins = Array.from({ length: count }, (_, bin) =>
      sortedColumn(record, shift, at.lineAt + s * count + bin),
    );
    return [
      {
        step,
        mean: shiftMean(state, index, shift, at.lineMean + s),
        most: Math.max(...sortedColumn(record, shift, at.lineMost + s)),
        low: bins.map((bin) => percentile(bin, 0.1)),
        middle: bins.map((bin) => percentile(bin, 0.5)),
        high: bins.map((bin) => percentile(bin, 0.9)),
      },
    ];
  });
}

/** Minutes a person worked or waited after their own end (not those they were gone), over the kept rows. */
function overtimeOf(
  state: StudyState,
  index: number,
  shift: number,
  person: number,
): { overtimeMinutes: Interval; staysOneInTen: number; staysBetween: LevelRange } {
  const record = state.records[index]!;
  const layout = record.layouts[shift]!;
  const from = layout.at.personOvertime + person * layout.personStates;
  const minutesOf = ({ kept }: CaseRecord, row: number): number => {
    let minutes = 0;
    for (let at = 0; at < layout.personStates; at++)
      if (personPresence(at) !== 'gone') minutes += kept[shift]![row * layout.size + from + at]!;
    return minutes;
  };
  const rows = Math.min(record.count, ROWS_KEPT);
  const values = Float64Array.from({ length: rows }, (_, row) => minutesOf(record, row));
  const { confidence } = state.stopping.settings;
  const luck = intervalOfValues(values, confidence);
  const part = inputsPart(state.inputs, minutesOf, index);
  const sorted = sortedValues(values);
  return {
    overtimeMinutes: widened(luck, part),
    staysOneInTen: percentile(sorted, 0.9),
    staysBetween: percentileRange(sorted, 0.9, confidence, part === null ? 0 : endOf(part, confidence)),
  };
}

/** What nine shifts in ten have by the hour lies further off where the inputs are open: squares add up. */
function cumulativeBands(
  state: StudyState,
  index: number,
  shift: number,
  rows: number,
): ShiftSummary['goodSoFar'] {
  const record = state.records[index]!;
  const { size, at, hours } = record.layouts[shift]!;
  const { confidence } = state.stopping.settings;
  const bands: ShiftSummary['goodSoFar'] = {
    low: [],
    middle: [],
    high: [],
    ranges: { low: [], middle: [], high: [] },
  };
  const sums = new Float64Array(rows);
  for (let hour = 0; hour < hours; hour++) {
    for (let row = 0; row < rows; row++)
      sums[row]! += record.kept[shift]![row * size + at.goodByHour + hour]!;
    const sorted = sortedValues(sums);
    const part = inputsPart(
      state.inputs,
      ({ kept }, row) => {
        let sum = 0;
        for (let until = 0; until <= hour; until++) sum += kept[shift]![row * size + at.goodByHour + until]!;
        return sum;
      },
      index,
    );
    const [low, middle, high] = [0.1, 0.5, 0.9].map((share) => percentile(sorted, share));
    const open = part === null ? 0 : endOf(part, EIGHT_IN_TEN);
    const told: Record<Band, number> = {
      low: Math.max(0, middle! - Math.hypot(middle! - low!, open)),
      middle: middle!,
      high: middle! + Math.hypot(high! - middle!, open),
    };
    const sure = part === null ? 0 : endOf(part, confidence);
    for (const band of BANDS) {
      bands[band].push(told[band]);
      const range = percentileRange(sorted, SHARES[band], confidence, sure, told[band]);
      bands.ranges[band].push({ ...range, low: Math.max(0, range.low) });
    }
  }
  return bands;
}

const SHARES: Record<Band, number> = { low: 0.1, middle: 0.5, high: 0.9 };
export const BANDS: readonly Band[] = ['low', 'middle', 'high'];
const EIGHT_IN_TEN = 0.8;

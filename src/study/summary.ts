/**
 * A study's answer as plain JSON: every number a page, a sentence or a table needs. Minutes are minutes,
 * shares 0 to 1.
 */
import { personPresence } from '../engine/states.ts';
import { MEASURE_WORDS, type MeasureWords } from '../record/describe.ts';
import type { MeasureUnit } from '../record/measure.ts';
import { MEASURES } from '../record/measures.ts';
import { SCALARS, scalarAt, type Scalar } from '../record/report.ts';
import {
  dayMoments,
  momentsOf,
  ROWS_KEPT,
  scalarsAShift,
  scalarsOf,
  shiftsCounted,
  type CaseRecord,
} from './case-record.ts';
import type { InputComponents } from './inputs/components.ts';
import { inputsPart, type InputStudy, type StudiedInput } from './inputs/input-study.ts';
import { narrowingOf, type Narrowing } from './inputs/narrowing.ts';
import { endOf, shareReaching } from './inputs/predictive.ts';
import { chanceInterval } from './intervals/chance-interval.ts';
import { around, type Interval } from './intervals/interval.ts';
import { percentile, sortedValues } from './intervals/percentile-interval.ts';
import type { Moments } from './intervals/moments.ts';
import { studentQuantile } from './intervals/student-quantile.ts';
import { lazily, once } from './once.ts';
import {
  columnPart,
  dayPart,
  intervalOf,
  pairRange,
  totalPart,
  shiftMean,
  widened,
  marginPart,
  targetChance,
} from './ranges.ts';
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
  /** What the range of `good` hangs on; null where everything is known. */
  hangsOn: Narrowing | null;
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
  /** What the range of `good` hangs on; null where everything is known. */
  hangsOn: Narrowing | null;
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
  /** What is not known exactly and is in every range; empty where ranges say luck alone. */
  inputs: StudiedInput[];
}

/**
 * @param inFull whether the cases' `shifts` are told (else they are empty): the most of the work, so each is
 *   worked out when it is first looked at, from the state as it is then. Ask for them once the study is over.
 */
export function summarize(state: StudyState, inFull = true): StudySummary {
  const { request, stopping, look, inputs } = state;
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
      const measures = once(() => dayMeasures(state, index));
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
      const of = (name: Scalar): Interval => inARow(pairRange(state, pair, name), shifts);
      const good = of('good');
      return {
        before: request.cases[before]!.id,
        after: request.cases[after]!.id,
        good,
        overtime: of('overtime'),
        cost: of('cost'),
        hangsOn: hangsOn(inputs, good, dayPart(state, 'good', after, before)),
      };
    }),
    inputs: inputs?.inputs ?? [],
  };
}

/** Every measure by its name. */
const named = (rangeOf: (name: Scalar, unit: MeasureUnit) => Interval): Record<Scalar, Interval> =>
  Object.fromEntries(MEASURES.map(({ name, unit }) => [name, rangeOf(name, unit)])) as Record<
    Scalar,
    Interval
  >;

/** Of the days of a case: a shift, where they add up. */
function dayMeasures(state: StudyState, index: number): Record<Scalar, Interval> {
  const moments = dayMoments(state.records[index]!);
  return named((name, unit) =>
    measureInterval(state, unit, moments, SCALARS.indexOf(name), dayPart(state, name, index)),
  );
}

/** No measure is under 0, and no share over 1. */
function measureInterval(
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

/** The shifts of one case in full. */
function shiftsOfCase(state: StudyState, index: number): ShiftSummary[] {
  const { shifts } = state.request.cases[index]!;
  return lazily(shifts.length, (shift) => summarizeShift(state, index, shift));
}

function hangsOn(study: InputStudy | null, range: Interval, part: InputComponents | null): Narrowing | null {
  return study === null || part === null ? null : narrowingOf(range, part, study.inputs);
}

function summarizeCase(
  state: StudyState,
  record: CaseRecord,
  index: number,
): Omit<CaseSummary, 'measures' | 'shifts'> {
  const { request, stopping, inputs } = state;
  const { confidence } = stopping.settings;
  const one = request.cases[index]!;
  const aShift = (name: Scalar): Float64Array => scalarsAShift(record, SCALARS.indexOf(name));
  const mean = (name: Scalar): Interval =>
    widened(intervalOfValues(aShift(name), confidence), dayPart(state, name, index));
  const shiftsInARow = shiftsCounted(record);
  const targets = one.shifts.slice(record.skip).map((shift) => shift.target);
  const hasTarget = targets.every((target) => target !== null);
  const cost = mean('cost');
  const ofGood = dayPart(state, 'good', index);
  const good = inARow(
    request.pairs.length === 0 ? widened(state.look.ranges[index]!, ofGood) : mean('good'),
    shiftsInARow,
  );
  return {
    id: one.id,
    name: one.name,
    count: record.count,
    shiftsInARow,
    good,
    total: times(good, shiftsInARow),
    hangsOn: hangsOn(inputs, good, ofGood),
    spread: daySpread(state, record, index),
    target: hasTarget
      ? {
          units: targets.reduce<number>((sum, target) => sum + (target ?? 0), 0),
          chance: targetChance(state, index),
        }
      : null,
    // Shifts of one replication are alike, so they do not count as so many tries.
    overtimeChance: chanceInterval(
      aShift('anyOvertime').reduce((sum, share) => sum + share, 0),
      record.count,
      confidence,
    ),
    overtime: mean('overtime'),
    cost,
    costPerGood: good.estimate > 0 ? cost.estimate / good.estimate : NaN,
  };
}

/**
 * Where people of the one shift that counts stay until its target is met, fewer units than that are made as
 * often as the target is missed by so many, whatever the inputs; more than that in the shifts that meet it.
 */
function daySpread(state: StudyState, record: CaseRecord, index: number): Spread {
  const goods = scalarsOf(record, SCALARS.indexOf('good'));
  const [target] = record.targets?.length === 1 ? record.targets : [];
  if (target === undefined || target.latest === null) return spreadOf(goods, totalPart(state, index));
  const margins = record.margins.subarray(0, record.count);
  const met = goods.filter((good) => good >= target.units);
  const byMargin = (_: ArrayLike<number>, level: number, moves: readonly number[]): number => {
    if (level <= target.units) return shareReaching(margins, level - target.units, moves);
    const more = met.filter((good) => good >= level).length / Math.max(1, met.length);
    return more * shareReaching(margins, 0, moves);
  };
  return spreadOf(goods, marginPart(state, index), byMargin);
}

/** Says how many shifts in a row stand behind each observation, where there are several. */
const inARow = (one: Interval, shifts: number): Interval => (shifts > 1 ? { ...one, inARow: shifts } : one);

const times = (one: Interval, by: number): Interval => ({
  ...one,
  estimate: one.estimate * by,
  low: one.low * by,
  high: one.high * by,
  half: one.half * by,
  luck: one.luck * by,
  inputs: one.inputs * by,
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

function summarizeShift(state: StudyState, index: number, shift: number): ShiftSummary {
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
    goodSpread: spreadOf(sortedColumn(record, shift, scalarAt(layout, 'good')), goodPart),
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
        overtimeMinutes: overtimeOf(state, index, shift, person),
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
function overtimeOf(state: StudyState, index: number, shift: number, person: number): Interval {
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
  const luck = intervalOfValues(values, state.stopping.settings.confidence);
  return widened(luck, inputsPart(state.inputs, minutesOf, index));
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
  const bands: ShiftSummary['goodSoFar'] = { low: [], middle: [], high: [] };
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
    bands.low.push(Math.max(0, middle! - Math.hypot(middle! - low!, open)));
    bands.middle.push(middle!);
    bands.high.push(middle! + Math.hypot(high! - middle!, open));
  }
  return bands;
}

const EIGHT_IN_TEN = 0.8;

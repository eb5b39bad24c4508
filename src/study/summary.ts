/**
 * A study's answer as plain JSON: every number a page, a sentence or a table needs. Minutes are minutes,
 * shares 0 to 1.
 */
import { MEASURE_WORDS, type MeasureWords } from '../record/describe.ts';
import { SCALARS, type Scalar } from '../record/report.ts';
import { shiftsCounted, type CaseRecord } from './case-record.ts';
import type { InputComponents } from './inputs/components.ts';
import { type InputStudy, type StudiedInput } from './inputs/input-study.ts';
import { narrowingOf, type Narrowing } from './inputs/narrowing.ts';
import { shareReaching } from './inputs/predictive.ts';
import { chanceInterval } from './intervals/chance-interval.ts';
import { mapped, meanAndDeviation, reaching, type Frequencies } from './intervals/frequencies.ts';
import { type Interval } from './intervals/interval.ts';
import { meanInterval } from './intervals/mean-interval.ts';
import { lazily, once } from './once.ts';
import { dayPart, intervalOf, marginPart, pairRange, targetChance, totalPart, widened } from './ranges.ts';
import { spreadOf, type Spread } from './spread.ts';
import type { StudyState } from './study.ts';
import { measureInterval, named, summarizeShift, type ShiftSummary } from './shift-summary.ts';

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

/** Every measure by its name, of the days of a case: a shift, where they add up. */
function dayMeasures(state: StudyState, index: number): Record<Scalar, Interval> {
  const moments = state.records[index]!.day;
  return named((name, unit) =>
    measureInterval(state, unit, moments, SCALARS.indexOf(name), dayPart(state, name, index)),
  );
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
  const mean = (name: Scalar): Interval =>
    widened(intervalOf(record.day, SCALARS.indexOf(name), confidence), dayPart(state, name, index));
  const shiftsInARow = shiftsCounted(record);
  const targets = one.shifts.slice(record.skip).map((shift) => shift.target);
  const hasTarget = targets.every((target) => target !== null);
  const cost = mean('cost');
  const ofGood = dayPart(state, 'good', index);
  const good = inARow(
    widened(request.pairs.length === 0 ? state.look.ranges[index]! : meanOfGoods(record, confidence), ofGood),
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
    overtimeChance: chanceInterval(record.overtimes, record.count, confidence),
    overtime: mean('overtime'),
    cost,
    costPerGood: good.estimate > 0 ? cost.estimate / good.estimate : NaN,
  };
}

/** Good units a shift. Whole numbers: their mean is exact. */
function meanOfGoods(record: CaseRecord, confidence: number): Interval {
  const shifts = shiftsCounted(record);
  const goods = mapped(record.goods.get(), (good) => good / shifts);
  const { mean, deviation } = meanAndDeviation(goods);
  return meanInterval(goods.total, mean, deviation, confidence);
}

/**
 * Where people of the one shift that counts stay until its target is met, fewer units than that are made as
 * often as the target is missed by so many, whatever the inputs; more than that in the shifts that meet it.
 */
function daySpread(state: StudyState, record: CaseRecord, index: number): Spread {
  const goods = record.goods.get();
  const [target] = record.targets?.length === 1 ? record.targets : [];
  const { confidence } = state.stopping.settings;
  if (target === undefined || target.latest === null)
    return spreadOf(goods, confidence, totalPart(state, index));
  const margins = record.allMargins.get();
  const met = Math.max(1, reaching(goods, target.units));
  const byMargin = (_: Frequencies, level: number, moves: readonly number[]): number => {
    if (level <= target.units) return shareReaching(margins, level - target.units, moves);
    return (reaching(goods, level) / met) * shareReaching(margins, 0, moves);
  };
  return spreadOf(goods, confidence, marginPart(state, index), byMargin, target.units);
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

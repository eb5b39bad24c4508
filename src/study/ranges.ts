/**
 * The range of every figure of a study: luck, and what is not known of the inputs. The runs of both are at
 * hand in the state; which column of them a figure is in is all there is to say.
 */
import { perShift } from '../record/day.ts';
import { SCALARS, type Scalar } from '../record/report.ts';
import { momentsOf, shiftsCounted, type CaseRecord } from './case-record.ts';
import { withInputs, type InputComponents } from './inputs/components.ts';
import { inputsPart } from './inputs/input-study.ts';
import { predictiveChance } from './inputs/predictive.ts';
import { mapped } from './intervals/frequencies.ts';
import { around, shared, type Interval } from './intervals/interval.ts';
import { meanInterval } from './intervals/mean-interval.ts';
import { deviationOf, type Moments } from './intervals/moments.ts';
import { statedTogether } from './stopping.ts';
import type { StudyState } from './study.ts';

/** Mean of a column of moments, luck alone. */
export function intervalOf(moments: Moments, column: number, confidence: number): Interval {
  const count = moments.count[column]!;
  if (count === 0) return around(NaN, Infinity, 0, confidence);
  return count < 2
    ? around(moments.mean[column]!, Infinity, count, confidence)
    : meanInterval(count, moments.mean[column]!, deviationOf(moments, column), confidence);
}

/** A scalar of a replication: a shift where they add up, or of all shifts that count together. */
const aShift =
  (name: Scalar) =>
  (record: CaseRecord, row: number): number =>
    perShift(SCALARS.indexOf(name), ofDay(name)(record, row), shiftsCounted(record));
const ofDay =
  (name: Scalar) =>
  (record: CaseRecord, row: number): number =>
    record.scalars[row * SCALARS.length + SCALARS.indexOf(name)]!;

/** The inputs' part in a scalar of a case (a shift), or in what one case has over another. */
export const dayPart = (
  { inputs }: StudyState,
  name: Scalar,
  after: number,
  before?: number,
): InputComponents | null => inputsPart(inputs, aShift(name), after, before);

/** The inputs' part in the good units of all shifts that count together. */
export const totalPart = ({ inputs }: StudyState, index: number): InputComponents | null =>
  inputsPart(inputs, ofDay('good'), index);

/** The inputs' part in a column of one shift's rows. */
export const columnPart = (
  { inputs }: StudyState,
  index: number,
  shift: number,
  column: number,
): InputComponents | null =>
  inputsPart(
    inputs,
    (record, row) => record.kept[shift]![row * record.layouts[shift]!.size + column]!,
    index,
  );

/** An interval of luck with the inputs' part put to it. */
export const widened = (luck: Interval, part: InputComponents | null): Interval =>
  part === null ? luck : withInputs(luck, part);

/** The mean of a column of one shift. */
export function shiftMean(state: StudyState, index: number, shift: number, column: number): Interval {
  const { confidence } = state.stopping.settings;
  const luck = intervalOf(momentsOf(state.records[index]!, shift), column, confidence);
  return widened(luck, columnPart(state, index, shift, column));
}

/** What the pair's later case has over its earlier one; good units hold for all pairs together. */
export function pairRange(state: StudyState, pair: number, name: Scalar): Interval {
  const { before, after } = state.request.pairs[pair]!;
  const { confidence } = state.stopping.settings;
  const part = dayPart(state, name, after, before);
  if (name === 'good') return widened(state.look.ranges[pair]!, part);
  const each = shared(confidence, statedTogether(state.stopping));
  return widened({ ...intervalOf(state.differences[pair]!, SCALARS.indexOf(name), each), confidence }, part);
}

/** So many replications count towards what is decided on the gains of these pairs. */
export const countOf = ({ stopping }: StudyState, pairs: readonly number[]): number =>
  Math.min(stopping.done, Math.max(0, ...pairs.map((pair) => stopping.each?.[pair] ?? stopping.done)));

/**
 * Good units a shift that one case has over another, whether or not the study asked for that pair. @param
 * several such are stated together. @param count of the first replications, where not of all.
 */
export function goodBetween(
  state: StudyState,
  before: number,
  after: number,
  several = 1,
  count = Infinity,
): Interval {
  const { confidence } = state.stopping.settings;
  const over = state.goods.between(before, after, count);
  const luck = {
    ...meanInterval(over.count, over.mean, over.deviation, shared(confidence, several)),
    confidence,
  };
  return widened(luck, dayPart(state, 'good', after, before));
}

/** The inputs' part in the units over a target, or short of it. */
export const marginPart = ({ inputs }: StudyState, index: number): InputComponents | null =>
  inputsPart(inputs, (record, row) => record.margins[row]!, index);

/** The chance that a case makes every one of its targets. */
export function targetChance(state: StudyState, index: number): Interval {
  return predictiveChance(
    state.records[index]!.allMargins.get(),
    marginPart(state, index),
    state.stopping.settings.confidence,
  );
}

/** The chance that a case makes so many good units or more. */
export function chanceReaching(state: StudyState, index: number, level: number): Interval {
  const record = state.records[index]!;
  if (record.targets?.length === 1 && record.targets[0]!.units === level) return targetChance(state, index);
  const over = mapped(record.goods.get(), (good) => good - level);
  return predictiveChance(over, totalPart(state, index), state.stopping.settings.confidence);
}

/** How the shifts of a day make its measures, by the rule of each. */
import type { DayRule, Measure } from './measure.ts';
import { MEASURES } from './measures.ts';

const place = (measure: Measure): number => (MEASURES as readonly Measure[]).indexOf(measure);

/** A measure's value of each shift, in order. */
type Values = (measure: number) => readonly number[];

/** Ratios are of day values, so they come after everything they may refer to. */
const ORDER = MEASURES.map((_, i) => i).sort((a, b) => Number(isRatio(a)) - Number(isRatio(b)));

function isRatio(measure: number): boolean {
  return MEASURES[measure]!.day.kind === 'ratio';
}

/**
 * Writes the day's value of each measure, in their order, into `day` from `at` on. `rows[k]` holds the
 * measures of shift k from `from[k]` on.
 */
export function combineShifts(
  rows: readonly Float64Array[],
  from: readonly number[],
  day: Float64Array,
  at: number,
): void {
  if (rows.length === 1) {
    // Most days have one shift: it is the day.
    for (let i = 0; i < MEASURES.length; i++) day[at + i] = rows[0]![from[0]! + i]!;
    return;
  }
  const values: Values = (measure) => rows.map((row, shift) => row[from[shift]! + measure]!);
  const ofDay = (measure: Measure): number => day[at + place(measure)]!;
  for (const i of ORDER) day[at + i] = combined(MEASURES[i]!.day, values(i), values, ofDay);
}

function combined(
  rule: DayRule,
  own: readonly number[],
  values: Values,
  ofDay: (measure: Measure) => number,
): number {
  switch (rule.kind) {
    case 'sum':
      return own.reduce((sum, one) => sum + one, 0);
    case 'last':
      return own[own.length - 1]!;
    case 'most':
      return Math.max(...own);
    case 'all':
      return Math.min(...own);
    case 'mean':
      return weightedMean(
        own,
        own.map((_, shift) => rule.by.reduce((sum, by) => sum + values(place(by))[shift]!, 0)),
      );
    case 'ratio': {
      const over = ofDay(rule.over);
      return over === 0 ? NaN : ofDay(rule.of) / over;
    }
  }
}

/** NaN where no weight is over 0; values of weight 0 may be NaN. */
function weightedMean(values: readonly number[], weights: readonly number[]): number {
  let [sum, weight] = [0, 0];
  values.forEach((value, i) => {
    if (!(weights[i]! > 0)) return;
    sum += value * weights[i]!;
    weight += weights[i]!;
  });
  return weight === 0 ? NaN : sum / weight;
}

/** A measure of a day of so many shifts, as it is a shift: what adds up is shared out, all else stands. */
export const perShift = (measure: number, ofDay: number, shifts: number): number =>
  MEASURES[measure]!.day.kind === 'sum' ? ofDay / shifts : ofDay;

/** In words, for whoever reads the list of measures. */
export function dayRuleWords(rule: DayRule): string {
  switch (rule.kind) {
    case 'sum':
      return 'added up';
    case 'last':
      return 'what the last shift says';
    case 'most':
      return 'the most of any shift';
    case 'all':
      return 'yes where it is so in every shift';
    case 'mean':
      return `the mean, weighted by ${rule.by.map(({ label }) => label.toLowerCase()).join(' and ')}`;
    case 'ratio':
      return `${rule.of.label.toLowerCase()} of the day over its ${rule.over.label.toLowerCase()}`;
  }
}

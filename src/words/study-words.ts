/** What several pages say of a study and of its cases, put together from a summary. */
import type { Interval } from '../study/intervals/interval.ts';
import { THINGS, type ExtraGain } from '../study/one-more.ts';
import type { LevelRange } from '../study/level-range.ts';
import type { Spread } from '../study/spread.ts';
import type { CaseSummary, StudySummary } from '../study/summary.ts';
import type { Ranged } from '../money/payback.ts';
import { chanceSentence, eachChanceSentence, type Chance } from './sentences.ts';
import type { Narrowing } from '../study/inputs/narrowing.ts';
import { mindSentence, narrowingSentence, partsOfRange } from './input-words.ts';
import { howSureSentence, type Progress } from './verdicts.ts';
import { counted, fixed, percent, plain, rangeText, roundDown, roundUp } from './words.ts';

export const progressOf = (study: StudySummary): Progress => {
  const inARow = shiftsInARow(study);
  if (study.kind === 'partial') return { kind: 'stopped', planned: study.needed, inARow };
  if (study.kind === 'interim') return { kind: 'so far', inARow };
  return study.capped ? { kind: 'capped', asked: study.precision, inARow } : { kind: 'done', inARow };
};

/** Of its cases; where they differ, of the one with the most. */
export const shiftsInARow = ({ cases }: Pick<StudySummary, 'cases'>): number =>
  Math.max(1, ...cases.map((one) => one.shiftsInARow));

/** What a table of spreads says above it: single shifts, or all of a row together. */
export const spreadCaption = (shifts: number): string =>
  shifts === 1
    ? 'Good units: what nine shifts in ten, half, and one in ten make'
    : `Good units over ${counted(shifts, 'shift')} together: what is made nine times in ten, half the time, and one time in ten`;

/** Heads the column of a chance. */
export const chanceHead = (cases: readonly Pick<CaseSummary, 'target' | 'shiftsInARow'>[]): string => {
  const targets = new Set(cases.map(({ target }) => target?.units ?? null));
  const [units] = targets;
  if (cases.some((one) => one.shiftsInARow > 1)) return 'Each shift makes its own';
  return targets.size === 1 && units != null ? `Makes ${plain(units)}` : 'Makes its target';
};

/** "The chance of 22 is 84% (79% to 88%)."; of several shifts, that each makes its own; null without one. */
export function chanceWords({
  target,
  shiftsInARow: shifts,
}: Pick<CaseSummary, 'target' | 'shiftsInARow'>): string | null {
  if (target === null) return null;
  const seen = chanceFrom(target.chance);
  return shifts === 1 ? chanceSentence(target.units, seen) : eachChanceSentence(shifts, seen);
}

/** A chance as the sentence about it wants it. */
export const chanceFrom = ({ estimate, low, high, count, inputs }: Interval): Chance => ({
  made: Math.round(estimate * count),
  count,
  low,
  high,
  ...(inputs > 0 ? { estimate } : {}),
});

/**
 * Where all or none of the shifts made it, what that leaves open: no chance is 0 or 100 % because it was so
 * in the shifts run.
 */
export function chanceCell({ estimate, low, high }: Interval): string {
  if (estimate === 0) return `under ${percent(high, 'up')}`;
  return estimate === 1 ? `over ${percent(low, 'down')}` : percent(estimate);
}

/** No chance is 0 or 100 %. */
const FEW = 1e-9;

/** "64% (59% to 69%)"; what all or none of the shifts leave open stands as it is. */
export function chanceWithRange(chance: Interval): string {
  const { estimate, low, high } = chance;
  const cell = chanceCell(chance);
  return estimate === 0 || estimate === 1 || !Number.isFinite(high - low)
    ? cell
    : `${cell} (${percent(Math.max(FEW, low), 'down')} to ${percent(Math.min(1 - FEW, high), 'up')})`;
}

/** The three levels of a spread. */
export const LEVELS = ['nineInTen', 'half', 'oneInTen'] as const;

/** "18 (16 to 19)" of each: whole units, as nobody promises a part of one. */
export const levelCells = (spread: Pick<Spread, (typeof LEVELS)[number] | 'ranges'>): string[] =>
  LEVELS.map((level) => levelCell(spread[level], spread.ranges[level]));

export function levelCell(units: number, range: LevelRange): string {
  const level = fixed(Math.floor(units), 0);
  const between = levelRangeText(range);
  return between === '' ? level : `${level} (${between})`;
}

/** "16 to 19"; empty where it is sure, or nothing can be said from so few shifts. */
export const levelRangeText = ({ low, high }: LevelRange): string =>
  low === high || !Number.isFinite(high - low) ? '' : `${fixed(low, 0)} to ${fixed(high, 0)}`;

/** Of a level between whole units, which is told to the nearest. */
export const roundedLevel = (units: number, { low, high }: LevelRange): string =>
  levelCell(Math.round(units), { low: Math.floor(low + 1e-9), high: Math.ceil(high - 1e-9) });

/** Nine in ten, half, one in ten, and the chance of the target where there is one. */
export function spreadCells({ spread, target }: Pick<CaseSummary, 'spread' | 'target'>): string[] {
  return levelCells(spread).concat(target === null ? [] : [chanceWithRange(target.chance)]);
}

/**
 * The row to name beside what holds the cell back: of things there could be one more of the best one; where
 * none was tried, the best of all.
 */
export const bestRow = (rows: readonly ExtraGain[]): ExtraGain | undefined =>
  rows.find(({ kind }) => THINGS.has(kind)) ?? rows[0];

/** "+3.5 (3.2 to 3.8)". */
export function differenceCell(difference: Ranged): string {
  const { estimate, range } = rangeText(difference);
  return `${difference.estimate > 0 ? '+' : ''}${estimate}${range === '' ? '' : ` (${range})`}`;
}

/** The same with so many decimals, the range outwards: for a column in which all have them. */
export function differenceWith({ estimate, low, high }: Ranged, decimals: number): string {
  const range =
    low === high
      ? ''
      : ` (${fixed(roundDown(low, decimals), decimals)} to ${fixed(roundUp(high, decimals), decimals)})`;
  return `${estimate > 0 ? '+' : ''}${fixed(estimate, decimals)}${range}`;
}

/** The widest of the ranges that are decided on: a study's pairs, or its cases where it has none. */
export function widestOf(study: StudySummary): { good: Interval; hangsOn: Narrowing | null } | null {
  const ranges = study.pairs.length === 0 ? study.cases : study.pairs;
  return ranges.reduce<(typeof ranges)[number] | null>(
    (most, one) => (most === null || one.good.half > most.good.half ? one : most),
    null,
  );
}

/** How sure a study's differences (or means) are, what that hangs on, and what would narrow it. */
export function studySure(study: StudySummary, widest = widestOf(study)): string {
  const { inputs, count, confidence } = study;
  const half = widest?.good.half ?? NaN;
  const known =
    widest === null || !Number.isFinite(half)
      ? null
      : {
          parts: partsOfRange(widest.good, inputs),
          narrowing: narrowingSentence(widest.hangsOn, inputs, half),
          each: inputs.length > 0 && study.pairs.length > 1,
        };
  const mind = study.kind === 'interim' ? null : mindSentence(inputs);
  const sure = howSureSentence(progressOf(study), count, half, confidence, known);
  return mind === null ? sure : `${sure} ${mind}`;
}

/**
 * Cases side by side: the spread of single shifts (of several in a row, of all together), where the mean
 * lies, what each makes more a shift.
 */
import type { CaseSummary, StudySummary } from '../../study/summary.ts';
import { comparisonPicture } from '../../charts/index.ts';
import { shiftsInARow } from '../../words/study-words.ts';
import { rangeText, unitsOver } from '../../words/words.ts';
import { PICTURE_WIDTH } from './staircase.ts';
import type { PictureBlock } from './told.ts';

/** @param differences what is said of each case after the first. @param names left out: the cases' own. */
export function casesPicture(
  study: StudySummary,
  title: string,
  differences: string[],
  names = study.cases.map(({ name }) => name),
): PictureBlock {
  const shifts = shiftsInARow(study);
  const aShift = shifts > 1 ? ' a shift' : '';
  const said = (one: CaseSummary, i: number): string =>
    i === 0 ? `${rangeText(one.good).estimate}${aShift} on average` : `${differences[i - 1]!}${aShift}`;
  const rows = study.cases.map((one, i) => ({
    name: names[i]!,
    values: valuesOf(one.spread.counts),
    mean: one.total.estimate,
    low: one.total.low,
    high: one.total.high,
    words: said(one, i),
  }));
  const description = `Good units a shift: ${study.cases.map((one, i) => `${names[i]} ${i === 0 ? said(one, i) : `${rangeText(one.good).estimate}, ${said(one, i)}`}`).join('; ')}.`;
  // A day of several shifts makes its target where each of them does: no line across their sum says that.
  const target = shifts > 1 ? null : (study.cases[0]!.target?.units ?? null);
  const foot = { shifts: study.count, inARow: shifts, seed: study.seed, unit: unitsOver(shifts) };
  return {
    kind: 'picture',
    file: 'choices.svg',
    description,
    svg: comparisonPicture(
      { title, description, rows, target, foot },
      { width: PICTURE_WIDTH, id: 'choices' },
    ),
  };
}

/** As many single shifts as a strip of dots can tell apart. */
const ENOUGH = 400;

/** The values of single shifts that a spread counts, thinned evenly where there are very many. */
export function valuesOf(counts: { value: number; shifts: number }[]): number[] {
  const total = counts.reduce((sum, { shifts }) => sum + shifts, 0);
  const taken = Math.min(total, ENOUGH);
  const values: number[] = [];
  let passed = 0;
  for (const { value, shifts } of counts) {
    passed += shifts;
    while (values.length < taken && ((values.length + 0.5) * total) / taken <= passed) values.push(value);
  }
  return values;
}

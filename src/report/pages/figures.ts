/** Every measure of a case as a table, and the list that says what each of them means. */
import type { Block, Page } from '../../document/document.ts';
import { LIST_MEASURE_WORDS, MEASURE_WORDS, type MeasureWords } from '../../record/describe.ts';
import type { DayRule, MeasureUnit } from '../../record/measure.ts';
import { MEASURES } from '../../record/measures.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import type { CaseSummary } from '../../study/summary.ts';
import { duration, fixed, money, percent } from '../../words/words.ts';

/** Measures that are unknown, or 0 in every shift, are left out. */
export function figuresTable(
  { measures }: Pick<CaseSummary, 'measures'>,
  shifts: number,
  currency: string,
): Block {
  const shown = MEASURES.filter(({ name }) => {
    const { estimate, half } = measures[name];
    return !Number.isNaN(estimate) && !(estimate === 0 && half === 0);
  });
  const several = shifts > 1;
  return {
    kind: 'table',
    caption: `All that is counted: the mean and what it surely lies between${several ? `; ${shifts} shifts` : ''}.`,
    head: ['', 'Mean', 'Surely between', ...(several ? ['Of what'] : [])],
    rows: shown.map(({ name, label, unit, day }) => [
      label,
      figure(measures[name].estimate, unit, currency),
      range(measures[name], unit, currency),
      ...(several ? [OF_WHAT[day.kind]] : []),
    ]),
    align: ['left', 'right', 'right', ...(several ? ['left' as const] : [])],
  };
}

const OF_WHAT: Record<DayRule['kind'], string> = {
  sum: 'a shift',
  mean: 'a shift',
  ratio: 'all shifts',
  last: 'the last shift',
  most: 'any shift',
  all: 'every shift',
};

function range({ low, high, half }: Interval, unit: MeasureUnit, currency: string): string {
  if (half === 0) return 'always';
  if (!Number.isFinite(half)) return '';
  return `${figure(low, unit, currency)} to ${figure(high, unit, currency)}`;
}

function figure(value: number, unit: MeasureUnit, currency: string): string {
  switch (unit) {
    case 'units':
    case 'racks':
      return fixed(value, 2);
    case 'minutes':
      return duration(value);
    case 'share':
    case 'yes':
      return percent(value);
    case 'money':
    case 'money a unit':
      return money(value, currency, 2);
  }
}

/** The answer of "measures". */
export function measuresPage(): Page {
  const title = 'What is counted';
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      {
        kind: 'paragraph',
        text: 'The names that stand in --json, and how the shifts of a day make one figure where a file has several.',
      },
      { kind: 'heading', level: 2, text: 'One figure a shift' },
      listOf(MEASURE_WORDS),
      { kind: 'heading', level: 2, text: 'Many figures a shift' },
      listOf(LIST_MEASURE_WORDS),
    ],
  };
}

const listOf = (measures: readonly MeasureWords[]): Block => ({
  kind: 'table',
  head: ['Name', 'Unit', 'What it is', 'Over several shifts'],
  rows: measures.map(({ name, unit, description, overShifts }) => [name, unit, description, overShifts]),
});

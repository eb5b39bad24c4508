/** What several pages say of a study and of its cases, put together from a summary. */
import type { Interval } from '../study/intervals/interval.ts';
import type { ExtraGain } from '../study/one-more.ts';
import type { CaseSummary, StudySummary } from '../study/summary.ts';
import type { Ranged } from '../money/payback.ts';
import { chanceSentence } from './sentences.ts';
import type { Progress } from './verdicts.ts';
import { fixed, percent, rangeText } from './words.ts';

export const progressOf = (study: StudySummary): Progress => {
  if (study.kind === 'partial') return { kind: 'stopped', planned: study.needed };
  if (study.kind === 'interim') return { kind: 'so far' };
  return study.capped ? { kind: 'capped', asked: study.precision } : { kind: 'done' };
};

/** "The chance of 22 is 84% (79% to 88%)."; null without a target. */
export function chanceWords({ target }: Pick<CaseSummary, 'target'>): string | null {
  if (target === null) return null;
  const { chance, units } = target;
  return chanceSentence(units, {
    made: Math.round(chance.estimate * chance.count),
    count: chance.count,
    low: chance.low,
    high: chance.high,
  });
}

/**
 * Where all or none of the shifts made it, what that leaves open: no chance is 0 or 100 % because it was so
 * in the shifts run.
 */
export function chanceCell({ estimate, low, high }: Interval): string {
  if (estimate === 0) return `under ${percent(high, 'up')}`;
  return estimate === 1 ? `over ${percent(low, 'down')}` : percent(estimate);
}

/** Nine in ten, half, one in ten, and the chance of the target where there is one. */
export function spreadCells({ spread, target }: Pick<CaseSummary, 'spread' | 'target'>): string[] {
  return [spread.nineInTen, spread.half, spread.oneInTen]
    .map((units) => fixed(Math.floor(units), 0))
    .concat(target === null ? [] : [chanceCell(target.chance)]);
}

const THINGS: ReadonlySet<ExtraGain['kind']> = new Set(['gear', 'bench', 'person', 'person with bench']);

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

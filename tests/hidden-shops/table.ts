/** What came of the shops of each row, as a table. */
import { chanceInterval } from '../../src/study/intervals/chance-interval.ts';
import type { Held } from './measure.ts';
import type { Row } from './rows.ts';

export interface RowResult {
  row: Row;
  /** How many were played. */
  shops: number;
  held: Held[];
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

const firmOf = (held: readonly Held[]): Held[] => held.filter((one) => one.right !== null);
const wrongOf = (held: readonly Held[]): Held[] => held.filter((one) => one.right === false);

/** As often as must be but for chance (at 99 %): ranges where nothing was said against them, all verdicts. */
function isGood({ row, held }: RowResult): boolean {
  const most = (of: readonly boolean[]): number =>
    of.length === 0 ? 1 : chanceInterval(of.filter(Boolean).length, of.length, 0.99).high;
  const quiet = held.filter((one) => !one.warned);
  const rightly = (of: readonly Held[]): boolean[] => of.map((one) => one.right !== false);
  return (
    most(quiet.map(({ gain }) => gain)) >= row.atLeast / 100 &&
    most(quiet.map((one) => one.mean)) >= row.atLeast / 100 &&
    most(rightly(firmOf(held))) >= 0.95 &&
    most(rightly(held.filter((one) => one.verdict === 'was not the constraint'))) >= 0.99
  );
}

/** The table of `npm run hidden-shops`, Markdown. True where every row holds as often as it must. */
export function hiddenTable(results: readonly RowResult[]): { lines: string[]; good: boolean } {
  const head = [
    'hidden shops',
    'gain held',
    'mean held',
    'by luck alone',
    'warned',
    'not warned: gain, mean',
    'single shifts: claimed, came',
    'nine in ten: claimed, came',
    'firm verdicts wrong',
    '“was not the constraint” wrong',
  ];
  const rows = results.map(({ row, shops, held }) => {
    const not = held.filter((one) => one.verdict === 'was not the constraint');
    const quiet = held.filter((one) => !one.warned);
    const shares = (
      of: readonly Held[],
      ...what: ('gain' | 'mean' | 'gainByLuck' | 'meanByLuck')[]
    ): string =>
      of.length === 0 ? '' : what.map((name) => percent(mean(of.map((one) => Number(one[name]))))).join(', ');
    const wrong = (of: readonly Held[]): string => `${wrongOf(of).length} of ${of.length}`;
    return [
      `${row.name} (${shops})`,
      shares(held, 'gain'),
      shares(held, 'mean'),
      shares(held, 'gainByLuck', 'meanByLuck'),
      `${held.length - quiet.length}`,
      shares(quiet, 'gain', 'mean'),
      `${percent(mean(held.map((one) => one.claimedInside)))}, ${percent(mean(held.map((one) => one.shifts)))}`,
      `${percent(mean(held.map((one) => one.claimedPromise)))}, ${percent(mean(held.map((one) => one.promise)))}`,
      wrong(firmOf(held)),
      wrong(not),
    ];
  });
  const line = (cells: string[]): string => `| ${cells.join(' | ')} |`;
  return {
    lines: [line(head), line(head.map((_, i) => (i === 0 ? '---' : '--:'))), ...rows.map(line)],
    good: results.every(isGood),
  };
}

/**
 * The ledger of what can be done: every fix alone on usual days, on the same luck; the free ones that surely
 * pay put together, the best first; then what is bought, stayed for or hired once more, on top of those.
 *
 * There are dozens of rows, and most need only be put in order: they are run by a coarse rule. What has a
 * price, and the free ones together, are what somebody decides on: they are run by the rule of the file, on
 * the shifts of a question about that one thing alone, and so have its figures to the last digit.
 */
import type { Runner } from '../record/job.ts';
import { resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { fixesOf, type Fix } from './fixes.ts';
import type { Asked } from './one-more.ts';
import type { StudyState } from './study.ts';
import type { PairSummary } from './summary.ts';
import { onUsualDays, usualPair, type OnUsualDays, type UsualChoice } from './usual-days.ts';

/** Money a shift: what more good units bring in, less what wages grow by. Ranges are put end to end. */
export interface Net {
  estimate: number;
  low: number;
  high: number;
}

export type LedgerRow = Omit<Fix, 'apply'> & {
  /** Good units, overtime minutes and wages a shift, over things as they are. */
  alone: PairSummary;
  /** The same on top of the free fixes; null where there are none, or it was not asked. */
  after: PairSummary | null;
};

export interface Ledger {
  rows: LedgerRow[];
  /** Free fixes to do, by id, each on top of those before it. */
  first: string[];
  /** All of those together; null where there are none. */
  together: PairSummary | null;
  /** The coarse rule's; `pairs` of what has a price are not those of its rows. */
  usual: OnUsualDays;
  /** What has a price, by the rule of the file; null where nothing has. */
  priced: OnUsualDays | null;
}

/** What a pair brings in a shift; null where the file does not say what a unit brings. */
export function netOf(scenario: Scenario, { good, cost }: Pick<PairSummary, 'good' | 'cost'>): Net | null {
  const { margin } = resolvePlant(scenario).money;
  if (margin === null) return null;
  return {
    estimate: good.estimate * margin - cost.estimate,
    low: good.low * margin - cost.high,
    high: good.high * margin - cost.low,
  };
}

/** A ledger has many rows and needs each less exactly than one question does. */
export const LEDGER = { first: 60, most: 200, precision: 0.5 };
/** So many free fixes are put together at most. */
const MOST_FIRST = 2;

/** Null where it was stopped before the end. Throws RunawayError, and what the runner throws. */
export async function ledgerOf(
  scenario: Scenario,
  runner: Runner,
  asked: Asked = {},
  onLook?: (state: StudyState) => void,
  signal?: AbortSignal,
  fixes: Fix[] = fixesOf(scenario),
): Promise<Ledger | null> {
  const run = (cell: Scenario, tried: readonly Fix[], how: Asked): Promise<OnUsualDays | null> =>
    onUsualDays(cell, choicesOf(cell, tried), runner, how, onLook, signal);
  const price = (cell: Scenario, tried: readonly Fix[]): Promise<OnUsualDays | null> =>
    run(cell, tried, asking(asked));
  const usual = await price(scenario, fixes);
  if (usual === null) return null;
  const forSale = fixes.filter(hasPrice);
  const priced = await run(scenario, forSale, asked);
  const alone = (id: string): PairSummary | undefined => usualPair(priced, id) ?? usualPair(usual, id);
  const first: Fix[] = [];
  let cell = scenario;
  let on: OnUsualDays | null = usual;
  let left = fixes.filter((fix) => fix.group === 'free' && pays(scenario, alone(fix.id)));
  while (left.length > 0 && on !== null && first.length < MOST_FIRST) {
    const best: Fix | null = bestOf(scenario, left, on);
    if (best === null) break;
    first.push(best);
    cell = best.apply(cell) ?? cell;
    left = left.filter(({ about }) => about !== best.about);
    on = left.length > 0 && first.length < MOST_FIRST ? await price(cell, left) : null;
  }
  const [together = null, ...after] = first.length === 0 ? [] : await afterThem();
  const afterwards = (id: string): PairSummary | null =>
    after.map((one) => usualPair(one, id)).find((pair) => pair !== undefined) ?? null;
  return {
    rows: fixes.flatMap(({ apply: _, ...fix }) => {
      const pair = alone(fix.id);
      // A file's choices may be what goes wrong, such as somebody who calls out: those are nothing to do.
      const harms = fix.id.startsWith('option-') && pair !== undefined && pair.good.estimate <= 0;
      return pair === undefined || harms ? [] : [{ ...fix, alone: pair, after: afterwards(fix.id) }];
    }),
    first: first.map(({ id }) => id),
    together: usualPair(together, 'first') ?? null,
    usual,
    priced,
  };

  /** All the free ones over things as they are, and what costs money on top of them. */
  async function afterThem(): Promise<(OnUsualDays | null)[]> {
    const all = [{ id: 'first', name: 'the free fixes', scenario: cell }];
    const costing = fixes.filter((fix) => fix.group !== 'free' && fix.group !== 'loosened' && !hasPrice(fix));
    return [
      await onUsualDays(scenario, all, runner, asked, onLook, signal),
      await run(cell, forSale, asked),
      await price(cell, costing),
    ];
  }
}

/** Something to buy at a price that somebody says. */
export const hasPrice = ({ group, price }: Pick<Fix, 'group' | 'price'>): boolean =>
  group === 'bought' && price !== null && price > 0;

const asking = (asked: Asked): Asked => ({ ...asked, settings: { ...LEDGER, ...asked.settings } });

const choicesOf = (cell: Scenario, fixes: readonly Fix[]): UsualChoice[] =>
  fixes.flatMap(({ id, name, apply }) => {
    const changed = apply(cell);
    return changed === null ? [] : [{ id, name, scenario: changed }];
  });

/** Whether it surely adds units and, where the file says what they bring, surely more than it costs. */
const pays = (scenario: Scenario, pair: PairSummary | undefined): boolean =>
  pair !== undefined && pair.good.low > 0 && (netOf(scenario, pair)?.low ?? 1) > 0;

/** The one of these that brings the most, of those that surely pay. */
function bestOf(scenario: Scenario, fixes: readonly Fix[], on: OnUsualDays): Fix | null {
  const worth = ({ id }: Fix): number => {
    const pair = usualPair(on, id);
    if (pair === undefined || !pays(scenario, pair)) return -Infinity;
    return netOf(scenario, pair)?.estimate ?? pair.good.estimate;
  };
  const best = fixes.reduce<Fix | null>(
    (most, one) => (most === null || worth(one) > worth(most) ? one : most),
    null,
  );
  return best === null || worth(best) === -Infinity ? null : best;
}

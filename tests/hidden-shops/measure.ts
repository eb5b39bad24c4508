/**
 * Shops whose truth is hidden: of each only 25 timings a step are seen (or what somebody remembers), and how
 * many of some checked pieces went back. They go the whole way a lead's go (lead.ts), and what the answer
 * says is held against what another program finds of the true shop (simulator.ts).
 */
import { oneMoreAnswer, oneMoreRequest } from '../../src/study/clamp-question.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { fileOf, SETS } from './lead.ts';
import { ROWS, type Row } from './rows.ts';
import { goodUnits, Luck } from './simulator.ts';

export { ROWS } from './rows.ts';
export { CHECKED, EACH } from './lead.ts';
export { hiddenTable } from './table.ts';
export { crewTable, oneCrew } from './crew.ts';
export { nowTable, oneShopsDays } from './now.ts';

export interface Held {
  gain: boolean;
  mean: boolean;
  /** Luck alone, as it was before. */
  gainByLuck: boolean;
  meanByLuck: boolean;
  /** Share of the true shifts within nine in ten to one in ten, and what that should be. */
  shifts: number;
  promise: number;
  /** The same as the answer itself says them: whole units make them more than eight and nine in ten. */
  claimedInside: number;
  claimedPromise: number;
  verdict: string;
  right: boolean | null;
  warned: boolean;
  gainOff: number;
  halfGain: number;
  /** Runs behind it: of the question's own, and pairs of runs with other times. */
  count: number;
  pairs: number;
}

/** Luck of a shop of its own: no two rows have the same shops. */
export const luckOf = (row: Row, shop: number): Luck =>
  new Luck(7919 * (shop + 20_000 * ROWS.indexOf(row)) + 17);

export async function oneShop(row: Row, shop: number, trueShifts: number): Promise<Held> {
  const luck = luckOf(row, shop);
  const hidden = row.shop(luck);
  const sets = row.sets ?? SETS;
  const { scenario, warned } = fileOf(hidden, row.told ?? 'timed', shop, luck, sets);
  const state = await runStudy(oneMoreRequest(scenario, 'clamp'), inLineRunner());
  const answer = oneMoreAnswer(scenario, 'clamp', summarize(state));
  const goods = [0, 1, 2].map((more) =>
    Array.from({ length: trueShifts }, () => goodUnits(hidden.truth, sets + more, luck)),
  );
  const means = goods.map((list) => list.reduce((sum, one) => sum + one, 0) / list.length);
  const [one] = answer.study.cases;
  const { gain, verdict, matters } = answer;
  const trueGain = means[1]! - means[0]!;
  const held = (range: { low: number; high: number }, truth: number): boolean =>
    range.low <= truth && truth <= range.high;
  const byLuck = ({ estimate, luck: half }: { estimate: number; luck: number }, truth: number): boolean =>
    Math.abs(estimate - truth) <= half;
  const { nineInTen, oneInTen } = one!.spread;
  return {
    gain: held(gain, trueGain),
    mean: held(one!.good, means[0]!),
    gainByLuck: byLuck(gain, trueGain),
    meanByLuck: byLuck(one!.good, means[0]!),
    shifts: goods[0]!.filter((good) => good >= nineInTen && good <= oneInTen).length / trueShifts,
    promise: goods[0]!.filter((good) => good >= nineInTen).length / trueShifts,
    claimedInside: one!.spread.inside,
    claimedPromise: one!.spread.reached.find(({ value }) => value === nineInTen)?.share ?? NaN,
    verdict: verdict!.kind,
    right: rightOf(verdict!.kind, trueGain, means[2]! - means[1]!, matters),
    warned,
    gainOff: gain.estimate - trueGain,
    halfGain: gain.half,
    count: state.stopping.done,
    pairs: state.inputs?.design.pairs ?? 0,
  };
}

/** Whether a firm verdict is right; null where it is not firm. */
function rightOf(kind: string, gain: number, next: number, matters: number): boolean | null {
  if (kind === 'removes') return gain >= matters && next < matters;
  if (kind === 'eases') return gain >= matters && next >= matters;
  return kind === 'was not the constraint' ? gain < matters : null;
}

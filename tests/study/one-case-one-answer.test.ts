/**
 * One case has one answer: the same cell, seed and precision give the same gain, verdict, constraint and
 * payback, whatever else was asked at the same time, on the demo and on the shops of the tests.
 */
import { describe, expect, test } from 'vitest';
import { makeBrief } from '../../src/report/brief.ts';
import { returnOf } from '../../src/report/parts/money.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { moreGear } from '../../src/scenario/changing/more.ts';
import { ONE_MORE, oneMoreAnswer, oneMoreRequest } from '../../src/study/clamp-question.ts';
import { baseCase, comparison } from '../../src/study/from-scenario.ts';
import { fixesOf } from '../../src/study/fixes.ts';
import { ledgerOf } from '../../src/study/ledger.ts';
import { limitsOf } from '../../src/study/loosened.ts';
import { extrasOf, oneMoreOfEach, type OneMoreOfEach } from '../../src/study/one-more.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize, type PairSummary } from '../../src/study/summary.ts';
import { onUsualDays, usualPair } from '../../src/study/usual-days.ts';
import { verdictOf } from '../../src/study/verdict.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

const runner = inLineRunner();
/** The rule as it is, each column with a count of its own, but soon done. */
const asked = { settings: { first: 12, most: 20, precision: 0.7 } };

const cells = [
  ['chair-works', shipped('chair-works')] as const,
  ...SHOPS.map((name) => [name, shop(name)] as const),
];

/** The gear asked about, and an option of the file that is one more of just that. */
function questionOf(cell: Scenario): { gear: string; scenario: Scenario } {
  const extra = extrasOf(cell).find(({ kind }) => kind === 'gear')!;
  const count = cell.gear![extra.of]!.count;
  return {
    gear: extra.of,
    scenario: {
      ...cell,
      options: {
        another: { name: 'one more', price: 1000, changes: { gear: { [extra.of]: { count: count + 1 } } } },
        late: { name: 'late', changes: { intake: { ...cell.intake, late: 30 } } },
      },
      gear: { ...cell.gear, [extra.of]: { ...cell.gear![extra.of]!, price: 1000 } },
    } as Scenario,
  };
}

const figures = ({ good, cost }: Pick<PairSummary, 'good' | 'cost'>): unknown => ({
  good: [good.estimate, good.low, good.high, good.count],
  cost: [cost.estimate, cost.low, cost.high, cost.count],
});
const pairOf = ({ study }: OneMoreOfEach, id: string): PairSummary =>
  study.pairs.find(({ after }) => after === id)!;

describe.each(cells)('%s', (_name, cell) => {
  const { gear, scenario } = questionOf(cell);

  test('the gain of one more, its verdict and its payback are the same whoever asks', async () => {
    const one = oneMoreAnswer(
      scenario,
      gear,
      summarize(await runStudy(oneMoreRequest(scenario, gear, asked), runner)),
    );
    const each = await oneMoreOfEach(scenario, runner, asked);
    const limits = await oneMoreOfEach(scenario, runner, asked, undefined, undefined, limitsOf(scenario));
    const request = comparison(scenario);
    const compared = summarize(
      await runStudy({ ...request, settings: { ...request.settings, ...asked.settings } }, runner),
    );
    const expected = figures(one.study.pairs[0]!);
    const more = pairOf(each, `gear-${gear}`);
    expect(figures(more)).toEqual(expected);
    expect(figures(pairOf(limits, `gear-${gear}`))).toEqual(expected);
    expect(figures(compared.pairs.find(({ after }) => after === 'another')!)).toEqual(expected);
    expect(verdictOf(more.good, one.nextGain, one.matters)).toEqual(one.verdict);
    const payback = (pair: PairSummary): unknown => returnOf(scenario, { price: 1000, pair });
    expect(payback(more)).toEqual(payback(one.study.pairs[0]!));
    // What holds the cell back, too: other things that are loosened at the same time change nothing in it.
    expect(limits.constraint).toEqual(each.constraint);
    for (const row of each.rows)
      expect([row.id, row.gain]).toEqual([row.id, limits.rows.find(({ id }) => id === row.id)!.gain]);
  });
});

test('the brief says what one-more and limits say, and a study of the cell alone what the others say of it', async () => {
  const { gear, scenario } = questionOf(shipped('chair-works'));
  const moved = { first: 10, most: 10, precision: 1e9 };
  // Enough of them to tell what leads.
  const asked = { settings: { first: 24, most: 40, precision: 0.7 } };
  const [more, options] = [
    await makeBrief(scenario, { kind: 'one more', gear }, runner, { asked, moved, ledger: false }),
    await makeBrief(scenario, { kind: 'options', ids: ['late', 'another'] }, runner, {
      asked,
      moved,
      ledger: false,
    }),
  ];
  if (more.answer.kind !== 'one more' || options.answer.kind !== 'options') throw new Error('other answers');
  const { one } = more.answer;
  expect(figures(options.answer.study.pairs[1]!)).toEqual(figures(one.study.pairs[0]!));
  expect(options.answer.leading).toBe('another');
  expect(options.answer.over.map(({ id }) => id)).toEqual(['late']);
  expect(options.answer.then!.constraint).toEqual(one.then!.constraint);
  // Whoever is named as holding the cell back is one whose own gain matters, so no page contradicts another.
  const named = new Set(one.then!.constraint);
  for (const row of one.then!.rows)
    if (named.has(row.constraint)) expect(row.gain.low).toBeGreaterThanOrEqual(one.matters);
  const alone = summarize(
    await runStudy({ cases: [baseCase(scenario)], pairs: [], settings: asked.settings }, runner),
  );
  const mean = (study: typeof alone): number => study.cases[0]!.good.estimate;
  expect(Math.abs(mean(alone) - mean(one.study))).toBeLessThan(alone.cases[0]!.good.half);
});

test.each(cells)('the ledger of %s prices one more thing as one-more does', async (_name, cell) => {
  const { gear, scenario } = questionOf(cell);
  const settings = { first: 12, most: 24 };
  const more = [{ id: ONE_MORE, name: 'one more', scenario: moreGear(scenario, gear, 1) }];
  const usual = await onUsualDays(scenario, more, runner, { settings });
  const fixes = fixesOf(scenario).filter(({ id }) => id === `gear-${gear}` || id.startsWith('bench-'));
  const ledger = (await ledgerOf(scenario, runner, { settings }, undefined, undefined, fixes))!;
  const row = ledger.rows.find(({ id }) => id === `gear-${gear}`)!;
  expect(figures(row.alone)).toEqual(figures(usualPair(usual, ONE_MORE)!));
  expect(row.price).toBe(1000);
});

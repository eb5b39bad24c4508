import { describe, expect, test } from 'vitest';
import { contest, RACE_CHOICE } from '../../src/staffing/contest.ts';
import { departures, keyOf, type Draft } from '../../src/staffing/draft.ts';
import { everyDraft } from '../../src/staffing/every-draft.ts';
import { covered } from '../../src/staffing/neighbours.ts';
import { openDay, type CrewQuestion } from '../../src/staffing/question.ts';
import { findDrafts } from '../../src/staffing/search.ts';
import { asFiled } from '../../src/staffing/starts.ts';
import { openTrials } from '../../src/staffing/trials.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { longRun, TWO_PEOPLE, type TrueFigures } from './small-cells.ts';

const ONLY_POSTS = { changes: 0, breaks: false, lastStart: false, rule: false } as const;
const LONG = 2000;

/** Plans the day, and runs every plan there is for long. */
async function againstAll(question: CrewQuestion, matters = 1) {
  const day = openDay(question);
  const every = everyDraft(day, 60)!;
  const trials = openTrials(day, inLineRunner());
  const found = await findDrafts(trials);
  const raced = await contest(trials, found, { ...RACE_CHOICE, matters });
  const truth = new Map(every.map((draft) => [keyOf(draft), longRun(day, draft, LONG)]));
  const chosen = raced.drafts[raced.result.chosen!]!;
  const of = (draft: Draft): TrueFigures => truth.get(keyOf(draft))!;
  const file = asFiled(day);
  const change = (draft: Draft): number => raced.change * departures(file, draft);
  const { margin, wanted } = day.objective;
  const cost = (draft: Draft): number => of(draft).cost + change(draft);
  const worth = (draft: Draft): number => margin * of(draft).upTo(wanted) - cost(draft);
  return { day, every, found, raced, of, cost, worth, chosen, file };
}

describe('a cell small enough to try every plan', () => {
  test('lists every plan that keeps the rules, and no other', () => {
    const day = openDay({ scenario: TWO_PEOPLE, overtime: { cap: 15 }, vary: ONLY_POSTS });
    const every = everyDraft(day, 60)!;
    // Each stands alone at a step, or at two in either order: 3 posts each, 9 together, but for the one
    // without unclamping; times no overtime, or a quarter of an hour for ada, bo or both.
    expect(every).toHaveLength(8 * 4);
    expect(every.every((draft) => covered(day, draft))).toBe(true);
    expect(everyDraft(day, 31)).toBeNull();
    expect(everyDraft(openDay({ scenario: TWO_PEOPLE }), 60)).toBeNull();
  });

  test('finds the plan worth most that makes the target, or the cheapest, as running them all long does', async () => {
    const question = {
      scenario: mergePatch(TWO_PEOPLE, { money: { margin: 12 }, study: { promise: 80 } }) as Scenario,
      target: 11,
      overtime: { cap: 15 },
      vary: ONLY_POSTS,
    };
    const [most, least] = [await againstAll(question), await againstAll({ ...question, cheapest: true })];
    for (const { found, raced, of, chosen } of [most, least]) {
      expect(found.kind).toBe('all');
      expect(raced.result).toMatchObject({ kind: 'makes', level: 11, capped: false });
      expect(of(chosen).chance(11)).toBeGreaterThan(0.75);
    }
    const able = most.every.filter((draft) => most.of(draft).chance(11) >= 0.85);
    expect(able.length).toBeGreaterThan(0);
    expect(able.length).toBeLessThan(most.every.length);
    const { of, worth, cost, file } = most;
    // The zone of a dollar, and what 2,000 shifts leave open.
    expect(worth(most.chosen)).toBeGreaterThan(Math.max(...able.map(worth)) - 1 - 0.3);
    expect(cost(least.chosen)).toBeLessThan(Math.min(...able.map(cost)) + 1 + 0.3);
    expect(of(most.chosen).good).toBeGreaterThan(of(file).good - 0.1);
  });

  test('gives up no pieces that can be sold to save a little, unless the cheapest is asked for', async () => {
    const question = {
      scenario: mergePatch(TWO_PEOPLE, { money: { margin: 20, sellsMore: true } }) as Scenario,
      target: 8,
      overtime: null,
      vary: ONLY_POSTS,
    };
    const most = await againstAll(question, 0.2);
    const least = await againstAll({ ...question, cheapest: true }, 0.2);
    const { of, worth, every, file } = most;
    expect(worth(most.chosen)).toBeGreaterThan(Math.max(...every.map(worth)) - 0.2 - 0.5);
    // The cheapest saves a quarter of a dollar, and loses most of a piece worth twenty.
    expect(of(least.chosen).cost).toBeLessThan(of(most.chosen).cost - 0.1);
    expect(worth(least.chosen)).toBeLessThan(worth(most.chosen) - 10);
    expect(of(most.chosen).good).toBeGreaterThan(of(file).good + 0.5);
  });

  test('where nothing has a price, finds the surest plan', async () => {
    const { raced, every, of, chosen } = await againstAll({
      scenario: TWO_PEOPLE,
      target: 11,
      confidence: 0.8,
      overtime: { cap: 15 },
      vary: ONLY_POSTS,
    });
    expect(raced.result).toMatchObject({ kind: 'makes', level: 11, capped: false });
    const surest = Math.max(...every.map((draft) => of(draft).chance(11)));
    expect(of(chosen).chance(11)).toBeGreaterThan(surest - 0.05 - 0.02);
  });

  test('where the target is out of reach, promises what the best of all plans can promise', async () => {
    const { every, raced, of, chosen } = await againstAll({
      scenario: TWO_PEOPLE,
      target: 14,
      confidence: 0.8,
      overtime: null,
      vary: ONLY_POSTS,
    });
    const promise = raced.result.level!;
    expect(raced.result.kind).toBe('promises');
    expect(of(chosen).chance(promise)).toBeGreaterThan(0.75);
    const more = Math.max(...every.map((draft) => of(draft).chance(promise + 1)));
    expect(more).toBeLessThan(0.85);
    const worst = Math.min(...every.map((draft) => of(draft).chance(promise)));
    expect(worst).toBeLessThan(0.5);
  });
});

import { describe, expect, test } from 'vitest';
import { contest, RACE_CHOICE } from '../../src/staffing/contest.ts';
import { departures, draftOf, keyOf } from '../../src/staffing/draft.ts';
import { everyDraft } from '../../src/staffing/every-draft.ts';
import { covered } from '../../src/staffing/neighbours.ts';
import { openDay, type CrewQuestion } from '../../src/staffing/question.ts';
import { findDrafts } from '../../src/staffing/search.ts';
import { filled } from '../../src/staffing/starts.ts';
import { openTrials } from '../../src/staffing/trials.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { longRun, TWO_PEOPLE } from './small-cells.ts';

const ONLY_POSTS = { changes: 0, breaks: false, lastStart: false, rule: false } as const;
const LONG = 2000;

/** Plans the day, and runs every plan there is for long. */
async function againstAll(question: CrewQuestion) {
  const day = openDay(question);
  const every = everyDraft(day, 60)!;
  const trials = openTrials(day, inLineRunner());
  const found = await findDrafts(trials);
  const raced = await contest(trials, found, { ...RACE_CHOICE, matters: 1 });
  const truth = new Map(every.map((draft) => [keyOf(draft), longRun(day, draft, LONG)]));
  return { day, every, found, raced, truth, chosen: raced.drafts[raced.result.chosen!]! };
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

  test(
    'finds the cheapest plan that makes the target, as running them all long does',
    { timeout: 120_000 },
    async () => {
      const { day, every, found, raced, truth, chosen } = await againstAll({
        scenario: TWO_PEOPLE,
        target: 12,
        overtime: { cap: 15 },
        vary: ONLY_POSTS,
      });
      expect(found.kind).toBe('all');
      expect(raced.result).toMatchObject({ kind: 'makes', level: 12, capped: false });
      expect(truth.get(keyOf(chosen))!.chance(12)).toBeGreaterThan(0.75);
      const file = filled(day, draftOf(day));
      const counted = (key: string): number =>
        truth.get(key)!.cost +
        raced.change *
          departures(
            file,
            every.find((draft) => keyOf(draft) === key)!,
          );
      const able = every.map(keyOf).filter((key) => truth.get(key)!.chance(12) >= 0.85);
      expect(able.length).toBeGreaterThan(0);
      expect(able.length).toBeLessThan(every.length);
      expect(counted(keyOf(chosen))).toBeLessThan(Math.min(...able.map(counted)) + 1 + 0.3);
    },
  );

  test(
    'where the target is out of reach, promises what the best of all plans can promise',
    { timeout: 120_000 },
    async () => {
      const { every, raced, truth, chosen } = await againstAll({
        scenario: TWO_PEOPLE,
        target: 14,
        overtime: null,
        vary: ONLY_POSTS,
      });
      const promise = raced.result.level!;
      expect(raced.result.kind).toBe('promises');
      expect(truth.get(keyOf(chosen))!.chance(promise)).toBeGreaterThan(0.75);
      const more = Math.max(...every.map((draft) => truth.get(keyOf(draft))!.chance(promise + 1)));
      expect(more).toBeLessThan(0.85);
      const worst = Math.min(...every.map((draft) => truth.get(keyOf(draft))!.chance(promise)));
      expect(worst).toBeLessThan(0.5);
    },
  );
});

/**
 * The demo's crew with two people out, against brute force over the same choices: who stands where and in
 * which order. Every plan there is runs on the same shifts, in three rounds that each keep the best by far
 * more than the planner looks at.
 */
import { readFileSync } from 'node:fs';
import { contest, RACE_CHOICE } from '../../../src/staffing/contest.ts';
import { withDraft, type Draft } from '../../../src/staffing/draft.ts';
import { everyDraft } from '../../../src/staffing/every-draft.ts';
import { openDay, type Day } from '../../../src/staffing/question.ts';
import { findDrafts } from '../../../src/staffing/search.ts';
import { asFiled } from '../../../src/staffing/starts.ts';
import { breaksLimit, openTrials, type Figures } from '../../../src/staffing/trials.ts';
import { describeChanges, diffPatch } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';

const OUT = ['tova', 'kofi'];
const BRUTE = 7_000_000;
const ROUNDS = [
  { shifts: 40, keep: 600 },
  { shifts: 400, keep: 40 },
  { shifts: 6000, keep: 40 },
];

const chanceOf = (figures: Figures, level: number): number =>
  figures.good.filter((good) => good >= level).length / figures.good.length;
const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

export async function bruteForce(print: (line: string) => void): Promise<boolean> {
  const chairs = JSON.parse(readFileSync('scenarios/chair-works.json', 'utf8')) as Scenario;
  const attendance = Object.fromEntries(OUT.map((id) => [id, { kind: 'out' as const }]));
  const day = openDay({
    scenario: chairs,
    attendance,
    overtime: null,
    vary: { changes: 0, breaks: false, lastStart: false, rule: false },
  });
  const every = everyDraft(day, Infinity)!;
  const trials = openTrials(day, inLineRunner());
  const found = await findDrafts(trials);
  const raced = await contest(trials, found, RACE_CHOICE);
  const chosen = raced.drafts[raced.result.chosen!]!;
  const level = raced.result.level!;
  print(`${OUT.join(' and ')} out; posts and order open: ${every.length} plans keep the rules.`);
  print(
    `The planner tried ${found.tried}, raced ${raced.drafts.length}, ran ${trials.spent} shifts, and promises ${level} (${day.confidence * 100} % asked).`,
  );
  const judge = openTrials(day, inLineRunner());
  const best = await sieve(judge, every, level);
  const own = await judge.see(chosen, ROUNDS.at(-1)!.shifts, BRUTE);
  const line = (draft: Draft, figures: Figures): string =>
    `chance of ${level} ${(100 * chanceOf(figures, level)).toFixed(1)} %, of ${level + 1} ${(100 * chanceOf(figures, level + 1)).toFixed(1)} %, mean ${mean(figures.good).toFixed(2)}, cost ${mean(figures.cost).toFixed(2)}: ${words(day, draft)}`;
  print(`Planner's:  ${line(chosen, own)}`);
  for (const draft of best.slice(0, 3))
    print(`Brute force: ${line(draft, await judge.see(draft, 1, BRUTE))}`);
  print(`Brute force ran ${judge.spent} shifts.`);
  const top = await judge.see(best[0]!, 1, BRUTE);
  return (
    chanceOf(own, level) >= day.confidence - RACE_CHOICE.zone &&
    chanceOf(top, level + 1) < day.confidence + RACE_CHOICE.zone
  );
}

/**
 * All plans on a few shifts, the best of them on more, by the chance of the next number up and then of this
 * one.
 */
async function sieve(judge: ReturnType<typeof openTrials>, every: Draft[], level: number): Promise<Draft[]> {
  let left = every;
  for (const { shifts, keep } of ROUNDS) {
    const scored: { draft: Draft; score: number }[] = [];
    for (const draft of left) {
      const figures = await judge.see(draft, shifts, BRUTE);
      if (!breaksLimit(figures))
        scored.push({
          draft,
          score: chanceOf(figures, level + 1) + chanceOf(figures, level) + mean(figures.good) / 1000,
        });
    }
    left = scored
      .sort((a, b) => b.score - a.score)
      .slice(0, keep)
      .map((one) => one.draft);
  }
  return left;
}

function words(day: Day, draft: Draft): string {
  const file = withDraft(day, asFiled(day));
  const changes = describeChanges(file, diffPatch(file, withDraft(day, draft)) as Record<string, unknown>);
  return changes.length === 0 ? 'the file’s posts' : changes.join('; ');
}

/**
 * How often the race of crew plans keeps its promise, on cells whose plans are known by running each of them
 * long: the whole path from drafts to the choice, with fresh luck for every repeat.
 */
import { readFileSync } from 'node:fs';
import { contest, RACE_CHOICE, type Contest } from '../../../src/staffing/contest.ts';
import { departures, keyOf, type Draft } from '../../../src/staffing/draft.ts';
import { everyDraft } from '../../../src/staffing/every-draft.ts';
import { openDay, type CrewQuestion, type Day } from '../../../src/staffing/question.ts';
import { findDrafts, type Found } from '../../../src/staffing/search.ts';
import { asFiled } from '../../../src/staffing/starts.ts';
import { openTrials } from '../../../src/staffing/trials.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { chanceInterval } from '../../../src/study/intervals/chance-interval.ts';
import type { Interval } from '../../../src/study/intervals/interval.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';
import { longRun, TWO_PEOPLE, type TrueFigures } from '../small-cells.ts';

export interface Problem {
  name: string;
  question: CrewQuestion;
  /** In money. */
  matters: number;
}

const ONLY_POSTS = { changes: 0, breaks: false, lastStart: false, rule: false } as const;

export const SMALL_PROBLEMS: Problem[] = [
  {
    name: 'Two people, the target within reach',
    question: { scenario: TWO_PEOPLE, target: 12, overtime: { cap: 15 }, vary: ONLY_POSTS },
    matters: 1,
  },
  {
    name: 'Two people, a good unit worth 12',
    question: {
      scenario: { ...TWO_PEOPLE, money: { margin: 12 } },
      target: 12,
      overtime: { cap: 15 },
      vary: ONLY_POSTS,
    },
    matters: 1,
  },
  {
    name: 'Two people, the target out of reach',
    question: { scenario: TWO_PEOPLE, target: 14, overtime: null, vary: ONLY_POSTS },
    matters: 1,
  },
];

export function demoProblems(): Problem[] {
  const chairs = JSON.parse(readFileSync('scenarios/chair-works.json', 'utf8')) as Scenario;
  const out = { kind: 'out' } as const;
  return [
    {
      name: 'The chair works, everybody in, 45 min of overtime',
      question: { scenario: chairs, overtime: { cap: 45 } },
      matters: 11,
    },
    {
      name: 'The chair works, Tova and Kofi out',
      question: { scenario: chairs, attendance: { tova: out, kofi: out }, overtime: { cap: 45 } },
      matters: 7,
    },
  ];
}

export interface Kept {
  name: string;
  candidates: number;
  repeats: number;
  right: number;
  capped: number;
  share: Interval;
  /** Shifts a race, and what equal numbers for every candidate would have come to. */
  shifts: number;
  equal: number;
}

export async function rehearse(problem: Problem, repeats: number, long: number): Promise<Kept> {
  const day = openDay(problem.question);
  const found = await candidatesOf(day);
  const known = [...found.finalists, asFiled(day)];
  const truth = new Map(known.map((draft) => [keyOf(draft), longRun(day, draft, long)]));
  let [right, capped, shifts, equal] = [0, 0, 0, 0];
  for (let repeat = 0; repeat < repeats; repeat++) {
    const own = openDay({
      ...problem.question,
      scenario: { ...problem.question.scenario, seed: `repeat ${repeat}` },
    });
    const raced = await contest(openTrials(own, inLineRunner()), found, {
      ...RACE_CHOICE,
      matters: problem.matters,
    });
    right += isRight(day, raced, truth) ? 1 : 0;
    capped += raced.result.capped ? 1 : 0;
    shifts += raced.result.replications / repeats;
    equal += raced.result.equalReplications / repeats;
  }
  return {
    name: problem.name,
    candidates: found.finalists.length,
    repeats,
    right,
    capped,
    share: chanceInterval(right, repeats, 0.99),
    shifts,
    equal,
  };
}

/** The same candidates for every repeat: all there are, or those of one search. */
async function candidatesOf(day: Day): Promise<Found> {
  const found = await findDrafts(openTrials(day, inLineRunner()));
  const every = everyDraft(day, 60);
  return every === null ? found : { ...found, finalists: every };
}

/** What the race promises of its choice (src/study/selection/race.ts), held against the long runs. */
function isRight(
  day: Day,
  { result, drafts, levels, matters, change }: Contest,
  truth: Map<string, TrueFigures>,
): boolean {
  if (result.chosen === null || result.level === null) return false;
  const { zone } = RACE_CHOICE;
  const file = asFiled(day);
  const of = (draft: Draft): TrueFigures => truth.get(keyOf(draft))!;
  const { by, margin, wanted } = day.objective;
  const cost = (draft: Draft): number => of(draft).cost + change * departures(file, draft);
  // By how much a plan is better than another, in indifference zones.
  const better = (one: Draft, other: Draft): number =>
    by === 'worth'
      ? (margin * (of(one).upTo(wanted) - of(other).upTo(wanted)) - cost(one) + cost(other)) / matters
      : by === 'cost'
        ? (cost(other) - cost(one)) / matters
        : (of(one).chance(result.level!) - of(other).chance(result.level!)) / zone;
  const chosen = drafts[result.chosen]!;
  const above = levels[levels.indexOf(result.level) - 1];
  const misses = of(chosen).chance(result.level) < day.confidence - zone;
  const tooLow =
    above !== undefined && drafts.some((draft) => of(draft).chance(above) >= day.confidence + zone);
  const worse = drafts.some(
    (draft) => of(draft).chance(result.level!) >= day.confidence + zone && better(draft, chosen) >= 1,
  );
  const fewer = by !== 'cost' && of(chosen).good < of(file).good - FEWER;
  return !misses && !tooLow && !worse && !fewer;
}

/** What the long runs leave open of a difference in good units. */
const FEWER = 0.1;

export async function guaranteeTable(
  repeats: number,
  markdown: boolean,
  print: (line: string) => void,
): Promise<boolean> {
  const cells = (...all: (string | number)[]): string =>
    markdown ? `| ${all.join(' | ')} |` : all.join('   ');
  print(
    cells(
      'case',
      'plans raced',
      'races',
      'kept its promise',
      'range (99 %)',
      'shifts a race',
      'equal numbers',
      'saved',
    ),
  );
  if (markdown) print('| --- | --- | --- | --- | --- | --- | --- | --- |');
  let good = true;
  for (const problem of [...SMALL_PROBLEMS, ...demoProblems()]) {
    const kept = await rehearse(problem, repeats, 20_000);
    good &&= kept.share.high >= RACE_CHOICE.guarantee;
    const per = (share: number): string => `${(100 * share).toFixed(1)} %`;
    print(
      cells(
        kept.name,
        kept.candidates,
        kept.repeats,
        per(kept.right / kept.repeats),
        `${per(kept.share.low)} to ${per(kept.share.high)}`,
        Math.round(kept.shifts),
        Math.round(kept.equal),
        per(1 - kept.shifts / kept.equal),
      ),
    );
  }
  return good;
}

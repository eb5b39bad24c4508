/**
 * What a brief is made of: a question, what the studies said of it, and how to get the same numbers again.
 * All plain JSON.
 */
import type { Scenario } from '../../scenario/schema.ts';
import type { Stood } from '../../study/by-reason.ts';
import type { CrewSheet } from '../../staffing/sheet.ts';
import type { OneMoreAnswer } from '../../study/clamp-question.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import type { Ledger } from '../../study/ledger.ts';
import type { OneMoreOfEach } from '../../study/one-more.ts';
import type { Sensitivity } from '../../study/sensitivity/sensitivity.ts';
import type { StaircaseResult } from '../../study/staircase.ts';
import type { CaseSummary, StudySummary } from '../../study/summary.ts';
import type { LogCoverage } from '../../timing/log-coverage.ts';
import type { OnUsualDays } from '../../study/usual-days.ts';

export type BriefQuestion =
  | { kind: 'one more'; gear: string }
  /** Options of the file by their ids, each against the file as it is. */
  | { kind: 'options'; ids: string[] }
  | { kind: 'limits' }
  | { kind: 'crew'; plan: CrewPlan };

/** A plan for a crew and what the shifts run of it made: all a brief needs of one. */
export interface CrewPlan {
  /** The day with the plan in it: who comes, posts, overtime. */
  scenario: Scenario;
  /** The answer in sentences, the heading first. */
  answer: string[];
  /** Who stands where. */
  sheet: CrewSheet;
  /** The plan's own shifts. */
  result: Pick<
    CaseSummary,
    'count' | 'good' | 'hangsOn' | 'spread' | 'target' | 'overtimeChance' | 'overtime' | 'cost'
  >;
  /** What is not known exactly and is in its ranges. */
  inputs: StudySummary['inputs'];
  /** Chance asked of the target, over 0 and under 1. */
  asked: number;
  /** How sure the ranges are: over 0, under 1. */
  confidence: number;
  /** Sentences on how it was found, the runner-up and what breaks the plan. */
  remarks: string[];
}

export type BriefAnswer =
  | { kind: 'one more'; one: OneMoreAnswer }
  /**
   * Cases: as it is, then the options in the question's order. `leading`: the option to go for. `over`: what
   * it makes above each of the others, on the same luck; all of them hold together.
   */
  | {
      kind: 'options';
      study: StudySummary;
      leading: string;
      over: { id: string; good: Interval }[];
      then: OneMoreOfEach | null;
      withLeading: boolean;
      /** The leading choice on usual days; null where it has no price, or was not run. */
      usual: OnUsualDays | null;
    }
  /** `usual`: what gains most on usual days; null where it has no price, or was not run. */
  | { kind: 'limits'; each: OneMoreOfEach; usual: OnUsualDays | null }
  | { kind: 'crew'; plan: CrewPlan };

export interface BriefData {
  question: BriefQuestion;
  answer: BriefAnswer;
  /**
   * Of the cell as it is; null where a picture of the question's own shows why, where it was stopped, and
   * where nothing limits the spreadsheet.
   */
  staircase: Omit<StaircaseResult, 'summary'> | null;
  /** Why gear and people stood in the cell as it is; null for a crew, and where it was stopped. */
  stood: Stood | null;
  /** Null where it was stopped, or there is nothing decided that an input could change. */
  sensitivity: Sensitivity | null;
  /** What to do first, to buy then, to leave. Null for a crew, and where it was stopped. */
  ledger: Ledger | null;
  /**
   * Good units a shift with nobody ever waiting, as it is; `alwaysSame`: every time is fixed, so it holds for
   * each shift. Null without a single shift.
   */
  reach: { ceiling: number; alwaysSame: boolean } | null;
}

/** Where the numbers come from, so that they can be had again. */
export interface Again {
  /** Name of the file, and version of the program. */
  file: string;
  version: string;
  seed: string;
  /** The command line that gives them; null where there is none. */
  command: string | null;
  /** The day the page was made, "2027-03-05"; left out: not said. */
  made?: string;
}

export interface BriefInput {
  /** The checked scenario the question was asked of. */
  scenario: Scenario;
  data: BriefData;
  again: Again;
  /** How earlier forecasts of the cell came out; left out: nothing is said of it. */
  record?: LogCoverage;
  /** Left out or empty: the question itself. */
  title?: string;
  /** Left out or empty: none. Lines stay apart. */
  notes?: string;
}

/** A crew plan as the blocks the page shows under its heading, in the words of the command line. */
import {
  absenceTable,
  answerSentences,
  exposureSentences,
  lateSentence,
  leanSentences,
  moneySentence,
  overtimeTable,
  runnerUpSentences,
  searchSentences,
  wouldDoTable,
} from '../../../src/report/crew-words.ts';
import { besideTable, chosenBySentence, movesSentences } from '../../../src/report/crew-moves.ts';
import { crewSure } from '../../../src/report/pages/crew-page.ts';
import { sheetRules } from '../../../src/report/crew-sheet.ts';
import type { WallSheet } from '../../../src/report/wall-sheet.ts';
import type { Block } from '../../../src/document/document.ts';
import { cautionsFor } from '../../../src/scenario/cautions.ts';
import { holdsBackSentence } from '../../../src/words/verdicts.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import { absenceRows, changeRows } from './beside-rows.ts';
import { differenceThatMatters } from '../../../src/study/from-scenario.ts';

const text = (words: string): Block => ({ kind: 'paragraph', text: words });
const part = (words: string): Block => ({ kind: 'heading', level: 2, text: words });

/** The rules that go with the picture of the day. */
export const ruleBlocks = (plan: CrewPlan): Block[] => [sheetRules(plan.sheet, true, lateSentence(plan))];

/** Who moves, and why. */
export const moveBlocks = (plan: CrewPlan, currency: string): Block[] =>
  plan.kind === 'over the limit' ? [] : [{ kind: 'list', items: movesSentences(plan, currency) }];

export const moneyBlocks = (plan: CrewPlan, currency: string): Block[] => [
  ...(plan.kind === 'over the limit'
    ? []
    : [text(`${moneySentence(plan, currency)} ${chosenBySentence(plan, currency)}`), text(crewSure(plan))]),
  ...besideTable(plan, currency),
  ...overtimeTable(plan, currency),
];

/** Blocks, and the rows in them that can be put beside on Compare. */
export interface ReasonPart {
  told: Block[];
  rows: typeof absenceRows | null;
}

export function reasonParts(plan: CrewPlan, currency: string): ReasonPart[] {
  const { constraint } = plan;
  const held =
    constraint === null || constraint.study.kind !== 'final'
      ? []
      : [text(holdsBackSentence(constraint.constraint, differenceThatMatters(plan.scenario)))];
  const leans: Block[] = [
    part('What it leans on'),
    { kind: 'list', items: [...leanSentences(plan), ...exposureSentences(plan)] },
    ...held,
  ];
  return [
    {
      told:
        plan.absences === null
          ? leans
          : [...leans, part('If somebody calls out'), absenceTable(plan.absences, plan.target)],
      rows: absenceRows,
    },
    ...(plan.wouldDo === null || plan.target === null
      ? []
      : [
          {
            told: [part('What would have to change'), ...wouldDoTable(plan.wouldDo, plan.target, currency)],
            rows: changeRows,
          },
        ]),
    {
      told: [
        part('The runner-up'),
        text(runnerUpSentences(plan, currency).join(' ')),
        part('How it was found'),
        ...searchSentences(plan, currency).map(text),
      ],
      rows: null,
    },
  ];
}

/** What hangs on the wall, of the day in words. */
export const wallOf = (plan: CrewPlan, day: string): WallSheet => ({
  sheet: plan.sheet,
  day,
  answer: answerSentences(plan),
  late: lateSentence(plan),
  cautions: cautionsFor(plan.scenario),
});

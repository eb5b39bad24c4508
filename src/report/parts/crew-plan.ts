/** From the planner's answer to the question of a brief. */
import { resolvePlant } from '../../scenario/resolve.ts';
import type { CrewPlan as Planned } from '../../staffing/plan-crew.ts';
import { whoMoves } from '../crew-moves.ts';
import { answerSentences, leanSentences, runnerUpSentences } from '../crew-words.ts';
import type { BriefQuestion } from './data.ts';

/** So many of the things a plan leans on find room on the page. */
const LEANS = 2;

export function crewQuestionOf(planned: Planned): Extract<BriefQuestion, { kind: 'crew' }> {
  const { scenario, study, confidence, sheet, kind } = planned;
  const raced =
    kind === 'over the limit'
      ? []
      : runnerUpSentences(planned, resolvePlant(scenario).money.currency).map((words) =>
          planned.runnerUp === null ? words : `The runner-up: ${words}`,
        );
  return {
    kind: 'crew',
    plan: {
      scenario,
      answer: answerSentences(planned),
      sheet,
      result: study.cases[0]!,
      asked: confidence,
      confidence: study.confidence,
      inputs: study.inputs,
      remarks: [whoMoves(planned), ...leanSentences(planned).slice(0, LEANS), ...raced].filter(
        (words) => words !== '',
      ),
    },
  };
}

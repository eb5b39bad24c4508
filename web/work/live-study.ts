/**
 * Questions for `Live`: a study, and one more of each thing. What comes out last is what the command line
 * prints.
 */
import type { Scenario } from '../../src/scenario/schema.ts';
import { differenceThatMatters } from '../../src/study/from-scenario.ts';
import { eachAnswer, eachRequest, extrasOf, type OneMoreOfEach } from '../../src/study/one-more.ts';
import { runStudy, type StudyRequest, type StudyState } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { usualAnswer, usualRequest, type OnUsualDays, type UsualChoice } from '../../src/study/usual-days.ts';
import type { Task, Tools } from './live.ts';
import { aTurn } from './turn.ts';

/** Milliseconds between two looks that are shown. */
const BETWEEN_LOOKS = 100;

/** What a request asks, names left out: another name is not another question. */
export function keyOfRequest({ cases, pairs, settings, count }: StudyRequest): string {
  return JSON.stringify([cases.map(({ shifts, warmUp }) => [shifts, warmUp]), pairs, settings, count]);
}

/**
 * A study. Until it is over only the numbers of whole days are told and the cases' `shifts` are empty; at its
 * end, or where it is stopped, everything is.
 */
export function studyTask(request: StudyRequest): Task<StudySummary> {
  return {
    key: keyOfRequest(request),
    run: async (tools) => {
      const state = await watched(request, tools, (look) => tools.show(summarize(look, false)));
      await aTurn();
      tools.show(summarize(state));
    },
  };
}

/**
 * One more of each thing a scenario has, or whatever else is tried; the first case is told in full at the
 * end.
 */
export function oneMoreTask(scenario: Scenario, extras = extrasOf(scenario)): Task<OneMoreOfEach> {
  const request = eachRequest(scenario, extras);
  const matters = differenceThatMatters(scenario);
  return {
    key: `${matters} ${keyOfRequest(request)}`,
    run: async (tools) => {
      const state = await watched(request, tools, (look) =>
        tools.show(eachAnswer(extras, look, matters, false)),
      );
      await aTurn();
      tools.show(eachAnswer(extras, state, matters));
    },
  };
}

/** A choice on usual days in a row, as its price is judged by; told once, at the end. */
export function usualTask(scenario: Scenario, choice: UsualChoice): Task<OnUsualDays> {
  const request = usualRequest(scenario, [choice]);
  return {
    key: `usual ${keyOfRequest(request)}`,
    run: async (tools) => {
      const answer = usualAnswer(await watched(request, tools, () => {}));
      await aTurn();
      if (answer !== null) tools.show(answer);
    },
  };
}

/**
 * Runs a study and tells of it now and then, in a turn of its own, but not of its last look: that is told in
 * full by who asked.
 */
function watched<Answer>(
  request: StudyRequest,
  { runner, signal }: Tools<Answer>,
  tell: (state: StudyState) => void,
): Promise<StudyState> {
  let told = -Infinity;
  return runStudy(
    request,
    runner,
    (state) => {
      if (state.look.enough || performance.now() - told < BETWEEN_LOOKS) return;
      told = performance.now();
      void aTurn().then(() => state.look.enough || signal.aborted || tell(state));
    },
    signal,
  );
}

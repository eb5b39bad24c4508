/**
 * What does one more of a piece of gear do: the cell as it is, with one more and with two more, on the same
 * replications; then, by experiment, what holds the cell back.
 */
import type { Runner } from '../record/job.ts';
import { shiftsOf } from '../scenario/options.ts';
import { moreGear } from '../scenario/changing/more.ts';
import { resolve, resolvePlant } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { baseCase, differenceThatMatters, settingsOf } from './from-scenario.ts';
import type { Interval } from './intervals/interval.ts';
import { oneMoreOfEach, type Asked, type OneMoreOfEach } from './one-more.ts';
import { runStudy, type StudyRequest, type StudyState } from './study.ts';
import { summarize, type StudySummary } from './summary.ts';
import { onUsualDays, type OnUsualDays } from './usual-days.ts';
import { verdictOf, type Verdict } from './verdict.ts';

export const ONE_MORE = 'one-more';
export const TWO_MORE = 'two-more';

export interface OneMoreAnswer {
  gear: { id: string; name: string; count: number; price: number | null };
  /** Cases: as it is, one more, two more. */
  study: StudySummary;
  /** What the next one gains, and what the one after it gains over that; the two hold together. */
  gain: Interval;
  nextGain: Interval;
  matters: number;
  /** Null while the runs are not finished: no verdict is drawn from interim ranges. */
  verdict: Verdict | null;
  /**
   * One more of each thing: with one more of the gear where that gains what matters, without it otherwise.
   * Null where it was not run.
   */
  then: (OneMoreOfEach & { withOneMore: boolean }) | null;
  /** What one more brings on usual days, for the price; null where nothing is said of money, or not run. */
  usual: OnUsualDays | null;
}

export type Stage = 'more' | 'each' | 'usual';

/**
 * Throws RangeError for gear the file does not have, RunawayError, and what the runner throws. Aborted, it
 * answers with what it has.
 */
export async function askOneMore(
  scenario: Scenario,
  gearId: string,
  runner: Runner,
  asked: Asked = {},
  onLook?: (state: StudyState, stage: Stage) => void,
  signal?: AbortSignal,
): Promise<OneMoreAnswer> {
  const state = await runStudy(
    oneMoreRequest(scenario, gearId, asked),
    runner,
    (look) => onLook?.(look, 'more'),
    signal,
  );
  const answer = oneMoreAnswer(scenario, gearId, summarize(state));
  if (answer.verdict === null) return answer;
  const withOneMore = gains(answer.verdict);
  const cell = withOneMore ? moreGear(scenario, gearId, 1) : scenario;
  const each = await oneMoreOfEach(cell, runner, asked, (look) => onLook?.(look, 'each'), signal);
  const usual = isPriced(scenario)
    ? await onUsualDays(
        scenario,
        [{ id: ONE_MORE, name: answer.gear.name, scenario: moreGear(scenario, gearId, 1) }],
        runner,
        asked,
        (look) => onLook?.(look, 'usual'),
        signal,
      )
    : null;
  return { ...answer, then: { ...each, withOneMore }, usual };
}

/** Whether the file says what a unit brings in: without it nothing pays back. */
export const isPriced = (scenario: Scenario): boolean => resolvePlant(scenario).money.margin !== null;

/** Whether one more surely gains what matters. */
const gains = (verdict: Verdict): boolean =>
  verdict.kind === 'removes' ||
  verdict.kind === 'eases' ||
  (verdict.kind === 'cannot tell yet' && verdict.open === 'next');

export function oneMoreRequest(scenario: Scenario, gearId: string, asked: Asked = {}): StudyRequest {
  const { name, count } = gearOf(scenario, gearId);
  return {
    cases: [
      baseCase(scenario),
      { id: ONE_MORE, name: `${count + 1} ${name}`, shifts: shiftsOf(moreGear(scenario, gearId, 1)) },
      { id: TWO_MORE, name: `${count + 2} ${name}`, shifts: shiftsOf(moreGear(scenario, gearId, 2)) },
    ],
    pairs: [
      { before: 0, after: 1 },
      { before: 1, after: 2 },
    ],
    settings: { ...settingsOf(scenario), ...asked.settings },
    ...(asked.count === undefined ? {} : { count: asked.count }),
  };
}

export function oneMoreAnswer(scenario: Scenario, gearId: string, study: StudySummary): OneMoreAnswer {
  const [gain, nextGain] = [study.pairs[0]!.good, study.pairs[1]!.good];
  const matters = differenceThatMatters(scenario);
  return {
    gear: gearOf(scenario, gearId),
    study,
    gain,
    nextGain,
    matters,
    verdict: study.kind === 'final' ? verdictOf(gain, nextGain, matters) : null,
    then: null,
    usual: null,
  };
}

function gearOf(scenario: Scenario, id: string): OneMoreAnswer['gear'] {
  const listed = resolve(scenario).gear.filter((one) => one.kind === 'gear');
  const gear = listed.find((one) => one.id === id);
  if (gear === undefined)
    throw new RangeError(
      `There is no gear "${id}" in this file; it has ${listed.map((one) => one.id).join(', ') || 'none'}.`,
    );
  return { id, name: gear.name, count: gear.count, price: gear.price };
}

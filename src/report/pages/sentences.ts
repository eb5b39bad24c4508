/** Sentences about one case, put together from a summary. */
import {
  makesSentence,
  promisesSentence,
  promiseSentence,
  sureEnoughSentence,
} from '../../words/sentences.ts';
import { mindSentence, narrowingSentence, partsOfRange } from '../../words/input-words.ts';
import { chanceWords } from '../../words/study-words.ts';
import { FEWEST, overtimeSentence } from '../../words/verdicts.ts';
import { fixed, percent, plain, roundUp, runsOf } from '../../words/words.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import type { Spread } from '../../study/spread.ts';
import type { CaseSummary, StudySummary } from '../../study/summary.ts';

/** The sentences that answer "how many, and do we make the number". */
export function caseSentences(one: CaseSummary, promise: number, overtimeAsked: boolean): string[] {
  const chance = chanceWords(one);
  return [
    promisesSentence(one.spread, one.shiftsInARow),
    ...(chance === null ? [] : [chance, sureEnoughSentence(one.target!.chance, promise)]),
    makesSentence(one.good),
    ...(overtimeAsked ? [overtimeWords(one)] : []),
  ];
}

/** What can be promised: the most that so many shifts in ten still make; of several shifts, together. */
export const promiseWords = (
  { spread, shiftsInARow }: Pick<CaseSummary, 'spread' | 'shiftsInARow'>,
  share: number,
): string => promiseSentence(madeBy(spread, share), share, shiftsInARow);

/** The most units that at least `share` of the shifts make. */
export const madeBy = ({ reached }: Pick<Spread, 'reached'>, share: number): number =>
  reached.reduce((made, one) => (one.share >= share - 1e-12 ? one.value : made), 0);

function overtimeWords(one: CaseSummary): string {
  const { estimate, count } = one.overtimeChance;
  const { finishing, plannedOvertime } = one.measures;
  return overtimeSentence({
    shifts: Math.round(estimate * count),
    count,
    minutes: one.overtime,
    parts: { finishing: finishing.estimate, planned: plannedOvertime.estimate },
  });
}

/** How sure the mean of a single choice is, what that hangs on, and what would narrow it. */
export function meanSureSentence(study: StudySummary, mean: Interval): string {
  const within = Number.isFinite(mean.half)
    ? `the mean is known to within ${fixed(roundUp(mean.half, 2), 2)} units a shift`
    : 'the mean is not known at all yet';
  const shifts = runsOf(study.count, mean.inARow);
  if (study.kind === 'partial')
    return `PARTIAL: stopped by hand after ${plain(study.count)} of ${runsOf(study.needed, mean.inARow)}; ${within}. This may still change.`;
  const capped = study.capped
    ? `, not to the ${plain(study.precision)} asked for: that is the most it may run`
    : '';
  const parts = Number.isFinite(mean.half) ? `: ${partsOfRange(mean, study.inputs)}` : '';
  const narrower = narrowingSentence(study.cases[0]?.hangsOn ?? null, study.inputs, mean.half);
  const mind = mindSentence(study.inputs);
  const known = `${within}, ${percent(study.confidence, 'down')} sure${capped}${parts}`;
  return [
    study.count < FEWEST
      ? `So far, from no more than ${shifts}: ${within}${parts}. This may still change.`
      : `From ${shifts}: ${known}.`,
    ...(narrower === null ? [] : [narrower]),
    ...(mind === null ? [] : [mind]),
  ].join(' ');
}

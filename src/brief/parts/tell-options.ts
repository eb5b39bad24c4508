/** Options of the file against the file as it is, as the page tells them. */
import { applyOption, describeChanges } from '../../scenario/options.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { differenceThatMatters } from '../../study/from-scenario.ts';
import type { CaseSummary } from '../../study/summary.ts';
import { comparisonPicture, twentyShifts } from '../pictures/index.ts';
import { bestSentence, holdsBackSentence, howSureSentence, soFar } from '../verdicts.ts';
import { differenceSentence, promisesSentence, type Measured, type Subject } from '../sentences.ts';
import { chanceWords, differenceCell, progressOf } from '../study-words.ts';
import { counted, plain, rangeText } from '../words.ts';
import type { BriefAnswer } from './data.ts';
import { bestOf } from './tell-limits.ts';
import { PICTURE_WIDTH } from './staircase.ts';
import { lowered, NOTHING_RUN, type Told } from './told.ts';

type Options = Extract<BriefAnswer, { kind: 'options' }>;

export function tellOptions(scenario: Scenario, answer: Options): Told {
  const { study, leading } = answer;
  const matters = differenceThatMatters(scenario);
  const ids = study.pairs.map((pair) => pair.after);
  const pair = study.pairs.find(({ after }) => after === leading)!;
  const subject: Subject = { kind: 'situation', words: `with ${nameOf(scenario, leading)}` };
  const final = study.kind === 'final';
  return {
    question: ids.length === 1
      ? `What does ${nameOf(scenario, ids[0]!)} change at ${scenario.name}, and does it pay?`
      : `Which of ${counted(ids.length, 'choice')} is best at ${scenario.name}, and does it pay?`,
    headline: headlineOf(scenario, answer, subject, matters),
    says: study.count === 0 ? [] : saysOf(scenario, answer),
    figures: study.count === 0 ? [] : [picture(scenario, answer)],
    wide: false,
    leads: null,
    bought: final ? { price: scenario.options?.[leading]?.price ?? null, pair, alone: ids.length === 1 } : null,
    costs: [],
    then: thenOf(answer, scenario, matters),
    sure: howSureSentence(progressOf(study), study.count, Math.max(...study.pairs.map((one) => one.good.half)), study.confidence),
    gain: final ? { subject, range: pair.good, matters } : null,
    cells: [scenario, ...ids.map((id) => applyOption(scenario, id))],
  };
}

const nameOf = (scenario: Scenario, id: string): string => `“${scenario.options?.[id]?.name ?? id}”`;

function headlineOf(scenario: Scenario, { study, leading }: Options, subject: Subject, matters: number): string[] {
  if (study.count === 0) return [NOTHING_RUN];
  const gain = study.pairs.find(({ after }) => after === leading)!.good;
  const gains = differenceSentence(subject, gain, { kind: 'units' }, matters);
  if (study.kind !== 'final') return [`PARTIAL: stopped by hand. ${soFar(gains, study.count)}`];
  if (study.pairs.length === 1) return [gains];
  if (gain.low < matters) return [`None of ${counted(study.pairs.length, 'choice')} surely adds the ${plain(matters)} units a shift that matter. ${gains}`];
  return [gains, againstNext(scenario, study.pairs.map(({ after, good }) => ({ after, good })), leading)];
}

/** The leading choice against the next: both gains' ranges hold together, so what lies between their far ends holds the lead. */
function againstNext(scenario: Scenario, pairs: { after: string; good: Measured }[], leading: string): string {
  const [first, next] = [...pairs].sort((a, b) => (a.after === leading ? -1 : b.after === leading ? 1 : b.good.estimate - a.good.estimate)) as [typeof pairs[0], typeof pairs[0]];
  const lead = { estimate: first.good.estimate - next.good.estimate, low: first.good.low - next.good.high, high: first.good.high - next.good.low, count: first.good.count };
  return bestSentence(nameOf(scenario, leading), nameOf(scenario, next.after), lead);
}

function saysOf(scenario: Scenario, { study, leading }: Options): string[] {
  const told = (one: CaseSummary): string => [lowered(promisesSentence(one.spread)), chanceWords(one) ?? ''].join(' ').trim();
  const best = study.cases.find(({ id }) => id === leading)!;
  const changes = describeChanges(scenario, scenario.options![leading]!.changes);
  return [
    `As it is: ${told(study.cases[0]!)} With ${nameOf(scenario, leading)}: ${told(best)}`,
    ...(changes.length === 0 ? [`${nameOf(scenario, leading)} changes nothing in the file.`] : [`It changes: ${changes.join('; ')}.`]),
  ];
}

function picture(scenario: Scenario, { study }: Options): Told['figures'][number] {
  const rows = study.cases.map((one, i) => ({
    name: one.name, values: valuesOf(one.spread.counts), mean: one.good.estimate, low: one.good.low, high: one.good.high,
    words: i === 0 ? `${rangeText(one.good).estimate} on average` : differenceCell(study.pairs[i - 1]!.good),
  }));
  const target = study.cases[0]!.target?.units ?? null;
  const description = `Good units a shift: ${study.cases.map((one, i) => `${one.name} ${rangeText(one.good).estimate}${i === 0 ? '' : `, ${differenceCell(study.pairs[i - 1]!.good)}`}`).join('; ')}.`;
  const foot = { shifts: study.count, seed: study.seed, unit: 'good units a shift' };
  return {
    kind: 'picture', file: 'choices.svg', description,
    svg: comparisonPicture({ title: `The choices at ${scenario.name}`, description, rows, target, foot }, { width: PICTURE_WIDTH, id: 'choices' }),
  };
}

/** Twenty shifts that stand for all of them. */
export const valuesOf = (counts: { value: number; shifts: number }[]): number[] =>
  twentyShifts(counts.flatMap(({ value, shifts }) => new Array<number>(shifts).fill(value)));

function thenOf({ then, withLeading, leading }: Options, scenario: Scenario, matters: number): string[] {
  if (then === null || then.study.kind !== 'final') return [];
  const begin = withLeading ? `With ${nameOf(scenario, leading)},` : 'As it is,';
  return [holdsBackSentence(then.constraint, matters, begin), bestOf(then, matters)].filter((words) => words !== '');
}

/** Options of the file against the file as it is, as the page tells them. */
import { applyOption, describeChanges } from '../../scenario/options.ts';
import { nameOf, resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { BASE, differenceThatMatters } from '../../study/from-scenario.ts';
import type { CaseSummary, StudySummary } from '../../study/summary.ts';
import { optionSubject } from '../../words/option-words.ts';
import { bestSentence, holdsBackSentence, soFar } from '../../words/verdicts.ts';
import { differenceSentence, promisesSentence, type Subject } from '../../words/sentences.ts';
import { chanceWords, differenceCell, differenceWith, studySure } from '../../words/study-words.ts';
import { counted, fixed, money, plain } from '../../words/words.ts';
import { between } from './between.ts';
import type { BriefAnswer } from './data.ts';
import { bestOf } from './tell-limits.ts';
import { usualPair } from '../../study/usual-days.ts';
import { casesPicture } from './cases-picture.ts';
import type { TableBlock } from '../../document/document.ts';
import { lowered, NOTHING_RUN, type PictureBlock, type Told } from './told.ts';

type Options = Extract<BriefAnswer, { kind: 'options' }>;

export function tellOptions(scenario: Scenario, answer: Options): Told {
  const { study, leading } = answer;
  const matters = differenceThatMatters(scenario);
  const ids = idsOf(study);
  const pair = study.pairs.find(({ before, after }) => before === BASE && after === leading)!;
  const subject = optionSubject(scenario, leading, scenario.options![leading]!);
  const final = study.kind === 'final';
  return {
    question:
      ids.length === 1
        ? `What does ${quoted(scenario, ids[0]!)} change at ${scenario.name}, and does it pay?`
        : `Which of ${counted(ids.length, 'choice')} is best at ${scenario.name}, and does it pay?`,
    headline: headlineOf(scenario, answer, subject, matters),
    says: study.count === 0 ? [] : saysOf(scenario, answer),
    figures:
      study.count === 0
        ? []
        : manyAsTable(scenario, study, [
            casesPicture(
              study,
              `The choices at ${scenario.name}`,
              study.cases
                .slice(1)
                .map(
                  (one) =>
                    `${priceWords(scenario, one.id)}: ${differenceCell(between(study.pairs, BASE, one.id))}`,
                ),
            ),
          ]),
    instead: null,
    wide: false,
    leads: null,
    bought: final
      ? {
          price: priceOf(scenario, leading),
          pair: usualPair(answer.usual, leading) ?? pair,
          usual: answer.usual,
          tomorrow: pair.good,
        }
      : null,
    costs: [],
    then: thenOf(answer, scenario, matters),
    sure: studySure(study),
    gain: final ? { subject, range: pair.good, matters } : null,
    cells: [scenario, ...ids.map((id) => applyOption(scenario, id))],
  };
}

/** More rows than this are too small to read in the third of a page that a picture has. */
const MANY = 5;

/** Beside the picture the same as a table, which a full sheet has instead; at once where rows are many. */
function manyAsTable(scenario: Scenario, study: StudySummary, pictures: PictureBlock[]): Told['figures'] {
  if (study.cases.length <= MANY) return pictures;
  const table: TableBlock = {
    kind: 'table',
    caption: 'Good units a shift: the mean, and what each choice makes more',
    head: ['', 'Mean', 'More than as it is', 'Price'],
    rows: study.cases.map(({ id, name, good }, i) => [
      name,
      fixed(good.estimate, 1),
      i === 0 ? '-' : differenceWith(between(study.pairs, BASE, id), 1),
      i === 0 ? '-' : priceWords(scenario, id),
    ]),
    align: ['left', 'right', 'right', 'right'],
  };
  return pictures.map((one) => ({ ...one, spare: { turn: 1, instead: table } }));
}

/** "$1,800", "no price". */
function priceWords(scenario: Scenario, id: string): string {
  const price = priceOf(scenario, id);
  if (price === null) return 'no price';
  return price === 0 ? 'free' : money(price, resolvePlant(scenario).money.currency);
}

const quoted = (scenario: Scenario, id: string): string => `“${nameOf(resolvePlant(scenario).options, id)}”`;

const priceOf = (scenario: Scenario, id: string): number | null =>
  resolvePlant(scenario).options.find((one) => one.id === id)!.price;

const idsOf = (study: StudySummary): string[] => study.cases.slice(1).map(({ id }) => id);

function headlineOf(scenario: Scenario, answer: Options, subject: Subject, matters: number): string[] {
  const { study, leading } = answer;
  if (study.count === 0) return [NOTHING_RUN];
  const ids = idsOf(study);
  const gain = between(study.pairs, BASE, leading);
  const gains = differenceSentence(subject, gain, { kind: 'units' }, matters);
  if (study.kind !== 'final') return [`PARTIAL: stopped by hand. ${soFar(gains, study.count, gain.inARow)}`];
  if (ids.length === 1) return [gains];
  if (gain.low < matters)
    return [
      `None of ${counted(ids.length, 'choice')} surely adds the ${plain(matters)} units a shift that matter. ${gains}`,
    ];
  return [gains, againstNext(scenario, answer, matters)];
}

/**
 * The leading choice against the one that comes nearest; or against one that makes more, but not by what
 * matters, and costs more.
 */
function againstNext(scenario: Scenario, { leading, over }: Options, matters: number): string {
  const next = over.reduce((most, one) => (one.good.estimate < most.good.estimate ? one : most));
  const names = [leading, next.id].map((id) => quoted(scenario, id)) as [string, string];
  if (next.good.estimate >= 0) return bestSentence(names[0], names[1], next.good);
  const { estimate, low, high } = next.good;
  const more = { ...next.good, estimate: -estimate, low: -high, high: -low };
  const instead = differenceSentence(
    { kind: 'situation', words: `with ${names[1]} instead` },
    more,
    { kind: 'units' },
    matters,
  );
  const [price, before] = [priceOf(scenario, next.id), priceOf(scenario, leading)];
  const dearer = price === null || before === null ? 0 : price - before;
  return dearer > 0
    ? `${instead} It costs ${money(dearer, resolvePlant(scenario).money.currency)} more.`
    : instead;
}

function saysOf(scenario: Scenario, { study, leading }: Options): string[] {
  const told = (one: CaseSummary): string =>
    [lowered(promisesSentence(one.spread, one.shiftsInARow)), chanceWords(one) ?? ''].join(' ').trim();
  const best = study.cases.find(({ id }) => id === leading)!;
  const changes = describeChanges(scenario, scenario.options![leading]!.changes);
  return [
    `As it is: ${told(study.cases[0]!)} With ${quoted(scenario, leading)}: ${told(best)}`,
    ...(changes.length === 0
      ? [`${quoted(scenario, leading)} changes nothing in the file.`]
      : [`It changes: ${changes.join('; ')}.`]),
  ];
}

function thenOf({ then, withLeading, leading }: Options, scenario: Scenario, matters: number): string[] {
  if (then === null || then.study.kind !== 'final') return [];
  const begin = withLeading ? `With ${quoted(scenario, leading)},` : 'As it is,';
  return [holdsBackSentence(then.constraint, matters, begin), bestOf(then, matters)].filter(
    (words) => words !== '',
  );
}

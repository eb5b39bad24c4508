/** The sentences of the page: the same words for the same numbers as on the command line. */
import { optionSubject } from '../../../src/words/option-words.ts';
import { differenceSentence, makesSentence } from '../../../src/words/sentences.ts';
import { chanceWords } from '../../../src/words/study-words.ts';
import { holdsBackSentence, soFar } from '../../../src/words/verdicts.ts';
import { nothingMadeWords } from '../../../src/words/nothing-made.ts';
import { describeChanges, shiftsOf } from '../../../src/scenario/options.ts';
import { resolveOption } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { differenceThatMatters } from '../../../src/study/from-scenario.ts';
import type { OneMoreOfEach } from '../../../src/study/one-more.ts';
import type { CaseSummary, PairSummary, StudySummary } from '../../../src/study/summary.ts';
import type { Option } from './options.ts';

export const pairOf = (study: StudySummary, id: string): PairSummary | undefined =>
  study.pairs.find(({ after }) => after === id);

/** What the option in question does, in a sentence with its range. */
export function answerWords(scenario: Scenario, id: string, option: Option, study: StudySummary): string {
  const pair = pairOf(study, id);
  if (pair === undefined || study.count < 2) return 'The first shifts are being run.';
  if (describeChanges(scenario, option.changes).length === 0)
    return `“${resolveOption(id, option).name}” changes nothing yet.`;
  const words = differenceSentence(
    optionSubject(scenario, id, option),
    pair.good,
    { kind: 'units' },
    differenceThatMatters(scenario),
  );
  return study.kind === 'partial' ? soFar(words, study.count, pair.good.inARow) : words;
}

/** What holds the cell back with the option, once that was tried to the end. */
export function thenWords(scenario: Scenario, pair: PairSummary | undefined, each: OneMoreOfEach): string {
  if (each.study.kind !== 'final' || pair === undefined) return '';
  const matters = differenceThatMatters(scenario);
  return holdsBackSentence(each.constraint, matters, pair.good.low > 0 ? 'Then' : 'With it,');
}

/** Beside a row: of the cell as it is, the chance of its target or its mean; of an option, the difference. */
export function rowWords(scenario: Scenario, one: CaseSummary, pair: PairSummary | undefined): string {
  if (one.count < 2) return '';
  if (pair !== undefined)
    return differenceSentence(
      { kind: 'thing', words: 'it' },
      pair.good,
      { kind: 'units' },
      differenceThatMatters(scenario),
    );
  return chanceWords(one) ?? makesSentence(one.good, 'units', 'it');
}

/** Of a cell that has no options yet. */
export function baseWords(scenario: Scenario, study: StudySummary): string {
  const [one] = study.cases as [CaseSummary];
  const why = nothingMadeWords(shiftsOf(scenario), one.good.estimate);
  return [makesSentence(one.good), ...(why.length > 0 ? why : [chanceWords(one) ?? ''])].join(' ').trim();
}

/** The sentences of the page: the same words for the same numbers as on the command line. */
import { differenceSentence } from '../../../src/words/sentences.ts';
import { bestRow } from '../../../src/words/study-words.ts';
import { holdsBackSentence, soFar } from '../../../src/words/verdicts.ts';
import type { Extra, ExtraGain, OneMoreOfEach } from '../../../src/study/one-more.ts';

const subject = (row: ExtraGain) => ({ kind: 'thing' as const, words: row.name });

/** What one more of it gains. */
export const gainWords = (row: ExtraGain, matters: number): string =>
  differenceSentence(subject(row), row.gain, { kind: 'units' }, matters);

export function answerWords(each: OneMoreOfEach | null, matters: number): string {
  const best = each === null ? undefined : bestRow(each.rows);
  if (each === null || best === undefined || each.study.count < 2) return 'The first shifts are being run.';
  if (each.study.kind === 'final')
    return `${holdsBackSentence(each.constraint, matters)} ${gainWords(best, matters)}`;
  return soFar(gainWords(best, matters), each.study.count, best.gain.inARow);
}

/** What the constraint becomes after the best one more. */
export function afterWords(best: Extra, after: OneMoreOfEach | null, matters: number): string {
  const begin = `With ${best.name.replace(/, (bench|benches) included$/, ' and $1')}:`;
  if (after === null || after.study.count < 2) return `${begin} being tried.`;
  if (after.study.kind !== 'final') return `${begin} being tried, ${after.study.count} shifts so far.`;
  const next = after.rows[0];
  return `${begin} ${holdsBackSentence(after.constraint, matters)}${next === undefined ? '' : ` ${gainWords(next, matters)}`}`;
}

/**
 * From results to sentences about the answer as a whole: what one more of a thing does, what holds the cell
 * back then, how sure that is, which choice is best, when it pays back.
 */
import type { Verdict } from '../study/verdict.ts';
import type { Payback, Ranged } from '../money/payback.ts';
import {
  differenceSentence,
  eitherWay,
  sizeText,
  whatTells,
  type Measure,
  type Measured,
  type Subject,
} from './sentences.ts';
import {
  capitalized,
  counted,
  decimalsUnder,
  duration,
  fixed,
  inSentence,
  justOver,
  listed,
  moneyRange,
  ordinal,
  percent,
  plain,
  plural,
  rangeText,
  roundDown,
  roundUp,
  runsOf,
  singular,
  withArticle,
  type RangeText,
} from './words.ts';

export interface OneMore {
  /** What there is one more of, as the file names it: "clamp set". */
  thing: string;
  /** The how-manieth this one is: 3 where there are two. */
  place: number;
  /** What this one gains, and what the one after it gains over that. */
  gain: Measured;
  nextGain: Measured;
  /** The difference that matters, units a shift. */
  matters: number;
  /**
   * What holds the cell back afterwards, by experiment; [] where no one thing does; null where it was not
   * asked.
   */
  constraint: string[] | null;
}

/**
 * "A third clamp set adds 3.1 units a shift (2.8 to 3.4), a fourth adds less than the 0.5 that matters. Then
 * fitting holds you back."
 */
export function verdictSentence(verdict: Verdict, more: OneMore): string {
  const subject = nth(more.place, more.thing);
  const this_ = differenceSentence(subject, more.gain, { kind: 'units' }, more.matters);
  const things = plural(inSentence(more.thing));
  const next = nth(more.place + 1, null);
  switch (verdict.kind) {
    case 'removes': {
      const then =
        more.constraint === null ? '' : ` ${holdsBackSentence(more.constraint, more.matters, 'Then')}`;
      return `${this_} ${capitalized(next.words)} then adds ${lessThan(more.nextGain, more.matters)}.${then}`;
    }
    case 'eases':
      return `${this_} ${capitalized(next.words)} adds another ${inBrackets(sizeText(more.nextGain))}: ${things} still hold you back.`;
    case 'was not the constraint': {
      const now = more.constraint === null ? '' : ` ${holdsBackSentence(more.constraint, more.matters)}`;
      return `${notTheConstraint(subject, more)} ${capitalized(things)} are not what holds you back.${now}`;
    }
    case 'cannot tell yet':
      if (verdict.open === 'this') {
        return `${capitalized(whatTells(more.gain))} cannot tell yet whether ${subject.words} adds the ${plain(more.matters)} units a shift that matter: ${eitherWay(more.gain)}.`;
      }
      return `${this_} Whether ${things} still hold you back after that cannot be told yet: ${next.words} brings ${eitherWay(more.nextGain)}.`;
  }
}

/** "a third clamp set"; without a thing "a fourth". */
function nth(place: number, thing: string | null): Subject {
  const words = [ordinal(place), ...(thing === null ? [] : [inSentence(singular(thing))])].join(' ');
  return { kind: 'thing', words: withArticle(words) };
}

function notTheConstraint(subject: Subject, { gain, matters }: OneMore): string {
  if (gain.high < 0) return differenceSentence(subject, gain, { kind: 'units' }, matters);
  return `${capitalized(subject.words)} adds ${lessThan(gain, matters)}.`;
}

/**
 * "less than the 0.5 units a shift that matter, under 0.4". A range from under 0 to over it would only make
 * readers stop: it is told by the bound that Compare gives it, unless that is no less than what matters; one
 * under 0 throughout is told.
 */
function lessThan(gain: Ranged, matters: number): string {
  const words = `less than the ${plain(matters)} units a shift that matter`;
  const { low, high } = gain;
  if (low === high) return words;
  if (high <= 0) return `${words} (${rangeText(gain).range})`;
  const bound = justOver(Math.max(-low, high), 1);
  if (low <= 0 && bound < matters) return `${words}, under ${fixed(bound, 1)}`;
  const decimals = decimalsUnder(gain, matters);
  return `${words}, ${fixed(roundUp(high, decimals), decimals)} at most`;
}

const inBrackets = ({ amount, range }: { amount: string; range: string }): string =>
  `${amount}${range === '' ? '' : ` (${range})`}`;

/** "Fitting holds you back." "Then fitting and sanding hold you back alike." */
export function holdsBackSentence(constraint: string[], matters: number, begin = ''): string {
  const start = begin === '' ? '' : `${begin} `;
  if (constraint.length === 0) {
    return capitalized(
      `${start}nothing that was tried on its own surely adds the ${plain(matters)} units a shift that matter.`,
    );
  }
  // Names of people and steps stand as they are; a sentence may begin with any of them.
  const names = listed(constraint);
  return capitalized(
    `${start}${names} ${constraint.length === 1 ? 'holds you back' : 'hold you back alike'}.`,
  );
}

/** Fewer shifts than this are a beginning, whoever asked for so few: the spread itself is hardly known. */
export const FEWEST = 30;

/** Where a study stands. */
export type Progress = (
  | { kind: 'so far' }
  /** As sure as was asked for. */
  | { kind: 'done' }
  /** The most shifts it may run, reached before it was as sure as asked. `asked`: half-width asked for. */
  | { kind: 'capped'; asked: number }
  /** Stopped by hand, of `planned` shifts. */
  | { kind: 'stopped'; planned: number }
) & {
  /** Shifts in a row that are run each time; left out: one. */
  inARow?: number;
};

/**
 * How sure, and on how many runs. `half`: the half-width reached, units a shift; `confidence`: over 0, under
 * 1. `parts`: what of it is luck and what is not known ("the runs leave ..."), and what would narrow it;
 * `each`: of several ranges each holds so often by itself, not all of them together.
 */
export function howSureSentence(
  progress: Progress,
  count: number,
  half: number,
  confidence: number,
  parts: { parts: string; narrowing: string | null; each?: boolean } | null = null,
): string {
  const shifts = `${runsOf(count, progress.inARow)} of each choice, the same luck for all`;

  const reached = Number.isFinite(half)
    ? `to within ${fixed(roundUp(half, 2), 2)} units a shift`
    : 'not at all yet';
  const sure = `${percent(confidence, 'down')} sure${parts?.each === true ? ' of each range' : ''}`;
  const split = parts === null ? '' : `: ${parts.parts}`;
  const narrowing = parts?.narrowing == null ? '' : ` ${parts.narrowing}`;
  switch (progress.kind) {
    case 'so far':
      return `So far, after ${shifts}: known ${reached}. This may still change.`;
    case 'done':
      if (count < FEWEST)
        return `So far, from no more than ${shifts}: known ${reached}${split}. This may still change.${narrowing}`;
      return `From ${shifts}: known ${reached}, ${sure}${split}.${narrowing}`;
    case 'capped':
      return `Stopped at the most it may run, ${shifts}: known ${reached}, ${sure}, not to the ${plain(progress.asked)} asked for${split}.${narrowing}`;
    case 'stopped':
      return `Stopped by hand after ${plain(count)} of ${runsOf(progress.planned, progress.inARow)}: known ${reached}. This may still change.`;
  }
}

/**
 * Marks a sentence as one that further runs may change: "So far, after 60 shifts: a third clamp set ...".
 * Proper names keep their capital.
 */
export function soFar(sentence: string, count: number, inARow = 1): string {
  return `So far, after ${runsOf(count, inARow)}: ${/^(An?|The|One|None|No|All|At|It|What|Nine|Whether|With|Without|Nothing|Overtime) /.test(sentence) ? inSentence(sentence) : sentence}`;
}

/**
 * The best of several choices against the runner-up. `lead`: best less runner-up, more being better; null
 * where one was tried.
 */
export function bestSentence(
  best: string,
  runnerUp: string | null,
  lead: Measured | null,
  measure: Measure = { kind: 'units' },
): string {
  if (runnerUp === null || lead === null)
    return `${capitalized(best)} was the only choice there was to try: nothing stands against it.`;
  if (lead.high < 0) return bestSentence(runnerUp, best, negated(lead), measure);
  if (lead.low > 0)
    return `${capitalized(best)} beats ${runnerUp} by ${inBrackets(sizeText(lead, measure))}.`;
  return `${capitalized(best)} and ${runnerUp} cannot be told apart${(lead.inputs ?? 0) > 0 ? '' : ` after ${runsOf(lead.count, lead.inARow)}`}: ${eitherWay(lead, measure)}.`;
}

const negated = (one: Measured): Measured => ({
  ...one,
  estimate: -one.estimate,
  low: -one.high,
  high: -one.low,
});

export interface Overtime {
  /** Shifts with any, of `count` run. */
  shifts: number;
  count: number;
  /** Minutes a shift, all people together, averaged over all shifts. */
  minutes: Ranged;
  /** What these minutes are, where it is known: with the piece in hand at one's own end, and planned. */
  parts?: { finishing: number; planned: number };
}

export function overtimeSentence({ shifts, count, minutes, parts }: Overtime): string {
  if (shifts === 0) return `No overtime in any of ${counted(count, 'shift')}.`;
  const often = shifts === count ? 'every shift run' : `${percent(shifts / count)} of shifts`;
  const range =
    minutes.low === minutes.high
      ? ''
      : ` (${duration(Math.max(0, roundDown(minutes.low, 0)))} to ${duration(roundUp(minutes.high, 0))})`;
  return `Overtime in ${often}; ${duration(minutes.estimate)} a shift on average, all people together${range}${partsWords(parts)}.`;
}

/** ": 8 min of it finishing the piece in hand at their own end, 17 min planned". */
function partsWords(parts: Overtime['parts']): string {
  if (parts === undefined) return '';
  const { finishing, planned } = parts;
  if (planned < HARDLY) return ', finishing the piece in hand at their own end: none of it planned';
  if (finishing < HARDLY) return ', all of it planned';
  return `: ${duration(finishing)} of it finishing the piece in hand at their own end, ${duration(planned)} planned`;
}

/** Minutes that round to none. */
const HARDLY = 0.5;

/** When a price is paid back. Shifts are rounded up, their range outwards. */
export function paybackSentence(
  payback: Payback,
  shiftsPerYear: number,
  gain: Ranged,
  currency: string,
): string {
  const brings = ({ estimate, range }: RangeText): string =>
    `${estimate} a shift${range === '' ? '' : ` (${range})`}`;
  switch (payback.kind) {
    case 'nothing to pay':
      return 'There is nothing to buy.';
    case 'never pays back':
      return `It never pays back: it brings in ${gain.high < 0 ? 'less than nothing' : 'nothing'}.`;
    case 'pays back': {
      const { estimate, low, high } = payback.shifts;
      const [least, most] = [Math.max(1, roundDown(low, 0)), roundUp(high, 0)];
      const range = low === high || least === most ? '' : ` (${plain(least)} to ${plain(most)})`;
      return `It pays back after ${counted(roundUp(estimate, 0), 'shift')}${range}, ${about(estimate, shiftsPerYear)}: it brings in ${brings(moneyRange(gain, currency))}.`;
    }
    case 'may never pay back': {
      const { low } = payback.shifts;
      return `It may never pay back: what it brings in may be nothing (${moneyRange(gain, currency).range} a shift). At best it takes ${counted(Math.max(1, roundDown(low, 0)), 'shift')}.`;
    }
  }
}

/** "about 7 weeks" of so many shifts a year; rounded up. */
function about(shifts: number, perYear: number): string {
  const years = shifts / perYear;
  if (years * 52 <= 1) return 'within a week';
  if (years * 12 < 3) return `about ${counted(roundUp(years * 52, 0), 'week')}`;
  return years < 2
    ? `about ${counted(roundUp(years * 12, 0), 'month')}`
    : `about ${counted(roundUp(years, 1), 'year')}`;
}

/** What it is worth today over some years, its price off. */
export function presentValueSentence(value: Ranged, years: number, currency: string): string {
  const over = `over ${counted(years, 'year')}`;
  if (value.low <= 0 && value.high >= 0 && value.low !== value.high) {
    return `Whether it is worth its price ${over} cannot be told: today's value, price off, is ${moneyRange(value, currency).range}.`;
  }
  const { estimate, range } = moneyRange(value, currency);
  const judged = value.high < 0 ? 'it is worth less than it costs' : 'it is worth its price';
  return `${capitalized(over)} ${judged}: ${estimate} today, price off${range === '' ? '' : ` (${range})`}.`;
}

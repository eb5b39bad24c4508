/**
 * From numbers to sentences about one choice or one difference. The wording follows the range: nothing "adds"
 * or "loses" whose range covers zero, no chance is 0 or 100 % because it was so in the shifts that were run,
 * ranges are rounded outwards.
 */
import type { Ranged } from '../money/payback.ts';
import { asPromised } from '../study/intervals/interval.ts';
import {
  capitalized,
  counted,
  decimalsFor,
  fixed,
  justOver,
  money,
  moneyRange,
  oneIn,
  percent,
  plain,
  rangeText,
  roundDown,
  roundUp,
  runsOf,
  shiftsIn,
  singular,
} from './words.ts';

/**
 * A mean or a difference of means with the range the runs leave open, and how many shifts (of each choice)
 * are behind it; or runs, of so many shifts in a row each.
 */
export interface Measured extends Ranged {
  count: number;
  inARow?: number;
  /** Half-width for what is not known of the inputs; default 0. */
  inputs?: number;
}

/** What is measured. `noun`: what a unit is called, several of them; default units. */
export type Measure =
  | { kind: 'units'; noun?: string }
  /** Overtime minutes a shift, all people together. */
  | { kind: 'overtime' }
  /** Money a shift, or for one good unit. */
  | { kind: 'money'; currency: string; per: 'shift' | 'good unit' };

/**
 * What brings the difference about: a thing ("a third clamp set adds ...") or how things stand ("with Orla
 * out, the cell ...").
 */
export type Subject =
  { kind: 'thing'; words: string; several?: boolean } | { kind: 'situation'; words: string };

/**
 * The most that nine, five and one shift in ten still make: at least so many make that or more, fewer make
 * one more.
 */
export interface Promises {
  nineInTen: number;
  half: number;
  oneInTen: number;
}

/**
 * How often the target was made in the shifts run, and the range of the chance (shares, 0 to 1). `estimate`:
 * the chance itself where what is not known of the inputs is in it, so that all or none of the runs is not
 * all there is to say.
 */
export interface Chance {
  made: number;
  count: number;
  low: number;
  high: number;
  estimate?: number;
}

const UNITS: Measure = { kind: 'units' };

/** "The cell makes 19.6 units a shift on average (19.4 to 19.8)." */
export function makesSentence(mean: Measured, noun = 'units', who = 'the cell'): string {
  if (!Number.isFinite(mean.high - mean.low))
    return `${capitalized(who)} cannot be judged yet: too few shifts have been run.`;
  // Nobody makes fewer than none, however wide the range.
  const { estimate, range } = rangeText({ ...mean, low: Math.max(0, mean.low) });
  if (range === '')
    return `${capitalized(who)} makes ${estimate} ${nounFor(estimate, noun)} ${inEvery(mean)}.`;
  return `${capitalized(who)} makes ${estimate} ${nounFor(estimate, noun)} a shift on average (${range}).`;
}

/** Several shifts in a row may differ, and only their mean be the same in every run. */
const inEvery = ({ inARow = 1 }: Measured): string =>
  inARow === 1 ? 'in every shift run' : `a shift in every run of ${counted(inARow, 'shift')}`;

/**
 * "A third clamp set adds 3.1 units a shift (2.8 to 3.4)." `matters`: the difference that matters to the
 * reader, where there is one.
 */
export function differenceSentence(
  subject: Subject,
  difference: Measured,
  measure: Measure = UNITS,
  matters?: number,
): string {
  const { low, high, count, inARow } = difference;
  if (!Number.isFinite(high - low))
    return `What ${aboutSubject(subject)} cannot be judged yet: too few shifts have been run.`;
  if (low > 0 || high < 0) return surely(subject, difference, measure, matters);
  if (low === 0 && high === 0) return `${makesNoDifference(subject)} in any of ${runsOf(count, inARow)}.`;
  const most = Math.max(-low, high);
  if (matters !== undefined && most >= matters) {
    return `${capitalized(whatTells(difference))} cannot tell yet what ${aboutSubject(subject)}: ${eitherWay(difference, measure)}.`;
  }
  const decimals = edgeDecimals(difference, measure);
  const bound = amountText(justOver(most, decimals), decimals, measure);
  return `${makesNoDifference(subject)} that ${whatSees(difference)} (under ${bound}).`;
}

/** What the width of a range is mostly due to: "204 shifts", "times known no better than this". */
export const whatTells = (range: Measured): string =>
  mostlyInputs(range) ? 'times known no better than this' : runsOf(range.count, range.inARow);

const mostlyInputs = ({ low, high, inputs = 0 }: Measured): boolean => inputs > (high - low) / 3;

const whatSees = (range: Measured): string =>
  `${whatTells(range)} can ${mostlyInputs(range) ? 'show' : 'see'}`;

function surely(
  subject: Subject,
  difference: Measured,
  measure: Measure,
  matters: number | undefined,
): string {
  const more = difference.low > 0;
  const size = more
    ? difference
    : { ...difference, estimate: -difference.estimate, low: -difference.high, high: -difference.low };
  const amount = sizeText(size, measure, matters);
  const every = (size.inARow ?? 1) === 1 ? 'in every shift run' : 'in every run';
  const exact = size.low === size.high ? `, ${every}` : '';
  const small =
    matters !== undefined && size.high < matters ? `, less than the ${plain(matters)} that matters` : '';
  return `${verbPhrase(subject, more, amount, measure)}${exact}${small}.`;
}

function verbPhrase(
  subject: Subject,
  more: boolean,
  { amount, range }: { amount: string; range: string },
  measure: Measure,
): string {
  const brackets = range === '' ? '' : ` (${range})`;
  const less = measure.kind === 'units' ? 'lose' : 'save';
  if (subject.kind === 'thing') {
    return `${capitalized(subject.words)} ${more ? 'add' : less}${subject.several === true ? '' : 's'} ${amount}${brackets}`;
  }
  if (measure.kind === 'units') {
    return `${capitalized(subject.words)}, the cell makes ${amount.replace(/^(\S+)/, `$1 ${more ? 'more' : 'fewer'}`)}${brackets}`;
  }
  return `${capitalized(subject.words)}, the cell ${more ? 'needs' : 'saves'} ${amount}${more ? ' more' : ''}${brackets}`;
}

const makesNoDifference = (subject: Subject): string =>
  subject.kind === 'thing'
    ? `${capitalized(subject.words)} ${subject.several === true ? 'make' : 'makes'} no difference`
    : `${capitalized(subject.words)}, there is no difference`;

const aboutSubject = (subject: Subject): string =>
  subject.kind === 'thing'
    ? `${subject.words} ${subject.several === true ? 'do' : 'does'}`
    : `changes ${subject.words}`;

/**
 * "anything from 0.4 fewer to 1.2 more units a shift", "anything from 0.3 to 0.7 more units a shift"; rounded
 * outwards.
 */
export function eitherWay(difference: Ranged, measure: Measure = UNITS): string {
  const { low, high } = difference;
  const decimals = decimalsFor(difference);
  const figure = (size: number): string => {
    if (size === 0) return 'nothing';
    return measure.kind === 'money'
      ? money(size, measure.currency, decimals === 0 ? 0 : 2)
      : fixed(size, decimals);
  };
  const fewer = measure.kind === 'units' ? 'fewer' : 'less';
  const [least, most] = [roundDown(low, decimals), roundUp(high, decimals)];
  const tail = tailOf(measure, 'several');
  if (least >= 0) return `anything from ${figure(least)} to ${figure(most)} more${tail}`;
  if (most <= 0) return `anything from ${figure(-most)} to ${figure(-least)} ${fewer}${tail}`;
  return `anything from ${figure(-least)} ${fewer} to ${figure(most)} more${tail}`;
}

/** "3.1 units a shift" and "2.8 to 3.4" of an amount over zero; `under`: as of `rangeText`. */
export function sizeText(
  size: Ranged,
  measure: Measure = UNITS,
  under = Infinity,
): { amount: string; range: string } {
  if (measure.kind === 'money') {
    const { estimate, range } = moneyRange(size, measure.currency);
    return { amount: `${estimate}${tailOf(measure, estimate)}`, range };
  }
  const { estimate, range } = rangeText(size, fixed, under);
  return { amount: `${estimate}${tailOf(measure, estimate)}`, range };
}

function amountText(value: number, decimals: number, measure: Measure): string {
  const figure =
    measure.kind === 'money'
      ? money(value, measure.currency, decimals === 0 ? 0 : 2)
      : fixed(value, decimals);
  return `${figure}${tailOf(measure, figure)}`;
}

/** What follows a figure: " units a shift". */
function tailOf(measure: Measure, figure: string): string {
  if (measure.kind === 'units') return ` ${nounFor(figure, measure.noun ?? 'units')} a shift`;
  if (measure.kind === 'overtime') return ' min of overtime a shift';
  return measure.per === 'shift' ? ' a shift' : ' a good unit';
}

const nounFor = (figure: string, noun: string): string => (figure === '1' ? singular(noun) : noun);

/**
 * Decimals of an "under ..." bound: one, as "under 1" says little of 0.3, and a bound of less than a tenth of
 * a piece or a minute says nothing more. Money has cents where it is little.
 */
const edgeDecimals = (range: Ranged, measure: Measure): number =>
  measure.kind === 'money' ? Math.min(2, Math.max(1, decimalsFor(range))) : 1;

/**
 * "Nine shifts in ten make 18, half make 20, one in ten makes 22." Parts of units are not promised: rounded
 * down. `shifts` in a row: "Over 3 shifts the cell makes 50 nine times in ten, 54 half the time, 58 one time
 * in ten."
 */
export function promisesSentence(promises: Promises, shifts = 1): string {
  const [nine, half, one] = [promises.nineInTen, promises.half, promises.oneInTen].map((units) =>
    Math.floor(units + 1e-9),
  ) as [number, number, number];
  if (shifts > 1) return promisesOver(counted(shifts, 'shift'), nine, half, one);
  if (one <= 0) return 'At least nine shifts in ten make nothing.';
  if (nine === one) return `At least eight shifts in ten make ${plain(nine)}, no more and no less.`;
  const parts = [
    nine <= 0 ? 'No number can be promised nine times in ten' : `Nine shifts in ten make ${plain(nine)}`,
    ...(half > nine ? [`half make ${plain(half)}`] : []),
    half === one ? 'fewer than one in ten make more' : `one in ten makes ${plain(one)}`,
  ];
  return `${parts.join(', ')}.`;
}

function promisesOver(shifts: string, nine: number, half: number, one: number): string {
  if (one <= 0) return `Over ${shifts} the cell makes nothing at least nine times in ten.`;
  if (nine === one)
    return `Over ${shifts} the cell makes ${plain(nine)} at least eight times in ten, no more and no less.`;
  const parts = [
    ...(nine <= 0 ? [] : [`${plain(nine)} nine times in ten`]),
    ...(half > nine ? [`${plain(half)} half the time`] : []),
    ...(half === one ? [] : [`${plain(one)} one time in ten`]),
  ];
  return `Over ${shifts} the cell makes ${parts.join(', ')}${nine <= 0 ? '; no number can be promised nine times in ten' : ''}.`;
}

/**
 * "The chance of 22 is 64% (59% to 69%)." And where all or none of the shifts made it, what that leaves open.
 */
export function chanceSentence(target: number, chance: Chance): string {
  const { made, count, low, high, estimate } = chance;
  if (estimate !== undefined && count > 0)
    return `The chance of ${plain(target)} is ${asKnown({ low, high, estimate })}.`;
  if (count === 0) return `The chance of ${plain(target)} cannot be judged yet: no shift has been run.`;
  if (made === 0 && high > 0.5) return `${noneOf(count)} made ${plain(target)}: too few to say more.`;
  if (made === count && low < 0.5) return `${allOf(count)} made ${plain(target)}: too few to say more.`;
  if (made === 0) return `${noneOf(count)} made ${plain(target)}; the chance is under ${oneIn(high)}.`;
  if (made === count)
    return `${allOf(count)} made ${plain(target)}; the chance of missing it is under ${oneIn(1 - low)}.`;
  return `The chance of ${plain(target)} is ${percent(made / count)} (${percent(low, 'down')} to ${percent(high, 'up')}).`;
}

/** A range of a chance wider than this is told as what better timings may turn it into. */
const A_WIDE_CHANCE = 0.2;

/**
 * "64% (59% to 69%)", or, with the inputs in it, "7% as far as your times are known; better timings may put
 * it anywhere from under 1% to 35%".
 */
function asKnown({ low, high, estimate }: { low: number; high: number; estimate: number }): string {
  const few = 1e-9;
  const [least, most] = [percent(Math.max(few, low), 'down'), percent(Math.min(1 - few, high), 'up')];
  const chance = percent(Math.min(1 - few, Math.max(few, estimate)));
  return high - low > A_WIDE_CHANCE
    ? `${chance} as far as your times are known; better timings may put it anywhere from ${least} to ${most}`
    : `${chance} (${least} to ${most})`;
}

/**
 * "The chance that each of 3 shifts makes its target is 64% (59% to 69%)." The counts are of runs of all the
 * shifts.
 */
export function eachChanceSentence(shifts: number, chance: Chance): string {
  const { made, count, low, high, estimate } = chance;
  const each = `each of ${counted(shifts, 'shift')}`;
  const runs = counted(count, 'run');
  if (estimate !== undefined && count > 0)
    return `The chance that ${each} makes its target is ${asKnown({ low, high, estimate })}.`;
  if (count === 0)
    return `The chance that ${each} makes its target cannot be judged yet: nothing has been run.`;
  const few = ': too few to say more.';
  if (made === 0)
    return `In none of ${runs} did ${each} make its target${high > 0.5 ? few : `; the chance is under ${oneIn(high)}.`}`;
  if (made === count)
    return `In all of ${runs} ${each} made its target${low < 0.5 ? few : `; the chance of missing one is under ${oneIn(1 - low)}.`}`;
  return `The chance that ${each} makes its target is ${percent(made / count)} (${percent(low, 'down')} to ${percent(high, 'up')}).`;
}

const noneOf = (count: number): string =>
  count === 1 ? 'The one shift run has not' : `None of ${counted(count, 'shift')}`;
const allOf = (count: number): string =>
  count === 1 ? 'The one shift run' : `All ${counted(count, 'shift')}`;

/**
 * Whether a chance is the one asked for (a share, 0 to 1), as far as the runs say. What is not known of the
 * inputs is in the chance itself: a promise that holds nine times in ten with it is one.
 */
export function sureEnoughSentence(chance: Parameters<typeof asPromised>[0], asked: number): string {
  const { low, high } = asPromised(chance);
  if (low >= asked) return `That is at least the ${percent(asked)} asked for.`;
  if (high < asked) return `That is short of the ${percent(asked)} asked for.`;
  return `Whether that is the ${percent(asked)} asked for cannot be told yet.`;
}

/**
 * A target above the ceiling. `alwaysSame`: every time in the cell is fixed, so that the ceiling holds for
 * each shift and not only for the average one. Null where the ceiling does not rule the target out.
 */
export function outOfReachSentence(target: number, ceiling: number, alwaysSame: boolean): string | null {
  if (!(ceiling < target)) return null;
  const decimals = [1, 2, 3].find((one) => roundUp(ceiling, one) < target) ?? 4;
  const most = fixed(roundUp(ceiling, decimals), decimals);
  return alwaysSame
    ? `${plain(target)} cannot be made: with nobody ever waiting, this crew and gear make ${most} at most.`
    : `${plain(target)} is out of reach on average: with nobody ever waiting, this crew and gear would make ${most} a shift at most.`;
}

/**
 * "Promise 19: eight shifts in ten make it." `share`: 0 to 1; `units`: the most that so many shifts still
 * make. `shifts` in a row: "Promise 54 over 3 shifts together: eight times in ten it is made."
 */
export function promiseSentence(units: number, share: number, shifts = 1): string {
  const whole = Math.floor(units + 1e-9);
  if (shifts > 1) {
    const [over, often] = [`over ${counted(shifts, 'shift')}`, shiftsIn(share).replace('shift', 'time')];
    return whole <= 0
      ? `Nothing can be promised ${over}: even one is made in under ${often}.`
      : `Promise ${plain(whole)} ${over} together: ${often} it is made.`;
  }
  if (whole <= 0) return `Nothing can be promised: under ${shiftsIn(share)} make even one.`;
  return `Promise ${plain(whole)}: ${shiftsIn(share)} ${/^(one|1) /.test(shiftsIn(share)) ? 'makes' : 'make'} it.`;
}

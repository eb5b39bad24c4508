/**
 * What a choice costs and when it pays back, never in its favor: ranges end to end, nothing counted that the
 * file does not say.
 */
import { resolve, resolvePlant, type ResolvedMoney } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import type { Interval } from '../../study/intervals/interval.ts';
import type { PairSummary } from '../../study/summary.ts';
import { investmentReturn, type Payback, type Ranged, type Return } from '../../money/payback.ts';
import { differenceSentence, sizeText } from '../../words/sentences.ts';
import { paybackSentence, presentValueSentence } from '../../words/verdicts.ts';
import type { OnUsualDays } from '../../study/usual-days.ts';
import { stockWords, tonightWords, usualDaysWords } from '../../words/usual-words.ts';
import {
  capitalized,
  counted,
  fixed,
  money,
  moneyRange,
  plain,
  roundDown,
  roundUp,
} from '../../words/words.ts';

/** Years of use that the present value counts. */
export const YEARS = 5;

export interface Bought {
  /** Paid once; null where the file does not say. */
  price: number | null;
  /** Differences a shift to things as they are: units and wages hold together. */
  pair: Pick<PairSummary, 'good' | 'overtime' | 'cost'>;
  /** The days `pair` is of; null or left out: tomorrow, with tonight's stock. */
  usual?: OnUsualDays | null;
  /** Good units a shift tomorrow, with tonight's stock. */
  tomorrow?: Interval;
}

export interface Fact {
  name: string;
  value: string;
}

/**
 * What it returns at a price and a margin; null where no price is known, or neither money nor margin moves.
 */
export function returnOf(
  scenario: Scenario,
  { price, pair }: Bought,
  change: { margin?: number; price?: number } = {},
): Return | null {
  const { margin, shiftsPerYear, discount } = resolvePlant(scenario).money;
  if (price === null) return null;
  const { cost, good } = pair;
  if (![cost.half, good.half].every(Number.isFinite)) return null;
  return investmentReturn({
    price: price * (change.price ?? 1),
    units: margin === null ? null : good,
    margin: (margin ?? 0) * (change.margin ?? 1),
    saved: { estimate: -cost.estimate, low: -cost.high, high: -cost.low },
    shiftsPerYear,
    discount,
    years: YEARS,
  });
}

export function moneyFacts(scenario: Scenario, bought: Bought): Fact[] {
  const { price, pair } = bought;
  const terms = resolvePlant(scenario).money;
  const { currency, shiftsPerYear, discount } = terms;
  const returned = returnOf(scenario, bought);
  const overtime = resolve(scenario).overtime.until !== 'none' || pair.overtime.estimate !== 0;
  return [
    {
      name: 'Price',
      value:
        price === null
          ? 'The file names none, so no payback can be given.'
          : price === 0
            ? 'There is nothing to buy.'
            : `${money(price, currency)}, once.`,
    },
    ...pricedOn(scenario, bought),
    { name: 'Extra good units', value: `${usually(bought)}${unitsWords(pair.good, terms)}` },
    ...(overtime
      ? [
          {
            name: 'Overtime',
            value: `${differenceSentence({ kind: 'thing', words: 'it' }, pair.overtime, { kind: 'overtime' })}${unasked(scenario)}`,
          },
        ]
      : []),
    {
      name: 'Wages',
      value: differenceSentence({ kind: 'thing', words: 'it' }, pair.cost, {
        kind: 'money',
        currency,
        per: 'shift',
      }),
    },
    ...(returned === null || returned.payback.kind === 'nothing to pay'
      ? []
      : [
          {
            name: 'Pays back',
            value: paybackSentence(returned.payback, shiftsPerYear, returned.gain, currency),
          },
          {
            name: 'Worth today',
            value: `${presentValueSentence(rough(returned.presentValue), YEARS, currency)} Money later counts ${plain(discount)}% a year less.`,
          },
        ]),
  ];
}

/** Why there is any where the file asks for none. */
const unasked = (scenario: Scenario): string =>
  resolve(scenario).overtime.until === 'none'
    ? ' None is asked for: it is the piece in hand at the end of the day, which is finished.'
    : '';

/** Which days it is priced on, what the cell begins and ends them with, and how tomorrow differs. */
function pricedOn(scenario: Scenario, { usual, pair, tomorrow }: Bought): Fact[] {
  if (usual === undefined || usual === null) return [];
  const matters = resolvePlant(scenario).study.difference;
  const differs = tomorrow === undefined ? null : tonightWords(pair.good, tomorrow, matters);
  const texts = [
    `${capitalized(usualDaysWords(usual))}.`,
    ...stockWords(usual, matters),
    ...(differs === null ? [] : [differs]),
  ];
  return [{ name: 'Priced on', value: texts.join(' ') }];
}

/** Said with the figure itself, as it may be another than tomorrow's. */
const usually = ({ usual }: Bought): string =>
  usual === undefined || usual === null ? '' : 'On usual days: ';

function unitsWords(good: Interval, { currency, margin }: ResolvedMoney): string {
  if (margin === null) return 'Not counted: the file does not say what one more brings in.';
  if (!Number.isFinite(good.half)) return 'Not known yet: too few shifts have been run.';
  const worth = { estimate: good.estimate * margin, low: good.low * margin, high: good.high * margin };
  if (good.low <= 0 && good.high >= 0)
    return `${moneyRange(worth, currency).range || 'Nothing'} a shift, at ${money(margin, currency)} each: they may bring in nothing.`;
  if (good.high < 0)
    return `Fewer, not more: ${moneyRange(worth, currency).range || moneyRange(worth, currency).estimate} a shift, at ${money(margin, currency)} each.`;
  const { amount, range } = sizeText(worth, { kind: 'money', currency, per: 'shift' });
  return `${amount}${range === '' ? '' : ` (${range})`}: ${fixed(good.estimate, 2)} at ${money(margin, currency)} each.`;
}

/** To three figures, the range outwards: what is reckoned years ahead is not known to the dollar. */
export function rough({ estimate, low, high }: Ranged): Ranged {
  const largest = Math.max(Math.abs(low), Math.abs(high));
  if (!(largest >= 1000) || !Number.isFinite(largest)) return { estimate, low, high };
  const decimals = 2 - Math.floor(Math.log10(largest));
  return {
    estimate: roundDown(estimate, decimals),
    low: roundDown(low, decimals),
    high: roundUp(high, decimals),
  };
}

/** "pays back after 24 shifts (21 to 26)", "may never pay back". */
export function paybackWords(payback: Payback): string {
  switch (payback.kind) {
    case 'nothing to pay':
      return 'has nothing to pay back';
    case 'never pays back':
      return 'never pays back';
    case 'may never pay back':
      return 'may never pay back';
    case 'pays back': {
      const { estimate, low, high } = payback.shifts;
      const [least, most] = [Math.max(1, roundDown(low, 0)), roundUp(high, 0)];
      return `pays back after ${counted(roundUp(estimate, 0), 'shift')}${least === most ? '' : ` (${plain(least)} to ${plain(most)})`}`;
    }
  }
}

/** What half the margin or half the price more would do to the payback. */
export function moneyMoves(scenario: Scenario, bought: Bought): string[] {
  const { margin, currency } = resolvePlant(scenario).money;
  const { price } = bought;
  if (price === null || price === 0) return [];
  const half = margin === null || margin === 0 ? null : returnOf(scenario, bought, { margin: 0.5 });
  const dear = returnOf(scenario, bought, { price: 1.5 });
  const words = [
    ...(half === null
      ? []
      : [
          `With half the margin, ${money(margin! / 2, currency)} a good unit, it ${paybackWords(half.payback)}`,
        ]),
    ...(dear === null
      ? []
      : [`at half as much again, ${money(price * 1.5, currency)}, it ${paybackWords(dear.payback)}`]),
  ];
  return words.length === 0 ? [] : [`${capitalized(words.join('; '))}.`];
}

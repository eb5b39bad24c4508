/**
 * Figures and names in words, spelt as in the United States: pure functions from numbers to text, never
 * rounding in anybody's favor.
 */
import { clockOfMinutes } from '../scenario/clock.ts';
import { digits } from './digits.ts';
import type { Ranged } from '../money/payback.ts';

const FEW = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];
const ORDINALS = [
  'zeroth',
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
  'eleventh',
  'twelfth',
];
const MOST_DECIMALS = 6;

/** A number with exactly so many decimals, thousands set apart, a true minus sign, never "−0". */
export function fixed(value: number, decimals: number): string {
  if (Number.isNaN(value)) return 'unknown';
  if (!Number.isFinite(value)) return 'without limit';
  const text = digits(decimals).format(Math.abs(value));
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/** A number with as many decimals as it needs, two at most. */
export function plain(value: number): string {
  const text = fixed(value, 2);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Rounded down, and up, to so many decimals; a binary hair over a round figure does not count. */
export const roundDown = (value: number, decimals: number): number =>
  Math.floor(value * 10 ** decimals + 1e-7) / 10 ** decimals;
export const roundUp = (value: number, decimals: number): number =>
  Math.ceil(value * 10 ** decimals - 1e-7) / 10 ** decimals;

/** Just over `value`: so "under 0.3" can be said of it. */
export const justOver = (value: number, decimals: number): number =>
  (Math.floor(value * 10 ** decimals + 1e-7) + 1) / 10 ** decimals;

/**
 * Decimals that show a range: its half-width to one figure, and more where an end that is not zero would come
 * out as zero (a range that leaves zero out must be seen to do so).
 */
export function decimalsFor({ estimate, low, high }: Ranged): number {
  const half = (high - low) / 2;
  if (half === 0) return wanted(estimate);
  if (!Number.isFinite(half)) return 1;
  // A range of a few units is not told from its neighbours without tenths.
  const least = half < A_FEW ? 1 : 0;
  let decimals = Math.min(3, Math.max(least, Math.ceil(-Math.log10(half) - 1e-9)));
  const vanishes = (): boolean =>
    (low > 0 && roundDown(low, decimals) === 0) || (high < 0 && roundUp(high, decimals) === 0);
  while (vanishes() && decimals < MOST_DECIMALS) decimals += 1;
  return decimals;
}

/** So many decimals that a range rounded outwards still ends under what it ends under. */
export function decimalsUnder(ranged: Ranged, under: number): number {
  const least = decimalsFor(ranged);
  if (!Number.isFinite(under) || !(ranged.high < under)) return least;
  let decimals = least;
  while (decimals < MOST_DECIMALS && roundUp(ranged.high, decimals) >= under) decimals += 1;
  return decimals;
}

const A_FEW = 3;

const wanted = (value: number): number =>
  [0, 1, 2].find((decimals) => Math.abs(roundDown(value, decimals) - value) < 1e-9) ?? 2;

export interface RangeText {
  estimate: string;
  /** "2.8 to 3.4"; empty for a range without width. */
  range: string;
}

/**
 * An estimate and its range, the range rounded outwards. `write` turns a number and its decimals into text.
 * @param under where the range ends under it, so many decimals that it is seen to.
 */
export function rangeText(
  ranged: Ranged,
  write: (value: number, decimals: number) => string = fixed,
  under = Infinity,
): RangeText {
  const decimals = decimalsUnder(ranged, under);
  const { estimate, low, high } = ranged;
  const range =
    low === high
      ? ''
      : `${write(roundDown(low, decimals), decimals)} to ${write(roundUp(high, decimals), decimals)}`;
  return { estimate: write(estimate, decimals), range };
}

/** "three", "13": whole numbers up to twelve in words. */
export const spelt = (count: number): string => FEW[count] ?? plain(count);

/** "third", "13th". */
export function ordinal(place: number): string {
  if (ORDINALS[place] !== undefined) return ORDINALS[place];
  const tail =
    place % 100 >= 11 && place % 100 <= 13 ? 'th' : ({ 1: 'st', 2: 'nd', 3: 'rd' }[place % 10] ?? 'th');
  return `${plain(place)}${tail}`;
}

/** "a third", "an eighth", "an 18th". */
export function withArticle(words: string): string {
  return `${/^([aeio]|u(?!ni|se|sa|te)|8|1[18](?!\d))/i.test(words) ? 'an' : 'a'} ${words}`;
}

/** One of what a name stands for: "Clamp sets" is "Clamp set", "benches" is "bench". */
export function singular(name: string): string {
  if (/(ss|us|is)$/i.test(name) || !/s$/i.test(name)) return name;
  if (/ies$/i.test(name)) return name.replace(/ies$/i, 'y');
  return /(ch|sh|ss|x|z)es$/i.test(name) ? name.slice(0, -2) : name.slice(0, -1);
}

/** Several of what a name stands for, whether it is given as one or as several. */
export function plural(name: string): string {
  const one = singular(name);
  if (/[^aeiou]y$/i.test(one)) return one.replace(/y$/i, 'ies');
  return /(s|x|z|ch|sh)$/i.test(one) ? `${one}es` : `${one}s`;
}

/** "1 shift", "12 shifts", "1,200 shifts". */
/** What so many replications are called: "400 shifts", "400 runs of 3 shifts". */
export const runsOf = (count: number, inARow = 1): string =>
  inARow === 1 ? counted(count, 'shift') : `${counted(count, 'run')} of ${counted(inARow, 'shift')}`;

/** What is counted along an axis: "good units a shift", "good units over 3 shifts". */
export const unitsOver = (shifts: number): string =>
  `good units ${shifts === 1 ? 'a shift' : `over ${counted(shifts, 'shift')}`}`;

export const counted = (count: number, name: string): string =>
  `${plain(count)} ${count === 1 ? singular(name) : plural(name)}`;

/** A thing's name inside a sentence: "Clamp sets" is "clamp sets", "PVA press" and "T-nut" stay. */
export const inSentence = (name: string): string =>
  /^\p{Lu}[\p{Ll}\s]/u.test(name) ? name[0]!.toLowerCase() + name.slice(1) : name;

export const capitalized = (text: string): string =>
  text.replace(/^\p{Ll}/u, (letter) => letter.toUpperCase());

/** "fitting", "fitting and sanding", "fitting, gluing, and sanding". */
export function listed(items: string[], joint: 'and' | 'or' = 'and'): string {
  return new Intl.ListFormat('en-US', { type: joint === 'and' ? 'conjunction' : 'disjunction' }).format(
    items,
  );
}

/** "1 h 25 min", "45 min", "2 h"; to the whole minute. */
export function duration(minutes: number): string {
  if (!Number.isFinite(minutes)) return fixed(minutes, 0);
  if (minutes < 0) return `−${duration(-minutes)}`;
  const whole = Math.round(minutes);
  if (whole === 0) return minutes === 0 ? '0 min' : 'under 1 min';
  const hours = Math.floor(whole / 60);
  return [...(hours > 0 ? [`${plain(hours)} h`] : []), ...(whole % 60 > 0 ? [`${whole % 60} min`] : [])].join(
    ' ',
  );
}

/** "$1,800", "$12.50", "EUR 1,800", "−$90": whole amounts without cents unless decimals are asked for. */
export function money(
  amount: number,
  currency: string,
  decimals = Math.abs(amount - Math.round(amount)) < 0.005 ? 0 : 2,
): string {
  const text = fixed(amount, decimals);
  const sign = text.startsWith('−') ? '−' : '';
  const gap = /\p{L}$/u.test(currency) ? '\u00A0' : '';
  return `${sign}${currency}${gap}${text.slice(sign.length)}`;
}

/** Money with its range: cents while the range is narrow, whole amounts once it is wide. */
export function moneyRange(ranged: Ranged, currency: string): RangeText {
  return rangeText(ranged, (value, decimals) =>
    money(value, currency, decimals === 0 ? 0 : Math.max(2, decimals)),
  );
}

/** A share (0 to 1) as per cent: whole ones, but never 0% or 100% of what is not. */
export function percent(share: number, towards: 'nearest' | 'down' | 'up' = 'nearest'): string {
  if (share <= 0) return '0%';
  if (share >= 1) return '100%';
  const hundred = share * 100;
  const whole =
    towards === 'nearest'
      ? Math.round(hundred)
      : towards === 'down'
        ? roundDown(hundred, 0)
        : roundUp(hundred, 0);
  if (whole < 1) return 'under 1%';
  return whole > 99 ? 'over 99%' : `${whole}%`;
}

/**
 * "nine shifts in ten", "17 shifts in 20", "95 shifts in 100": a share of shifts (0 to 1, whole per cent) as
 * people say it.
 */
export function shiftsIn(share: number): string {
  const hundred = Math.round(share * 100);
  if (hundred === 50) return 'half the shifts';
  if (hundred % 10 === 0) return `${spelt(hundred / 10)} ${hundred === 10 ? 'shift' : 'shifts'} in ten`;
  if (hundred % 5 === 0) return `${hundred / 5} ${hundred === 5 ? 'shift' : 'shifts'} in 20`;
  return `${hundred} ${hundred === 1 ? 'shift' : 'shifts'} in 100`;
}

/** "1 in 100": the roundest chance that is not under `share` (over 0). */
export function oneIn(share: number): string {
  const times = Math.floor(1 / share + 1e-9);
  const step = 10 ** Math.max(0, Math.floor(Math.log10(times) + 1e-9));
  return `1 in ${plain(Math.max(1, times < 10 ? times : Math.floor(times / step) * step))}`;
}

/**
 * A clock time, minutes after midnight, as the locale writes it: "14:30" (en-GB, the default), "2:30 PM"
 * (en-US).
 */
export function clockTime(minutes: number, locale = 'en-GB'): string {
  const clock = clockOfMinutes(minutes);
  const time = new Intl.DateTimeFormat(locale, {
    hour: 'numeric',
    minute: '2-digit',
    timeZone: 'UTC',
  }).format(new Date(`1970-01-01T${clock}:00Z`));
  return time.replace(/\s/gu, ' ').replace(/^(\d):(\d\d)$/, '0$1:$2');
}

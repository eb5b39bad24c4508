/** Reading what people type: numbers with either decimal sign, clock times in the ways they are written. */
import { clockOfMinutes } from '../../src/scenario/clock.ts';

export type Read<T> = { kind: 'fine'; value: T } | { kind: 'wrong'; message: string };

export interface NumberRules {
  least?: number | undefined;
  most?: number | undefined;
  /** Whole numbers only. */
  whole?: boolean;
  /** Nothing typed means "as usual" (null). */
  optional?: boolean;
  unit?: string;
}

const wrong = (message: string): { kind: 'wrong'; message: string } => ({ kind: 'wrong', message });

/** The signs of a language: 1,234.5 or 1.234,5 or 1 234,5. */
function signsOf(locale: string | undefined): { group: string; decimal: string } {
  const parts = new Intl.NumberFormat(locale, { useGrouping: true }).formatToParts(12345.5);
  const sign = (type: string): string => parts.find((part) => part.type === type)?.value ?? '';
  return { group: sign('group'), decimal: sign('decimal') };
}

/** Text with the thousands taken together and a point as its decimal sign; or the two ways to read it. */
function ungrouped(text: string, whole: boolean, locale?: string): string | [string, string] {
  const both = /^(\D*\d{1,3})(?:([.,])\d{3})(?:\2\d{3})*(?!\2)[.,]\d*$/.exec(text);
  if (both !== null) {
    const sign = both[2]!;
    return text.replaceAll(sign, '').replace(',', '.');
  }
  const groups = /^[+\-−]?[1-9]\d{0,2}([.,])\d{3}(?:\1\d{3})*$/.exec(text);
  if (groups === null) return text.replace(',', '.');
  const sign = groups[1]!;
  const { group, decimal } = signsOf(locale);
  const together = text.replaceAll(sign, '');
  // Several groups, or where only whole numbers are asked for: thousands, whatever the language.
  if (whole || together.length < text.length - 1) return together;
  if (sign === group && sign === ',') return together;
  // A point is how this page itself writes a decimal.
  if (sign === '.' && decimal === '.') return text;
  const decimals = String(Number(text.replace(',', '.').replace('−', '-')));
  // With a fourth decimal it can only be read in one way.
  return [together, /\.\d{3}$/.test(decimals) ? `${decimals}0` : decimals];
}

/**
 * A number as typed: spaces, a currency sign and the unit are forgiven, thousands are taken together. What
 * could be read in two ways ("1,800" where the comma is the decimal sign) is asked about, never guessed.
 * @param locale default: the browser's.
 */
export function readNumber(
  text: string,
  { least, most, whole = false, optional = false, unit = '' }: NumberRules,
  locale?: string,
): Read<number | null> {
  const plain = text
    .trim()
    .replace(unit === '' ? /$^/ : new RegExp(`\\s*${unit.replace(/[^\w%]/g, '\\$&')}$`, 'i'), '')
    .replace(/^\p{Sc}|\p{Sc}$/gu, '')
    .replace(/[\s\u00a0\u202f'’]/g, '');
  const read = ungrouped(plain, whole, locale);
  if (typeof read !== 'string')
    return wrong(`“${text.trim()}” may be ${read[0]} or ${read[1]}. Write the one you mean.`);
  const bare = read;
  if (bare === '') return optional ? { kind: 'fine', value: null } : wrong('Write a number here.');
  if (!/^[+\-−]?(\d+([.,]\d*)?|[.,]\d+)$/.test(bare))
    return wrong(
      `“${text.trim()}” is not a number. Write it in figures, for example ${whole ? '3' : '2.5'}.`,
    );
  const value = Number(bare.replace(',', '.').replace('−', '-'));
  if (whole && !Number.isInteger(value)) return wrong('Only whole numbers here.');
  const of = unit === '' ? '' : ` ${unit}`;
  if (least !== undefined && value < least) return wrong(`At least ${least}${of}.`);
  if (most !== undefined && value > most) return wrong(`At most ${most}${of}.`);
  return { kind: 'fine', value };
}

/** A number as shown in a field: no more than three decimals, none that say nothing, no thousands signs. */
export const writeNumber = (value: number | null): string =>
  value === null ? '' : String(Math.round(value * 1000) / 1000);

/** "6", "630", "6:30", "14.30", "2:30 pm" as "HH:MM". */
export function readClock(
  text: string,
  { optional = false }: { optional?: boolean } = {},
): Read<string | null> {
  const bare = text.trim().toLowerCase();
  if (bare === '')
    return optional ? { kind: 'fine', value: null } : wrong('Write a clock time, for example 6:30.');
  const found = /^(\d{1,2})(?:[:.h ]?(\d{2}))?\s*(a|p)?\.?\s?(?:m\.?)?$/.exec(bare);
  const [hour, minute, half] =
    found === null ? [NaN, NaN, undefined] : [Number(found[1]), Number(found[2] ?? 0), found[3]];
  const twelve = half !== undefined;
  if (!(minute <= 59) || (twelve ? !(hour >= 1 && hour <= 12) : !(hour <= 23)))
    return wrong(`“${text.trim()}” is not a clock time. Write it like 6:30 or 14:30.`);
  return {
    kind: 'fine',
    value: clockOfMinutes((twelve ? (hour % 12) + (half === 'p' ? 12 : 0) : hour) * 60 + minute),
  };
}

/** Whether this language writes the clock by the half-day. */
export function twelveHours(locale?: string): boolean {
  const by = (tag: string | undefined): boolean =>
    new Intl.DateTimeFormat(tag, { hour: 'numeric' }).resolvedOptions().hour12 === true;
  try {
    return by(locale);
  } catch {
    // A tag that is none ("en_US", "C"), as some systems hand it on: as this machine has it.
    return by(undefined);
  }
}

/** "14:30" as this language shows it: 14:30 or 2:30 pm. */
export function writeClock(clock: string | null, twelve: boolean): string {
  if (clock === null || !twelve) return clock ?? '';
  const hour = Number(clock.slice(0, 2));
  return `${hour % 12 === 0 ? 12 : hour % 12}:${clock.slice(3)} ${hour < 12 ? 'am' : 'pm'}`;
}

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

/** A number as typed: spaces and the unit are forgiven, comma or point is the decimal sign. */
export function readNumber(
  text: string,
  { least, most, whole = false, optional = false, unit = '' }: NumberRules,
): Read<number | null> {
  const bare = text
    .trim()
    .replace(unit === '' ? /$^/ : new RegExp(`\\s*${unit.replace(/[^\w%]/g, '\\$&')}$`, 'i'), '')
    .replace(/[\s\u00a0\u202f]/g, '');
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
export const twelveHours = (locale?: string): boolean =>
  new Intl.DateTimeFormat(locale, { hour: 'numeric' }).resolvedOptions().hour12 === true;

/** "14:30" as this language shows it: 14:30 or 2:30 pm. */
export function writeClock(clock: string | null, twelve: boolean): string {
  if (clock === null || !twelve) return clock ?? '';
  const hour = Number(clock.slice(0, 2));
  return `${hour % 12 === 0 ? 12 : hour % 12}:${clock.slice(3)} ${hour < 12 ? 'am' : 'pm'}`;
}

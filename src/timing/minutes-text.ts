/**
 * Minutes and ratings as people write them. Every reader gives a number or says in words why there is none.
 */

export type Read<T> = { ok: true; value: T } | { ok: false; why: string };
export type MinutesUnit = 'minutes' | 'seconds' | 'hours';
/** What "1:05" means where it stands for a length of time. */
export type ColonStyle = 'mm:ss' | 'h:mm';

const fail = (why: string): { ok: false; why: string } => ({ ok: false, why });
const IN_MINUTES: Record<MinutesUnit, number> = { minutes: 1, seconds: 1 / 60, hours: 60 };
const DAY = 1440;

/**
 * A plain decimal number: point or comma for decimals; where both stand, the last one is the decimal sign and
 * the other groups thousands. NaN where it is none.
 */
export function decimalOf(text: string): number {
  let bare = text
    .trim()
    .replace(/(\d)[\s'’](?=\d{3}(\D|$))/g, '$1')
    .replace(/^([-+\u2212])\s+/, '$1')
    .replace(/^\u2212/, '-');
  const point = bare.lastIndexOf('.');
  const comma = bare.lastIndexOf(',');
  if (point >= 0 && comma >= 0) {
    const groups = point > comma ? ',' : '.';
    if (!new RegExp(`^[-+]?\\d{1,3}(\\${groups}\\d{3})+\\${groups === ',' ? '.' : ','}\\d+$`).test(bare))
      return NaN;
    bare = bare.replaceAll(groups, '');
  }
  bare = bare.replace(',', '.');
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(bare) ? Number(bare) : NaN;
}

/** Whether "1:05" stands here, two numbers and a colon. */
export const isColonPair = (text: string): boolean => /^\s*\d{1,3}:\d{1,2}([.,]\d+)?\s*$/.test(text);

/**
 * Minutes of "12.5", "12,5", "12 min", "90 s", "12:30", "1:02:30", "1h 05", "5 min 30 s". Bare numbers are in
 * `unit`. Longer than a day, nothing and below nothing are refused.
 */
export function minutesOf(text: string, unit: MinutesUnit, colon: ColonStyle): Read<number> {
  const bare = text.trim();
  if (bare === '') return fail('no time given');
  if (eitherWay(bare, unit))
    return fail(
      `“${short(bare)}” may be ${bare.replace(',', '')} or ${bare.replace(',', '.')}: write it without the comma`,
    );
  const raw = lengthOf(bare, unit, colon);
  if (Number.isNaN(raw)) return fail(`“${short(bare)}” is not a length of time`);
  if (raw < 0) return fail(`“${short(bare)}” is less than nothing`);
  if (raw === 0) return fail(`“${short(bare)}” is no time at all`);
  if (raw > DAY) return fail(`“${short(bare)}” is longer than a day`);
  return { ok: true, value: raw };
}

/**
 * "1,800" seconds is half an hour where the comma groups thousands, and two seconds where it is the decimal
 * sign. As minutes both can be true only up to a day.
 */
function eitherWay(text: string, unit: MinutesUnit): boolean {
  if (!/^[1-9]\d{0,2},\d{3}$/.test(text)) return false;
  return Number(text.replace(',', '')) * IN_MINUTES[unit] <= DAY;
}

function lengthOf(text: string, unit: MinutesUnit, colon: ColonStyle): number {
  const number = decimalOf(text);
  if (!Number.isNaN(number)) return number * IN_MINUTES[unit];
  const colons = /^(-?)(\d{1,3}):(\d{1,2})(?::(\d{1,2}))?([.,]\d+)?$/.exec(text);
  if (colons !== null) return colonLength(colons, colon);
  return worded(text);
}

function colonLength(parts: RegExpExecArray, colon: ColonStyle): number {
  const [first, second] = [Number(parts[2]), Number(parts[3])];
  const fraction = parts[5] === undefined ? 0 : Number(`0.${parts[5].slice(1)}`);
  const sign = parts[1] === '-' ? -1 : 1;
  if (second > 59) return NaN;
  if (parts[4] !== undefined) {
    const third = Number(parts[4]);
    return third > 59 ? NaN : sign * (first * 60 + second + (third + fraction) / 60);
  }
  return sign * (colon === 'mm:ss' ? first + (second + fraction) / 60 : first * 60 + second + fraction);
}

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)\s*`;
const HOURS = `${NUMBER}(?:h|hrs?|hours?|std\\.?|stunden?|heures?|horas?|ore|uur)\\s*`;
const MINUTES = `${NUMBER}(?:min\\.?|mins?|minutes?|minuten?|minutos?|minuti|m|['’′](?!'))\\s*`;
const SECONDS = `${NUMBER}(?:s|secs?\\.?|seconds?|sek\\.?|sekunden?|secondes?|segundos?|secondi|["”″]|'')\\s*`;
/**
 * Each part at most once, in this order; the part after a named one may go without its name ("1h 05", "4 min
 * 30").
 */
const WORDED = new RegExp(`^(?:${HOURS})?(?:${MINUTES})?(?:${SECONDS})?$`);
const HOURS_AND = new RegExp(`^${HOURS}${NUMBER}$`);
const MINUTES_AND = new RegExp(`^(?:${HOURS})?${MINUTES}${NUMBER}$`);

function worded(text: string): number {
  const lower = text.toLowerCase();
  const hoursAnd = HOURS_AND.exec(lower);
  if (hoursAnd !== null) return together(hoursAnd[1], hoursAnd[2], undefined);
  const found = MINUTES_AND.exec(lower) ?? WORDED.exec(lower);
  return found === null ? NaN : together(found[1], found[2], found[3]);
}

function together(
  hours: string | undefined,
  minutes: string | undefined,
  seconds: string | undefined,
): number {
  const value = (part: string | undefined): number => (part === undefined ? 0 : decimalOf(part));
  return value(hours) * 60 + value(minutes) + value(seconds) / 60;
}

/** A rating as a factor: "1.2", "120", "120 %", "95". Outside 0.2 to 3 it is refused. */
export function ratingOf(text: string): Read<number> {
  const number = decimalOf(text.replace('%', ''));
  if (Number.isNaN(number)) return fail(`the rating “${short(text)}” is not a number`);
  const factor = text.includes('%') || number > 3 ? number / 100 : number;
  if (factor < 0.2 || factor > 3) return fail(`the rating “${short(text)}” is outside 20 % to 300 %`);
  return { ok: true, value: factor };
}

export const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 37)}…` : text);

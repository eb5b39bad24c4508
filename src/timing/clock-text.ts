/** Dates and clock times as people and spreadsheets write them. */
import { fold } from './header-words.ts';
import { decimalOf, short, type Read } from './minutes-text.ts';

export type DateOrder = 'day first' | 'month first';

/** A date as its day number (days since 1970-01-01) or nothing, and minutes after midnight or nothing. */
export interface Moment {
  day: number | null;
  minute: number | null;
  /**
   * The clock carried no a.m. or p.m. and its hour is 12 or less: it may have been meant on a 12-hour dial.
   */
  twelveHour: boolean;
}

const MONTHS = [
  /^(jan|gen|ene|sty)/,
  /^(feb|fev|lut|fevr)/,
  /^(mar|maa|mrz|mae)/,
  /^(apr|avr|abr|kwi)/,
  /^(may|mai|mei|mag|maj)/,
  /^(jun|juin|giu|cze)/,
  /^(jul|juil|lug|lip)/,
  /^(aug|aou|ago|sie)/,
  /^(sep|set|wrz)/,
  /^(oct|okt|ott|paz)/,
  /^(nov|lis)/,
  /^(dec|dez|dic|gru)/,
];
const EXCEL_EPOCH = 25569;

const fail = (why: string): { ok: false; why: string } => ({ ok: false, why });

/** "2024-03-05" of a day number. */
export function isoOfDay(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10);
}

/** Day number of a year, month (1 to 12) and day; null where there is no such day. */
export function dayNumber(year: number, month: number, day: number): number | null {
  const full = year < 100 ? year + (year < 70 ? 2000 : 1900) : year;
  const time = Date.UTC(full, month - 1, day);
  const back = new Date(time);
  const real =
    back.getUTCFullYear() === full && back.getUTCMonth() === month - 1 && back.getUTCDate() === day;
  return real && full >= 1900 && full <= 2200 ? time / 86_400_000 : null;
}

/** What a text's date says about the order of day and month: one of them, or nothing. */
export function orderTold(text: string): DateOrder | null {
  const parts = /^\D*(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})(?!\d)/.exec(text.trim());
  if (parts === null) return null;
  const [first, second] = [Number(parts[1]), Number(parts[3])];
  if (first > 12 && second <= 12) return 'day first';
  if (second > 12 && first <= 12) return 'month first';
  return null;
}

/** Whether the text holds a date whose order of day and month cannot be seen from it alone. */
export function orderOpen(text: string): boolean {
  const parts = /^\D*(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})(?!\d)/.exec(text.trim());
  return parts !== null && Number(parts[1]) <= 12 && Number(parts[3]) <= 12 && parts[1] !== parts[3];
}

/** Reads a date, a clock time, or both (a date first); a bare number is a spreadsheet's day count. */
export function momentOf(text: string, order: DateOrder): Read<Moment> {
  const bare = text.trim();
  if (bare === '') return fail('no time of day given');
  const serial = decimalOf(bare);
  if (!Number.isNaN(serial)) {
    const read = serialMoment(bare, serial);
    if (read !== null) return { ok: true, value: read };
  }
  const dated = splitDate(bare, order);
  if (dated === 'no such day') return fail(`“${short(bare)}” is no day of the calendar`);
  const rest = (dated === null ? bare : dated.rest).trim();
  if (dated !== null && rest === '')
    return { ok: true, value: { day: dated.day, minute: null, twelveHour: false } };
  const clock = clockOf(rest);
  if (clock === null) return fail(`“${short(bare)}” is no time of day`);
  return { ok: true, value: { day: dated?.day ?? null, ...clock } };
}

/**
 * Day counts of spreadsheets (0.25 is 06:00, 45356.25 a date with it) and clock times without a colon (0605,
 * 6.05).
 */
function serialMoment(text: string, serial: number): Moment | null {
  if (/^\d{4}$/.test(text)) {
    const clock = clockOf(`${text.slice(0, 2)}:${text.slice(2)}`);
    return clock === null ? null : { day: null, ...clock };
  }
  const fraction = /[.,]\d{3,}$/.test(text);
  if (serial >= 0 && serial < 1 && fraction) return { day: null, minute: serial * 1440, twelveHour: false };
  if (serial >= 20_000 && serial < 90_000) {
    const day = Math.floor(serial);
    return { day: day - EXCEL_EPOCH, minute: fraction ? (serial - day) * 1440 : null, twelveHour: false };
  }
  return null;
}

function splitDate(text: string, order: DateOrder): { day: number; rest: string } | 'no such day' | null {
  const iso = /^(\d{4})[-./](\d{1,2})[-./](\d{1,2})(?!\d)[T\s]*/i.exec(text);
  if (iso !== null)
    return dateOr(dayNumber(Number(iso[1]), Number(iso[2]), Number(iso[3])), text.slice(iso[0].length));
  const weekday = /^[^\W\d]+\.?,?\s+(?=\d{1,2}[./-])/u.exec(text)?.[0] ?? '';
  const after = text.slice(weekday.length);
  const plain = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})(?!\d)[,\s]*/.exec(after);
  if (plain !== null) {
    const [first, second, year] = [Number(plain[1]), Number(plain[3]), Number(plain[4])];
    const dayFirst = second > 12 ? false : first > 12 || order === 'day first';
    return dateOr(
      dayFirst ? dayNumber(year, second, first) : dayNumber(year, first, second),
      after.slice(plain[0].length),
    );
  }
  const named = /^(\d{1,2})\.?[\s-]+(\p{L}{3,})\.?[\s-]+(\d{4}|\d{2})(?!\d)[,\s]*/u.exec(text);
  if (named !== null)
    return namedDate(named[2]!, Number(named[1]), Number(named[3]), text.slice(named[0].length));
  const american = /^(\p{L}{3,})\.?\s+(\d{1,2}),?\s+(\d{4})(?!\d)[,\s]*/u.exec(text);
  if (american !== null)
    return namedDate(american[1]!, Number(american[2]), Number(american[3]), text.slice(american[0].length));
  return null;
}

function namedDate(
  name: string,
  day: number,
  year: number,
  rest: string,
): { day: number; rest: string } | 'no such day' | null {
  const month = MONTHS.findIndex((pattern) => pattern.test(fold(name)));
  return month < 0 ? null : dateOr(dayNumber(year, month + 1, day), rest);
}

const dateOr = (day: number | null, rest: string): { day: number; rest: string } | 'no such day' =>
  day === null ? 'no such day' : { day, rest };

/** "06:00", "6:00:30.5", "6.05", "6h05", "6:05 pm", "6 am", an offset or Z at the end let be. */
function clockOf(text: string): { minute: number; twelveHour: boolean } | null {
  const found =
    /^(\d{1,2})(?:\s*[:.hH]\s*(\d{2}))?(?:[:.](\d{2})(?:[.,](\d{1,6}))?)?\s*(?:([ap])\.?\s?m\.?)?\s*(?:uhr|h|Z|[+-]\d{2}:?\d{2})?$/i.exec(
      text,
    );
  if (found === null) return null;
  const half = found[5]?.toLowerCase();
  if (found[2] === undefined && half === undefined && !/uhr|h$/i.test(text)) return null;
  let hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  const second = Number(found[3] ?? 0) + (found[4] === undefined ? 0 : Number(`0.${found[4]}`));
  if (minute > 59 || second >= 60) return null;
  if (half !== undefined) {
    if (hour > 12 || (hour === 0 && half === 'p')) return null;
    hour = (hour % 12) + (half === 'p' ? 12 : 0);
  }
  if (hour > 24 || (hour === 24 && (minute > 0 || second > 0))) return null;
  return { minute: hour * 60 + minute + second / 60, twelveHour: half === undefined && hour <= 12 };
}

/**
 * Pay of a day and of a week by the file's rules. A minute is paid at one rate only: double time before
 * overtime before the plain rate, and a minute that is overtime by the day does not count again towards the
 * week (as California Labor Code 510 puts it; for a whole week the overtime minutes then are the larger of
 * those by the day and those over the weekly threshold, which is what 29 CFR 778.202 comes to).
 *
 * Rounding: minutes are never rounded to quarter hours, the regular rate is never rounded. `payFor` returns
 * unrounded amounts, because they are averaged over thousands of shifts; `weekPay`, which is a pay slip,
 * rounds once, its total, to the cent, half up, and gives the premium as what is left after the rounded
 * straight pay, so that the slip adds up.
 */
import type { PayRules } from '../scenario/pay.ts';
import type { ResolvedPerson } from '../scenario/resolve.ts';

/** A person's paid minutes of one day. */
export interface PaidDay {
  /**
   * Paid here, up to the person's own end: at work, idle, and on paid breaks; of time away the share borne
   * here.
   */
  within: number;
  /**
   * Paid by another line: they cost nothing here, but are hours of that day. Taken to come first in the day,
   * so that overtime falls on the minutes here as long as these last.
   */
  elsewhere: number;
  /** Paid after the person's own end. */
  after: number;
}

export type PaidPerson = Pick<ResolvedPerson, 'pay' | 'hoursThisWeek' | 'daysThisWeek'>;

/** Minutes and money of one day. Money is in the file's currency, unrounded. */
export interface Pay {
  /** Minutes paid here, those at a premium included. */
  minutes: number;
  /** Minutes paid here at the overtime factor, and at the double factor. */
  overtimeMinutes: number;
  doubleMinutes: number;
  /**
   * Minutes of the day, here and elsewhere, that count towards the weekly threshold: those at the plain rate.
   */
  countedMinutes: number;
  /** All minutes at the plain rate. */
  straight: number;
  /** What overtime and double time add to it. */
  premium: number;
  total: number;
}

export const emptyPay = (): Pay => ({
  minutes: 0,
  overtimeMinutes: 0,
  doubleMinutes: 0,
  countedMinutes: 0,
  straight: 0,
  premium: 0,
  total: 0,
});

const EIGHT_HOURS = 480;
const DAYS_BEFORE_SEVENTH = 6;

/**
 * Pay of one person for one day, written into `into` (and returned), so that a caller with one `day` and one
 * `into` of its own allocates nothing. `person.hoursThisWeek` are hours at the plain rate already worked;
 * hours already paid as overtime by the day are not among them.
 */
export function payFor(day: PaidDay, person: PaidPerson, rules: PayRules, into: Pay = emptyPay()): Pay {
  return payDay(day, person.pay, person.hoursThisWeek * 60, person.daysThisWeek, rules, into);
}

/**
 * The same at a rate an hour, with `counted` minutes of the week at the plain rate and `daysBefore` days in a
 * row before this one.
 */
export function payDay(
  day: PaidDay,
  hourly: number,
  counted: number,
  daysBefore: number,
  rules: PayRules,
  into: Pay,
): Pay {
  const here = day.within + day.after;
  const all = here + day.elsewhere;
  splitDay(all, day.after, counted, daysBefore, rules, into);
  const premiumMinutes = Math.min(into.overtimeMinutes + into.doubleMinutes, here);
  const double = Math.min(into.doubleMinutes, here);
  const overtime = premiumMinutes - double;
  const rate = hourly / 60;
  into.minutes = here;
  into.overtimeMinutes = overtime;
  into.doubleMinutes = double;
  into.straight = here * rate;
  into.premium = rate * (overtime * (rules.overtimeFactor - 1) + double * (rules.doubleFactor - 1));
  into.total = into.straight + into.premium;
  return into;
}

/**
 * Splits the minutes of a day into plain, overtime and double ones; `counted` minutes of the week were plain
 * before it.
 */
function splitDay(
  minutes: number,
  after: number,
  counted: number,
  daysBefore: number,
  rules: PayRules,
  into: Pay,
): void {
  if (rules.seventhDay && daysBefore >= DAYS_BEFORE_SEVENTH) {
    into.doubleMinutes = Math.max(0, minutes - Math.min(EIGHT_HOURS, rules.doubleAfter));
    into.overtimeMinutes = minutes - into.doubleMinutes;
    into.countedMinutes = 0;
    return;
  }
  const double = Math.max(0, minutes - rules.doubleAfter);
  const daily = rules.dailyAfter === 'own end' ? after : Math.max(0, minutes - rules.dailyAfter);
  const byDay = Math.max(double, daily);
  const plain = minutes - byDay;
  const weekly = Math.max(0, plain - Math.max(0, rules.weeklyAfter - counted));
  into.doubleMinutes = double;
  into.overtimeMinutes = byDay - double + weekly;
  into.countedMinutes = plain - weekly;
}

/** A week's work of one person. */
export interface WorkWeek {
  /**
   * In order; a day without minutes breaks a row of days. `after`: those of the minutes after the person's
   * own end (default 0).
   */
  days: { work: { minutes: number; rate: number }[]; after?: number }[];
  /** Earned besides: piece work, a production bonus. Part of the regular rate. Default 0. */
  earned?: number;
  /** Days in a row, and minutes at the plain rate, already worked this week. Default 0. */
  daysBefore?: number;
  minutesBefore?: number;
}

export interface WeekPay {
  minutes: number;
  overtimeMinutes: number;
  doubleMinutes: number;
  /**
   * All that was earned, over all hours: what the premium is reckoned on (29 CFR 778.109 to 778.115).
   * Unrounded.
   */
  regularRate: number;
  straight: number;
  premium: number;
  /** To the cent. */
  total: number;
}

/**
 * Pay of a week with several days and several rates, the premium on the regular rate. Amounts are rounded to
 * the cent.
 */
export function weekPay(week: WorkWeek, rules: PayRules): WeekPay {
  const day = emptyPay();
  let minutes = 0;
  let earned = week.earned ?? 0;
  let overtime = 0;
  let double = 0;
  let counted = week.minutesBefore ?? 0;
  let daysBefore = week.daysBefore ?? 0;
  for (const { work, after } of week.days) {
    const worked = work.reduce((sum, one) => sum + one.minutes, 0);
    splitDay(worked, after ?? 0, counted, daysBefore, rules, day);
    minutes += worked;
    earned += work.reduce((sum, one) => sum + (one.minutes * one.rate) / 60, 0);
    overtime += day.overtimeMinutes;
    double += day.doubleMinutes;
    counted += day.countedMinutes;
    daysBefore = worked > 0 ? daysBefore + 1 : 0;
  }
  const regularRate = minutes === 0 ? 0 : (earned * 60) / minutes;
  const premium =
    (regularRate / 60) * (overtime * (rules.overtimeFactor - 1) + double * (rules.doubleFactor - 1));
  const straight = toCent(earned);
  const total = toCent(earned + premium);
  return {
    minutes,
    overtimeMinutes: overtime,
    doubleMinutes: double,
    regularRate,
    straight,
    premium: toCent(total - straight),
    total,
  };
}

/**
 * To the cent, half up (away from zero below it). Rounded to 15 digits first, so that 1.005, which in binary
 * is a hair less, is 1.01.
 */
export function toCent(amount: number): number {
  const cents = Number((Math.abs(amount) * 100).toPrecision(15));
  return (Math.sign(amount) * Math.round(cents)) / 100 || 0;
}

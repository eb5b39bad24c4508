/** Each person's overtime in minutes and money, and exposure, over the shifts run of a plan. */
import type { ListName } from '../record/measures.ts';
import { emptyPay, payFor, type PaidDay } from '../money/pay.ts';
import type { ReportLayout } from '../record/report.ts';
import { type ResolvedLimits, type ResolvedShift } from '../scenario/resolve.ts';
import { intervalOfValues } from '../study/shift-summary.ts';
import { chanceInterval } from '../study/intervals/chance-interval.ts';
import { percentileRange, type LevelRange } from '../study/level-range.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { levelOf, mayOffer, type ExposureLevel } from './exposure.ts';
import { pointsOf, workMinutes } from './trials.ts';

export interface OvertimeOf {
  id: string;
  name: string;
  /**
   * Most minutes the plan may keep them; 0 where it does not (finishing a piece in hand is overtime all the
   * same).
   */
  asked: number;
  /** Their own end, minutes from the start of the shift. */
  to: number;
  /** Minutes a shift. */
  minutes: Interval;
  /** Those of them with the piece in hand at their own end; the others are planned. */
  finishing: number;
  /** What these minutes cost a shift, premium in. */
  money: Interval;
  /**
   * Chance that they stay a minute or more; and the minutes that one shift in ten reaches, with what that
   * surely lies between.
   */
  stays: Interval;
  oneInTen: number;
  between: LevelRange;
}

export interface ExposureOf {
  id: string;
  name: string;
  /** Points a shift: the mean, and what one shift in 20 reaches. */
  points: number;
  high: number;
  level: ExposureLevel;
  /** Share of shifts over the file's limit. */
  over: number;
}

/** Rows of one shift's layout, one after another. */
export interface Rows {
  rows: Float64Array;
  count: number;
  layout: ReportLayout;
}

/** What of a person's minutes these accounts are read from: rows without them would say nothing. */
export const ACCOUNT_LISTS: ListName[] = ['personMinutes', 'personOvertime', 'personFinishing'];

export function overtimeOf(
  { rows, count, layout }: Rows,
  shift: ResolvedShift,
  confidence: number,
): OvertimeOf[] {
  const stays = (id: string): boolean =>
    shift.overtime.until !== 'none' && (shift.overtime.who?.includes(id) ?? true);
  return shift.people.flatMap((person, at): OvertimeOf[] => {
    if (person.chance === 0) return [];
    const minutes = new Float64Array(count);
    const money = new Float64Array(count);
    let finishing = 0;
    for (let row = 0; row < count; row++) {
      const worked = workMinutes(rows, row * layout.size, layout, at);
      minutes[row] = worked.after;
      money[row] = overtimeMoney(worked, shift, at);
      finishing += rows[row * layout.size + layout.at.personFinishing + at]! / count;
    }
    return [
      {
        id: person.id,
        name: person.name,
        asked: stays(person.id) && person.overtime ? shift.overtime.cap : 0,
        to: person.to,
        minutes: intervalOfValues(minutes, confidence),
        finishing,
        money: intervalOfValues(money, confidence),
        stays: chanceInterval(minutes.filter((one) => one >= 1).length, count, confidence),
        oneInTen: percentile(sortedValues(minutes), 0.9),
        between: percentileRange(sortedValues(minutes), 0.9, confidence),
      },
    ];
  });
}

const whole = emptyPay();
const without = emptyPay();

/** The day's pay with the minutes after the person's own end, less that without them. */
export function overtimeMoney(
  worked: ReturnType<typeof workMinutes>,
  shift: ResolvedShift,
  person: number,
): number {
  const day = paidDay(worked, shift, person);
  const one = shift.people[person]!;
  return (
    payFor(day, one, shift.pay, whole).total - payFor({ ...day, after: 0 }, one, shift.pay, without).total
  );
}

/** A person's paid minutes, as the pay rules take them. */
export function paidDay(
  { within, after, breaks, away }: ReturnType<typeof workMinutes>,
  shift: ResolvedShift,
  person: number,
): PaidDay {
  const share = (kind: 'break' | 'away'): number => {
    const offs = shift.people[person]!.offs.filter((off) => off.kind === kind);
    const minutes = offs.reduce((sum, off) => sum + off.minutes, 0);
    return minutes === 0 ? 1 : offs.reduce((sum, off) => sum + off.minutes * off.share, 0) / minutes;
  };
  return {
    within: within + share('break') * breaks + share('away') * away,
    elsewhere: (1 - share('away')) * away,
    after,
  };
}

export function exposuresOf(
  { rows, count, layout }: Rows,
  shift: ResolvedShift,
  limits: ResolvedLimits,
): ExposureOf[] {
  if (Object.keys(limits.vibration).length === 0) return [];
  return shift.people.flatMap((person, at): ExposureOf[] => {
    const points = Float64Array.from({ length: count }, (_, row) =>
      pointsOf(rows, row * layout.size, layout, limits, at),
    );
    const mean = points.reduce((sum, one) => sum + one, 0) / count;
    if (mean === 0) return [];
    const high = percentile(sortedValues(points), 0.95);
    const over = points.filter((one) => !mayOffer(one, limits)).length / count;
    return [{ id: person.id, name: person.name, points: mean, high, level: levelOf(high), over }];
  });
}

/** Everybody's hours over the days of a week, and on which day the threshold of overtime pay is reached. */
import { emptyPay, payDay } from '../money/pay.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import type { ShiftSummary } from '../study/shift-summary.ts';

export interface HoursOfWeek {
  id: string;
  name: string;
  /** Paid hours of each day, on average; NaN on a day they are not there. */
  days: number[];
  /** Of the week, hours before these days in. */
  hours: number;
  /** Minutes after their own end, on average, of all days together. */
  overtimeMinutes: number;
  /** Of these hours, those paid at a premium. */
  premiumHours: number;
  /** Place of the day on which hours at the plain rate reach the week's threshold; null: on none. */
  reachedOn: number | null;
  /** Hours at which overtime pay begins by the week; null: never by the week. */
  threshold: number | null;
}

/** From the average minutes of each day: a forecast of pay, not a pay slip. */
export function hoursOfWeek(shifts: readonly ResolvedShift[], told: readonly ShiftSummary[]): HoursOfWeek[] {
  return shifts[0]!.people.map((person) => {
    const rules = shifts[0]!.pay;
    let [counted, row, premium, overtime] = [person.hoursThisWeek * 60, person.daysThisWeek, 0, 0];
    let reachedOn: number | null = null;
    const days = shifts.map((shift, i) => {
      const own = shift.people.find(({ id }) => id === person.id);
      if (own === undefined || own.chance === 0) {
        row = 0;
        return NaN;
      }
      const after = told[i]!.people.find(({ id }) => id === person.id)?.overtimeMinutes.estimate ?? 0;
      const minutes = { within: plannedMinutes(own), elsewhere: elsewhereMinutes(own), after };
      const pay = payDay(minutes, own.pay, counted, row, rules, emptyPay());
      counted += pay.countedMinutes;
      row += 1;
      premium += pay.overtimeMinutes + pay.doubleMinutes;
      overtime += after;
      if (reachedOn === null && counted >= rules.weeklyAfter) reachedOn = i;
      return (minutes.within + minutes.elsewhere + after) / 60;
    });
    const here = days.filter((hours) => !Number.isNaN(hours));
    return {
      id: person.id,
      name: person.name,
      days,
      hours: person.hoursThisWeek + here.reduce((sum, hours) => sum + hours, 0),
      overtimeMinutes: overtime,
      premiumHours: premium / 60,
      reachedOn,
      threshold: Number.isFinite(rules.weeklyAfter) ? rules.weeklyAfter / 60 : null,
    };
  });
}

/** Paid by this cell: their hours without unpaid breaks and without what another line pays. */
const plannedMinutes = ({ from, to, offs }: ResolvedPerson): number =>
  to - from - offs.reduce((sum, { minutes, share }) => sum + minutes * (1 - share), 0);

/** Paid by another line: it counts towards the day and the week all the same. */
const elsewhereMinutes = ({ offs }: ResolvedPerson): number =>
  offs.reduce((sum, { kind, minutes, share }) => sum + (kind === 'away' ? minutes * (1 - share) : 0), 0);

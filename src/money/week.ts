/**
 * Pay of the same people from shift to shift: the hours of a week and the days in a row run on, and what
 * somebody does in two shifts of one day is one day's work. What a shift costs is what its minutes add to
 * the pay of their day and week, so the shifts of a week add up to the pay of the week.
 *
 * A day is the calendar day in which a shift starts. A week has seven days; a file has no dates, so the
 * first one is taken to be as old as the most days anybody has worked in a row, and a new one begins with no
 * hours. Where a later shift says other hours or days for somebody than the shift before it, those hold. A
 * premium is at the rate of the shift it falls in; `weekPay` has the regular rate of a week of several rates.
 */
import { minutesOfClock } from '../scenario/clock.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';
import { emptyPay, payDay, type PaidDay, type Pay } from './pay.ts';

/** What is asked of a shift. */
export interface PaidShift extends Pick<ResolvedShift, 'start' | 'startsAfter' | 'pay'> {
  people: Pick<ResolvedPerson, 'id' | 'pay' | 'hoursThisWeek' | 'daysThisWeek'>[];
}

const DAY = 1440;
const WEEK = 7;

/** Where one person stands in the week, before their present day and in it. */
interface Standing {
  /** Days from the first shift's. */
  day: number;
  week: number;
  /** Minutes at the plain rate this week, before this day. */
  counted: number;
  /** Days in a row before this day. */
  row: number;
  /** All of this day so far, and what of it counts towards the week. */
  today: PaidDay;
  countedToday: number;
}

export class Week {
  private readonly shifts: readonly PaidShift[];
  private readonly days: number[];
  private readonly weeks: number[];
  /** By shift and person: what the file says anew there. */
  private readonly anew: boolean[][];
  private readonly standings = new Map<string, Standing>();
  private readonly whole = emptyPay();
  private readonly before = emptyPay();

  /** At least one shift, in order. */
  constructor(shifts: readonly PaidShift[]) {
    this.shifts = shifts;
    const start = minutesOfClock(shifts[0]!.start);
    this.days = shifts.map(({ startsAfter }) => Math.floor((start + startsAfter) / DAY));
    const old = Math.max(0, ...shifts[0]!.people.map(({ daysThisWeek }) => daysThisWeek));
    this.weeks = this.days.map((day) => Math.floor((day + old) / WEEK));
    this.anew = shifts.map(({ people }, shift) => people.map((person) => saysAnew(shifts, shift, person)));
  }

  /** Everybody is where the file says they are: to be called before the first shift of every replication. */
  begin(): void {
    // Emptying a map makes a new one inside, which thousands of single shifts need not pay for.
    if (this.standings.size > 0) this.standings.clear();
  }

  /** What the minutes of one person in a shift add; the shifts are told in order, each person once. */
  pay(shift: number, person: number, minutes: PaidDay, into: Pay): Pay {
    const { people, pay: rules } = this.shifts[shift]!;
    const { id, pay: rate, hoursThisWeek, daysThisWeek } = people[person]!;
    // Nothing runs on from a single shift: most questions ask about one, thousands of times.
    if (this.shifts.length === 1) return payDay(minutes, rate, hoursThisWeek * 60, daysThisWeek, rules, into);
    const standing = this.standingOf(shift, person, id);
    const { today } = standing;
    const first = today.within + today.after + today.elsewhere === 0;
    const { counted, row } = standing;
    if (!first) payDay(today, rate, counted, row, rules, this.before);
    today.within += minutes.within;
    today.after += minutes.after;
    today.elsewhere += minutes.elsewhere;
    const whole = payDay(today, rate, counted, row, rules, first ? into : this.whole);
    standing.countedToday = whole.countedMinutes;
    return first ? into : added(minutes, rate, whole, this.before, into);
  }

  private standingOf(shift: number, person: number, id: string): Standing {
    const { hoursThisWeek, daysThisWeek } = this.shifts[shift]!.people[person]!;
    const [day, week] = [this.days[shift]!, this.weeks[shift]!];
    const known = this.standings.get(id);
    if (known === undefined || this.anew[shift]![person]!) {
      const begun = {
        day,
        week,
        counted: hoursThisWeek * 60,
        row: daysThisWeek,
        today: { within: 0, elsewhere: 0, after: 0 },
        countedToday: 0,
      };
      this.standings.set(id, begun);
      return begun;
    }
    if (known.day !== day) turnDay(known, day, week);
    return known;
  }
}

function turnDay(standing: Standing, day: number, week: number): void {
  const { today } = standing;
  const worked = today.within + today.after + today.elsewhere > 0;
  const follows = worked && day === standing.day + 1;
  const sameWeek = week === standing.week;
  standing.counted = sameWeek ? standing.counted + standing.countedToday : 0;
  standing.row = follows && sameWeek ? standing.row + 1 : 0;
  standing.day = day;
  standing.week = week;
  today.within = 0;
  today.after = 0;
  today.elsewhere = 0;
}

/** Does a shift say other hours or days for a person than the last shift before it that has them? */
function saysAnew(
  shifts: readonly PaidShift[],
  shift: number,
  { id, hoursThisWeek, daysThisWeek }: PaidShift['people'][number],
): boolean {
  for (let earlier = shift - 1; earlier >= 0; earlier--) {
    const same = shifts[earlier]!.people.find((other) => other.id === id);
    if (same !== undefined) return same.hoursThisWeek !== hoursThisWeek || same.daysThisWeek !== daysThisWeek;
  }
  return false;
}

/** What `minutes` added to the pay of a day: their plain pay is their own, the premium is a difference. */
function added(minutes: PaidDay, rate: number, whole: Pay, before: Pay, into: Pay): Pay {
  into.minutes = minutes.within + minutes.after;
  into.overtimeMinutes = whole.overtimeMinutes - before.overtimeMinutes;
  into.doubleMinutes = whole.doubleMinutes - before.doubleMinutes;
  into.countedMinutes = whole.countedMinutes - before.countedMinutes;
  into.straight = into.minutes * (rate / 60);
  into.premium = whole.premium - before.premium;
  into.total = into.straight + into.premium;
  return into;
}

/**
 * A week as a whole: each day's crew, what stands over carried from night to morning, hours of the week run
 * on from day to day, orders by their due day. All days are one run, so that a late Monday is a late Tuesday.
 */
import type { Entry } from '../book/entry.ts';
import { daysBetween, daysOn, mondayOf } from '../scenario/days.ts';
import { isWorkingDay, minutesToDue, nextWorkingDay, ordersFrom, type Order } from '../scenario/calendar.ts';
import { minutesOfClock } from '../scenario/clock.ts';
import { applyChanges } from '../scenario/options.ts';
import { resolve, type ResolvedShift } from '../scenario/resolve.ts';
import { stampOf } from '../scenario/stamp.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Runner } from '../record/job.ts';
import type { OrderRuns, RunOrders } from '../record/order-runs.ts';
import { CREW, planCrew } from '../staffing/plan-crew.ts';
import { settingsOf } from '../study/from-scenario.ts';
import { chanceInterval } from '../study/intervals/chance-interval.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { percentileRange, type LevelRange } from '../study/level-range.ts';
import { percentile, sortedValues } from '../study/intervals/percentile-interval.ts';
import { runStudy } from '../study/study.ts';
import { intervalOfValues, type ShiftSummary } from '../study/shift-summary.ts';
import { summarize, type CaseSummary } from '../study/summary.ts';
import { hoursOfWeek, type HoursOfWeek } from './week-hours.ts';
import { openedDay, planSaid, plannedSheet, type OpenedDay } from './opened-day.ts';

export interface WeekDay {
  day: string;
  /** Whose posts: a plan of the book, one made for this answer, or the file's. */
  crew: 'book' | 'planned' | 'file';
  /** The day as it is run, with its crew. */
  scenario: Scenario;
}

export interface OrderAnswer {
  order: Order;
  /** Of it being out by its due time; null where it comes due after the last day run. */
  chance: Interval | null;
  /** Minutes from the start of the first day; Infinity: not in these days. */
  out: {
    oneInTen: number;
    half: number;
    nineInTen: number;
    /** Between what the two surely lie. */
    ranges: { half: LevelRange; nineInTen: LevelRange };
  };
  /** Share of runs in which a piece of it was scrapped: then it is not out whole. */
  scrapped: number;
}

/** What one order first in every line, or there at all, does to the others. */
export interface PushedBack {
  rush: string;
  /** Good pieces of all days without the rush order's own: with it less without it. */
  others: Interval;
  orders: { name: string; minutes: Interval | null; before: Interval | null; after: Interval | null }[];
}

export interface WeekAnswer {
  days: WeekDay[];
  opening: OpenedDay['opening'];
  shifts: ShiftSummary[];
  total: CaseSummary;
  orders: OrderAnswer[];
  pushedBack: PushedBack[];
  hours: HoursOfWeek[];
  count: number;
  seed: string;
}

export interface WeekSettings {
  /** Weeks run. */
  count: number;
  /** Plan the crew of days without a plan in the book. */
  crew: boolean;
  /** Shifts the search for plans may run, a day. */
  search: number;
}

/** What runs the weeks, and what runs them once more to see when orders are out. */
export interface WeekRunners {
  runner: Runner;
  runOrders: RunOrders;
}

export const WEEK: WeekSettings = { count: 300, crew: true, search: 3000 };

/** Working days of the calendar week of `from`, from it on; of the next week where none is left. */
export function daysOfWeek(scenario: Scenario, from: string): string[] {
  const sunday = daysOn(mondayOf(from), 6);
  const days = Array.from({ length: daysBetween(from, sunday) + 1 }, (_, i) => daysOn(from, i));
  const worked = days.filter((day) => isWorkingDay(scenario, day));
  return worked.length > 0 ? worked : daysOfWeek(scenario, nextWorkingDay(scenario, sunday));
}

/** Throws and stops as `planCrew` and `runStudy`. The scenario is a checked one, with its calendar. */
export async function planWeek(
  scenario: Scenario,
  entries: readonly Entry[],
  days: readonly string[],
  { runner, runOrders }: WeekRunners,
  settings: WeekSettings = WEEK,
  signal?: AbortSignal,
): Promise<WeekAnswer> {
  const opened = days.map((day) => openedDay(scenario, entries, day));
  const stock = opened[0]!.unplanned;
  const planned = await crewsOf(opened, stock, runner, settings, signal);
  const shifts = shiftsOfWeek(planned);
  const state = await runStudy(
    {
      cases: [{ id: 'week', name: 'The week', shifts }],
      pairs: [],
      settings: settingsOf(scenario),
      count: settings.count,
    },
    runner,
    undefined,
    signal,
  );
  const summary = summarize(state);
  const total = summary.cases[0]!;
  const orders = ordersFrom(scenario, days[0]!).filter(({ day }) => day <= days.at(-1)!);
  const stretch = { from: 0, count: settings.count };
  const asked = (of: ResolvedShift[]): Promise<OrderRuns> => runOrders(of, orders, stretch, signal);
  const runs = await asked(shifts);
  const pushed: PushedBack[] = [];
  for (const rush of orders.filter((order) => order.rush === true)) {
    const without = await asked(
      shiftsOfWeek(planned.map((one) => ({ ...one, scenario: withoutOrder(one.scenario, rush.name) }))),
    );
    pushed.push(pushedBack(scenario, rush, { orders, days, shifts }, runs, without));
  }
  return {
    days: planned,
    opening: opened[0]!.opening,
    shifts: total.shifts,
    total,
    orders: orders.map((order, i) => orderAnswer(scenario, order, days, shifts, runs, i)),
    pushedBack: pushed,
    hours: hoursOfWeek(shifts, total.shifts),
    count: summary.count,
    seed: summary.seed,
  };
}

/** Days that are the same but for their date and stock have one crew: planned once, by the same rules. */
async function crewsOf(
  opened: OpenedDay[],
  { carryOver, holds }: Scenario,
  runner: Runner,
  settings: WeekSettings,
  signal?: AbortSignal,
): Promise<WeekDay[]> {
  const known = new Map<string, Record<string, unknown>>();
  const made: WeekDay[] = [];
  for (const { day, plan, scenario, unplanned } of opened) {
    if (plan !== null || !settings.crew) {
      made.push({ day, crew: plan === null ? 'file' : 'book', scenario });
      continue;
    }
    const stamp = stampOf(unplanned);
    let changes = known.get(stamp);
    if (changes === undefined) {
      const asked: Scenario = { ...unplanned };
      if (carryOver !== undefined) asked.carryOver = carryOver;
      if (holds !== undefined) asked.holds = holds;
      const crew = await planCrew(
        { scenario: asked },
        runner,
        { search: { ...CREW.search, shifts: settings.search }, report: 100, oneMore: 0, absence: 0 },
        undefined,
        signal,
      );
      changes = crew.kind === 'over the limit' ? {} : planSaid(asked, plannedSheet(crew), []).changes;
      known.set(stamp, changes);
    }
    made.push({ day, crew: 'planned', scenario: applyChanges(unplanned, changes) });
  }
  return made;
}

/**
 * The days as shifts of one run. Only the first has an opening stock of its own; each has its own seed, so
 * that no day repeats the luck of another.
 */
export function shiftsOfWeek(days: readonly Pick<WeekDay, 'day' | 'scenario'>[]): ResolvedShift[] {
  const [first] = days;
  const start = resolve(first!.scenario).start;
  return days.map(({ day, scenario }, i): ResolvedShift => {
    if (i === 0) return resolve(scenario);
    const { carryOver: _stock, holds: _holds, ...file } = scenario;
    const between = daysBetween(first!.day, day) * 1440;
    const own = resolve(file);
    const after = between + minutesOfClock(own.start) - minutesOfClock(start);
    return { ...resolve(file, after), seed: `${own.seed}, ${day}` };
  });
}

function orderAnswer(
  scenario: Scenario,
  order: Order,
  days: readonly string[],
  shifts: readonly ResolvedShift[],
  { out, scrapped }: OrderRuns,
  place: number,
): OrderAnswer {
  const times = out[place]!;
  const due = minutesToDue(scenario, order, days[0]!);
  const last = shifts.at(-1)!;
  const sorted = sortedValues(times);
  return {
    order,
    chance: due > last.startsAfter + last.length ? null : inTime(times, due),
    out: {
      oneInTen: percentile(sorted, 0.1),
      half: percentile(sorted, 0.5),
      nineInTen: percentile(sorted, 0.9),
      ranges: {
        half: percentileRange(sorted, 0.5, 0.95),
        nineInTen: percentileRange(sorted, 0.9, 0.95),
      },
    },
    scrapped: scrapped[place]! / times.length,
  };
}

const inTime = (times: Float64Array, due: number): Interval =>
  chanceInterval(times.filter((time) => time <= due).length, times.length, 0.95);

interface OrdersOfWeek {
  orders: readonly Order[];
  days: readonly string[];
  shifts: readonly ResolvedShift[];
}

/** The same weeks with the rush order and without it: what it does to the others and to all other pieces. */
function pushedBack(
  scenario: Scenario,
  rush: Order,
  { orders, days, shifts }: OrdersOfWeek,
  withIt: OrderRuns,
  runs: OrderRuns,
): PushedBack {
  const rushAt = orders.indexOf(rush);
  const own = withIt.goodOf[rushAt]!;
  const others = withIt.good.map((good, i) => good - own[i]! - runs.good[i]!);
  return {
    rush: rush.name,
    others: intervalOfValues(others, 0.95),
    orders: orders.flatMap((order, i) => {
      if (order === rush) return [];
      const later = withIt.out[i]!.map((time, k) => time - runs.out[i]![k]!);
      const finite = later.filter(Number.isFinite);
      const told = orderAnswer(scenario, order, days, shifts, withIt, i);
      return [
        {
          name: order.name,
          minutes: finite.length < 2 ? null : intervalOfValues(finite, 0.95),
          before: told.chance === null ? null : inTime(runs.out[i]!, minutesToDue(scenario, order, days[0]!)),
          after: told.chance,
        },
      ];
    }),
  };
}

/** The day without the pieces of an order. */
function withoutOrder(scenario: Scenario, name: string): Scenario {
  const { intake, carryOver } = scenario;
  const made: Scenario = { ...scenario };
  if (intake?.kind === 'list')
    made.intake = { ...intake, arrivals: intake.arrivals.filter((one) => one.name !== name) };
  if (carryOver !== undefined) made.carryOver = carryOver.filter((one) => one.name !== name);
  return made;
}

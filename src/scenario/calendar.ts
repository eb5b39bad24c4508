/** The cell on a day of the calendar: which days are worked, who is there, what comes, what is due. */
import { minutesAfter, minutesOfClock } from './clock.ts';
import type { Calendar } from './schema/calendar.ts';
import { daysBetween, daysOn, WEEKDAY_NAMES, weekdayOf } from './days.ts';
import { DEFAULTS } from './defaults.ts';
import { intakeOf } from './resolving/units.ts';
import type { Gear, Intake, Person, Scenario } from './schema.ts';

type List = Extract<Intake, { kind: 'list' }>;
type Arrival = List['arrivals'][number];
export type Order = NonNullable<Calendar['orders']>[number];

export function isWorkingDay({ calendar = {} }: Pick<Scenario, 'calendar'>, day: string): boolean {
  const isNamed = (days: Calendar['holidays']): boolean => days?.some((one) => one.day === day) ?? false;
  if (isNamed(calendar.holidays)) return false;
  const worked: readonly string[] = calendar.workingDays ?? DEFAULTS.calendar.workingDays;
  return worked.includes(weekdayOf(day)) || isNamed(calendar.alsoWorked);
}

/** A file may name holidays for a long time, but not for longer than this. */
const LONGEST = 400;

/** The first working day after `day`: what "tomorrow" means. The very next day where none is for a year. */
export function nextWorkingDay(scenario: Pick<Scenario, 'calendar'>, day: string): string {
  for (let on = 1; on <= LONGEST; on++) {
    const next = daysOn(day, on);
    if (isWorkingDay(scenario, next)) return next;
  }
  return daysOn(day, 1);
}

/** `day` where it is worked, otherwise the next one that is. */
export const workedFrom = (scenario: Pick<Scenario, 'calendar'>, day: string): string =>
  isWorkingDay(scenario, day) ? day : nextWorkingDay(scenario, day);

/** Working days from `day` on, it included where it is one. */
export function workingDays(scenario: Pick<Scenario, 'calendar'>, day: string, count: number): string[] {
  const days: string[] = [];
  for (let next = workedFrom(scenario, day); days.length < count; next = nextWorkingDay(scenario, next))
    days.push(next);
  return days;
}

const runs = (one: { from: string; to?: string | undefined }, day: string): boolean =>
  one.from <= day && day <= (one.to ?? one.from);

/** Who the calendar says is not there, and why. */
export const absentOn = ({ calendar }: Pick<Scenario, 'calendar'>, day: string): Map<string, string> =>
  new Map(
    (calendar?.absences ?? [])
      .filter((one) => runs(one, day))
      .map((one) => [one.person, one.why ?? 'away'] as const),
  );

export const ordersOf = ({ calendar }: Pick<Scenario, 'calendar'>): Order[] => calendar?.orders ?? [];

/** Orders that may be under way on a day, by what they are due. */
export const ordersFrom = ({ calendar }: Pick<Scenario, 'calendar'>, day: string): Order[] =>
  [...(calendar?.orders ?? [])]
    .filter((order) => order.due >= day)
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0));

/** Does the calendar say anything of this day that is not so on any other? */
export function saysOf(scenario: Scenario, day: string): boolean {
  const { calendar = {} } = scenario;
  return (
    (calendar.absences ?? []).some((one) => runs(one, day)) ||
    (calendar.gearAway ?? []).some((one) => runs(one, day)) ||
    comesOn(scenario, calendar.deliveries, day).length > 0 ||
    comesOn(scenario, calendar.orders, day).length > 0
  );
}

/**
 * The checked scenario as it is on a day: who is away is out, gear that is away is out of order all day, the
 * day's deliveries and orders come. The calendar, being used, is left out. What stands in the cell and who
 * stands where is not the calendar's to say.
 */
export function scenarioOn(scenario: Scenario, day: string): Scenario {
  const { calendar, ...file } = scenario;
  if (calendar === undefined || !saysOf(scenario, day)) return file;
  const absent = absentOn(scenario, day);
  const people = Object.entries(file.people).map(([id, person]): [string, Person] => [
    id,
    absent.has(id) ? { ...person, attendance: { percent: 0 } } : person,
  ]);
  const made: Scenario = { ...file, people: Object.fromEntries(people) };
  if (file.gear !== undefined) made.gear = gearOn(scenario, day, file.gear);
  const intake = intakeOn(scenario, calendar, day);
  if (intake !== null) made.intake = intake;
  return made;
}

function gearOn(scenario: Scenario, day: string, gear: Record<string, Gear>): Record<string, Gear> {
  const { start, minutes } = hoursOf(scenario);
  return Object.fromEntries(
    Object.entries(gear).map(([id, one]): [string, Gear] => {
      const away = (scenario.calendar?.gearAway ?? [])
        .filter((item) => item.gear === id && runs(item, day))
        .reduce((sum, item) => sum + (item.items ?? DEFAULTS.gear.itemsOut), 0);
      const items = Math.min(away, one.count);
      return [id, items === 0 ? one : { ...one, out: [...(one.out ?? []), { from: start, minutes, items }] }];
    }),
  );
}

/** What is said of a day that is not worked happens at the start of the next one that is. */
function comesOn<T extends { day: string }>(
  scenario: Scenario,
  list: readonly T[] | undefined,
  day: string,
): T[] {
  return (list ?? []).filter((one) => workedFrom(scenario, one.day) === day);
}

function intakeOn(scenario: Scenario, calendar: Calendar, day: string): Intake | null {
  const deliveries = comesOn(scenario, calendar.deliveries, day);
  const orders = comesOn(scenario, calendar.orders, day);
  if (deliveries.length + orders.length === 0) return null;
  const { start } = hoursOf(scenario);
  const usual = deliveries.some((one) => one.instead === true) ? [] : listOf(scenario).arrivals;
  const atOf = (one: { day: string; at?: string | undefined }): string =>
    one.day === day ? (one.at ?? start) : start;
  const delivered = deliveries.map((one): Arrival => ({
    at: atOf(one),
    units: one.units,
    ...(one.product === undefined ? {} : { product: one.product }),
    ...(one.name === undefined ? {} : { name: one.name }),
  }));
  const ordered = orders.map((order): Arrival => ({
    at: atOf(order),
    units: order.units,
    name: order.name,
    dueAfter: Math.max(0, minutesToDue(scenario, order, day) - minutesAfter(start, atOf(order))),
    ...(order.product === undefined ? {} : { product: order.product }),
    ...(order.rush === true ? { rush: true } : {}),
  }));
  return { ...listOf(scenario), arrivals: [...usual, ...delivered, ...ordered] };
}

/** Minutes from the start of the shift of `day` to when an order is due; under 0: it was due before. */
export function minutesToDue(scenario: Scenario, order: Pick<Order, 'due' | 'dueAt'>, day: string): number {
  const { start, minutes } = hoursOf(scenario);
  const within = order.dueAt === undefined ? minutes : minutesAfter(start, order.dueAt);
  return daysBetween(day, order.due) * 1440 + within;
}

/** Pieces that come at the start are a list of one; other ways of coming are none (the check says so). */
function listOf(scenario: Scenario): List {
  const intake = intakeOf(scenario);
  const { late, whenFull, dueAfter } = intake;
  const how = {
    ...(late === undefined ? {} : { late }),
    ...(whenFull === undefined ? {} : { whenFull }),
    ...(dueAfter === undefined ? {} : { dueAfter }),
  };
  if (intake.kind === 'list') return intake;
  const { start } = hoursOf(scenario);
  const arrivals = intake.kind === 'at start' && intake.units > 0 ? [{ at: start, units: intake.units }] : [];
  return { kind: 'list', arrivals, ...how };
}

function hoursOf({ shift = {} }: Scenario): { start: string; minutes: number } {
  const start = shift.start ?? DEFAULTS.shift.start;
  return { start, minutes: minutesAfter(start, shift.end ?? DEFAULTS.shift.end) || 1440 };
}

/**
 * Minutes from a count at `at` of the shift of `day`, which starts at `start` (a count after midnight of a
 * night shift belongs to its day), to the start of a later day's shift.
 */
export const minutesToStart = (
  at: string,
  day: string,
  next: string,
  nextStart: string,
  start: string,
): number =>
  daysBetween(day, next) * 1440 + minutesOfClock(nextStart) - minutesOfClock(start) - minutesAfter(start, at);

/** "Friday 5 March 2027", for people. */
export const dayWords = (day: string): string => {
  const date = new Date(`${day}T00:00:00Z`);
  return `${WEEKDAY_NAMES[weekdayOf(day)]} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]!} ${date.getUTCFullYear()}`;
};

/** "Mon 8 March", where room is narrow. */
export const shortDay = (day: string): string =>
  dayWords(day)
    .replace(/^(\p{L}{3})\p{L}*/u, '$1')
    .replace(/ \d{4}$/, '');

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

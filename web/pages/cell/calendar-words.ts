/** The calendar in words. */
import { WEEKDAY_NAMES, type Weekday } from '../../../src/scenario/days.ts';
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';

/** The calendar in a line: "Monday to Friday; 2 away, 1 order". */
export function calendarWords({ calendar = {} }: Scenario): string {
  const worked: readonly Weekday[] = calendar.workingDays ?? DEFAULTS.calendar.workingDays;
  const usual = worked.join() === DEFAULTS.calendar.workingDays.join();
  const parts: [unknown[] | undefined, string, string][] = [
    [calendar.holidays, 'holiday', 'holidays'],
    [calendar.absences, 'absence', 'absences'],
    [calendar.gearAway, 'thing away', 'things away'],
    [calendar.deliveries, 'delivery', 'deliveries'],
    [calendar.orders, 'order', 'orders'],
  ];
  const said = parts.flatMap(([list = [], one, many]) =>
    list.length === 0 ? [] : [`${list.length} ${list.length === 1 ? one : many}`],
  );
  const days = usual ? 'Monday to Friday' : worked.map((day) => WEEKDAY_NAMES[day].slice(0, 3)).join(', ');
  return said.length === 0 ? days : `${days}; ${said.join(', ')}`;
}

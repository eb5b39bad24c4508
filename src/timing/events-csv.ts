/**
 * The one form of a list of events: out of a run's record, and into the log. A comma-separated text with a
 * header, in UTF-8, one event a row:
 *
 *     day,time,event,unit,product,step,person,second,gear,item,detail
 *     1,06:10:00,begins,7,straight,fit,orla,,,,
 *
 * `day` is 1 for the day the shift begins, `time` a clock time HH:MM:SS with up to three decimals, `event`
 * one of the names in event-row.ts. Read back, columns may stand in any order, only `time` and `event` are
 * needed, and any delimiter and clock style goes; without a day, a time up to two hours before the start of
 * the shift is before it and every other time after it.
 */
import Papa from 'papaparse';
import { minutesOfClock } from '../scenario/clock.ts';
import { EVENT_NAMES, type EventName, type EventRow } from '../record/event-row.ts';
import { momentOf } from './clock-text.ts';
import { guarded, unguarded } from './formula.ts';
import { fold } from './header-words.ts';
import { short } from './minutes-text.ts';
import { idOf, nearestName } from './names.ts';
import type { UnreadRow } from './observation.ts';
import { cellOf, readTable, rowText, type Table } from './table.ts';

export const EVENT_COLUMNS = [
  'day',
  'time',
  'event',
  'unit',
  'product',
  'step',
  'person',
  'second',
  'gear',
  'item',
  'detail',
] as const;
type EventColumn = (typeof EVENT_COLUMNS)[number];

export interface EventsRead {
  events: EventRow[];
  unread: UnreadRow[];
}

const DAY = 86_400_000;
const MINUTE = 60_000;
/** Without a day: this long before the start still belongs to this shift. */
const EARLY = 120 * MINUTE;

/** @param start clock of the shift's start, "HH:MM". */
export function writeEvents(events: readonly EventRow[], start: string): string {
  const rows = events.map((row) => {
    const { day, time } = clockOfTime(row.time, start);
    const texts = [row.unit, row.product, row.step, row.person, row.second, row.gear].map(guarded);
    return [day, time, row.event, ...texts, row.item === 0 ? '' : row.item, guarded(row.detail)];
  });
  return `${Papa.unparse([[...EVENT_COLUMNS], ...rows], { newline: '\r\n' })}\r\n`;
}

/**
 * Reads a list of events. Nothing is dropped: rows = events + unread. Events come back in order of time, then
 * of the rows.
 */
export function readEvents(text: string, start: string): EventsRead {
  const table = readTable(text, headerOf(text));
  const at = (name: EventColumn): number => table.header.findIndex((header) => fold(header) === name);
  const columns = Object.fromEntries(EVENT_COLUMNS.map((name) => [name, at(name)])) as Record<
    EventColumn,
    number
  >;
  const events: EventRow[] = [];
  const unread: UnreadRow[] = [];
  for (let row = 0; row < table.length; row += 1) {
    const read = table.broken.get(row) ?? eventOf(table, row, columns, start);
    if (typeof read === 'string')
      unread.push({ row: table.rowNumbers[row]!, why: read, text: rowText(table, row) });
    else events.push(read);
  }
  return {
    events: events
      .map((event, place) => ({ event, place }))
      .sort((a, b) => a.event.time - b.event.time || a.place - b.place)
      .map((one) => one.event),
    unread,
  };
}

/** The first row that has both a `time` and an `event` is the header. */
function headerOf(text: string): { headerRow?: number } {
  const lines = text.slice(0, 20_000).split(/\r\n?|\n/);
  const place = lines.findIndex(
    (line) => /(^|[^\p{L}])time([^\p{L}]|$)/iu.test(line) && /(^|[^\p{L}])event([^\p{L}]|$)/iu.test(line),
  );
  return place < 0 ? {} : { headerRow: place + 1 - (/^\ufeff?sep=/.test(text) ? 1 : 0) };
}

/** The event of a row, or why there is none. */
function eventOf(
  table: Table,
  row: number,
  columns: Record<EventColumn, number>,
  start: string,
): EventRow | string {
  const text = (name: EventColumn): string => (columns[name] < 0 ? '' : cellOf(table, row, columns[name]));
  if (columns.time < 0) return 'no column is called “time”';
  if (columns.event < 0) return 'no column is called “event”';
  const event = eventNamed(text('event'));
  if (typeof event !== 'string') return event.why;
  const time = timeOfRow(text('time'), text('day'), start);
  if (typeof time === 'string') return time;
  const item = text('item');
  if (item !== '' && !/^\d{1,6}$/.test(item)) return `“${short(item)}” is not the number of a piece of gear`;
  const plain = (name: EventColumn): string => unguarded(text(name));
  return {
    time,
    event,
    unit: plain('unit'),
    product: plain('product'),
    step: plain('step'),
    person: plain('person'),
    second: plain('second'),
    gear: plain('gear'),
    item: item === '' ? 0 : Number(item),
    detail: plain('detail'),
  };
}

const NAMED = EVENT_NAMES.map((name) => ({ id: name, name }));

function eventNamed(text: string): EventName | { why: string } {
  if (text === '') return { why: 'no event given' };
  const name = idOf(text, NAMED);
  if (name !== null) return name as EventName;
  const near = nearestName(text, NAMED);
  return { why: `no event is called “${short(text)}”${near === null ? '' : `; the nearest is “${near}”`}` };
}

/** Milliseconds from the start, or why not. */
function timeOfRow(text: string, dayText: string, start: string): number | string {
  if (dayText !== '' && !/^-?\d{1,4}$/.test(dayText))
    return `“${short(dayText)}” is not a day’s number (1 is the day the shift begins)`;
  const moment = momentOf(text, 'day first');
  if (!moment.ok) return moment.why;
  if (moment.value.minute === null) return `“${short(text)}” is a date and no time of day`;
  const after = Math.round(moment.value.minute * MINUTE) - minutesOfClock(start) * MINUTE;
  if (dayText !== '') return after + (Number(dayText) - 1) * DAY;
  return after < -EARLY ? after + DAY : after >= DAY - EARLY ? after - DAY : after;
}

function clockOfTime(time: number, start: string): { day: number; time: string } {
  const whole = time + minutesOfClock(start) * MINUTE;
  const day = Math.floor(whole / DAY);
  const rest = whole - day * DAY;
  const two = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  const fraction = rest % 1000 === 0 ? '' : `.${String(rest % 1000).padStart(3, '0')}`;
  return {
    day: day + 1,
    time: `${two(rest / 3_600_000)}:${two((rest / MINUTE) % 60)}:${two((rest / 1000) % 60)}${fraction}`,
  };
}

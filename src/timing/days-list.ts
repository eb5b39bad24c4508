/** Results of days from a list (CSV): a row a day, with what came of it. */
import type { Content } from '../book/kinds.ts';
import { isDay } from '../scenario/days.ts';
import { isoOfDay, momentOf, orderOpen, orderTold, type DateOrder } from './clock-text.ts';
import { fold } from './header-words.ts';
import { cellOf, readTable, type Table } from './table.ts';

export interface DayRow {
  row: number;
  day: string;
  result: Content<'result'>;
  note: string | null;
}

export interface DaysList {
  days: DayRow[];
  unread: { row: number; why: string }[];
}

type Role = 'day' | 'good' | 'target' | 'note';

/** Names of columns, folded. */
const WORDS: Record<Role, string[]> = {
  day: ['day', 'date', 'shift', 'datum', 'tag', 'jour', 'fecha', 'giorno'],
  good: [
    'good',
    'good units',
    'good pieces',
    'made',
    'came',
    'result',
    'units',
    'pieces',
    'output',
    'produced',
  ],
  target: ['due', 'target', 'planned', 'plan', 'goal', 'demand'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'why'],
};
/** "scrap: split" counts pieces of a cause; a bare "scrap" those nobody gave one. */
const CAUSES = { scrap: /^(scrap|scrapped)\b[\s:]*/, rework: /^(rework|reworked|sent back)\b[\s:]*/ };
const NO_CAUSE = 'not told';
const MOST_UNITS = 1e6;

interface Columns {
  at: Partial<Record<Role, number>>;
  causes: { kind: 'scrap' | 'rework'; cause: string; column: number }[];
}

/**
 * Never throws: a row that cannot be read is told with its number and why. A list without a column of days or
 * of good units is told in one.
 */
export function readDaysList(text: string): DaysList {
  const found = [readTable(text), readTable(text, { headerRow: 1 })]
    .map((table) => ({ table, columns: columnsOf(table) }))
    .find(({ columns: { at } }) => at.day !== undefined && at.good !== undefined);
  if (found === undefined)
    return {
      days: [],
      unread: [{ row: 1, why: 'the list needs a column called day (or date) and one called good (or made)' }],
    };
  return rowsOf(found.table, found.columns);
}

function columnsOf({ header }: Table): Columns {
  const columns: Columns = { at: {}, causes: [] };
  header.forEach((name, column) => {
    const word = fold(name).replace(/_/g, ' ').trim();
    const role = (Object.keys(WORDS) as Role[]).find((one) => WORDS[one].includes(word));
    if (role !== undefined) columns.at[role] ??= column;
    for (const kind of ['scrap', 'rework'] as const)
      if (CAUSES[kind].test(word)) {
        const cause = name.trim().slice(name.trim().length - word.replace(CAUSES[kind], '').length);
        columns.causes.push({ kind, cause: cause === '' ? NO_CAUSE : cause, column });
      }
  });
  return columns;
}

function rowsOf(table: Table, columns: Columns): DaysList {
  const list: DaysList = { days: [], unread: [] };
  const rows = Array.from({ length: table.length }, (_, row) => row);
  const dates = rows.map((row) => cellOf(table, row, columns.at.day!));
  const order = dates.map(orderTold).find((one) => one !== null) ?? null;
  const seen = new Map<string, number>();
  for (const row of rows) {
    const number = table.rowNumbers[row]!;
    const read = rowOf(table, row, columns, order);
    const before = typeof read === 'string' ? undefined : seen.get(read.day);
    if (typeof read === 'string') list.unread.push({ row: number, why: read });
    else if (before !== undefined)
      list.unread.push({ row: number, why: `${read.day} stands in row ${before} already` });
    else {
      seen.set(read.day, number);
      list.days.push({ row: number, ...read });
    }
  }
  return list;
}

function rowOf(
  table: Table,
  row: number,
  { at, causes }: Columns,
  order: DateOrder | null,
): Omit<DayRow, 'row'> | string {
  const broken = table.broken.get(row);
  if (broken !== undefined) return broken;
  const text = (column: number | undefined): string =>
    column === undefined ? '' : cellOf(table, row, column);
  const day = dayOf(text(at.day), order);
  if (!isDay(day)) return day;
  const good = unitsOf(text(at.good));
  if (good === null) return `“${text(at.good)}” is no number of good units`;
  const target = text(at.target) === '' ? undefined : unitsOf(text(at.target));
  if (target === null) return `“${text(at.target)}” is no number of pieces due`;
  const result: Content<'result'> = { good, ...(target === undefined ? {} : { target }) };
  for (const { kind, cause, column } of causes) {
    if (text(column) === '') continue;
    const pieces = unitsOf(text(column));
    if (pieces === null) return `“${text(column)}” is no number of pieces (${table.header[column]!})`;
    if (pieces > 0) result[kind] = { ...result[kind], [cause]: pieces };
  }
  const note = text(at.note).slice(0, 2000);
  return { day, result, note: note === '' ? null : note };
}

/** "2027-03-05", or why it is none. */
function dayOf(text: string, order: DateOrder | null): string {
  if (text === '') return 'no day given';
  if (isDay(text)) return text;
  if (order === null && orderOpen(text))
    return `“${text}” may be meant day first or month first: write the days as 2027-03-05`;
  const read = momentOf(text, order ?? 'day first');
  if (!read.ok) return read.why;
  return read.value.day === null ? `“${text}” is no day` : isoOfDay(read.value.day);
}

function unitsOf(text: string): number | null {
  const value = Number(text.replace(/[\s']/g, ''));
  return text.trim() !== '' && Number.isFinite(value) && value >= 0 && value <= MOST_UNITS ? value : null;
}

/** What of the list is news: the days whose result or note says something else than the book. */
export function newsOf(
  list: readonly DayRow[],
  known: (day: string) => { result: Content<'result'> | null; note: string | null },
): ({ day: string } & (
  { kind: 'result'; content: Content<'result'> } | { kind: 'note'; content: Content<'note'> }
))[] {
  return list.flatMap(({ day, result, note }) => {
    const before = known(day);
    const whole = { ...before.result, ...result };
    const same = before.result !== null && JSON.stringify(whole) === JSON.stringify(before.result);
    return [
      ...(same ? [] : [{ day, kind: 'result' as const, content: whole }]),
      ...(note === null || note === before.note ? [] : [{ day, kind: 'note' as const, content: { note } }]),
    ];
  });
}

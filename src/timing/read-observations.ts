/**
 * A table and a mapping to observations. Nothing is dropped: every row of data (every filled cell, where each
 * step has a column of its own) becomes an observation or is listed as unread with the reason.
 */
import { momentOf, orderOpen, orderTold, isoOfDay, type DateOrder, type Moment } from './clock-text.ts';
import type { Role } from './header-words.ts';
import type { Mapping, NamesOf } from './mapping.ts';
import { isColonPair, minutesOf, ratingOf, short, type ColonStyle, type Read } from './minutes-text.ts';
import { idOf, namedOf, nearestName, type Named } from './names.ts';
import type { Observation, UnreadRow } from './observation.ts';
import { cellOf, rowText, type Table } from './table.ts';

/** Something the data leave open: what was assumed, and what else it could be. */
export interface Ambiguity {
  what: 'date order' | 'colon';
  assumed: DateOrder | ColonStyle;
  other: DateOrder | ColonStyle;
  /** A cell that can be read both ways. */
  example: string;
  question: string;
}

export interface ObservationsRead {
  observations: Observation[];
  unread: UnreadRow[];
  ambiguous: Ambiguity[];
  /** Names that are not in the scenario: `step` rows are unread, the others were kept as written. */
  unknown: { role: 'step' | 'product' | 'person'; text: string; rows: number; nearest: string | null }[];
  /** Spans whose end is before their start and were taken over midnight. */
  overMidnight: number;
}

/** What a page tells of a reading: without the observations, which may be a million. */
export interface ReadAccount extends Pick<ObservationsRead, 'ambiguous' | 'unknown' | 'overMidnight'> {
  times: number;
  rowsUnread: number;
  /** The first of them. */
  unread: UnreadRow[];
}

/** @param most rows not read that are listed. */
export function accountOf(
  { observations, unread, ambiguous, unknown, overMidnight }: ObservationsRead,
  most = 200,
): ReadAccount {
  return {
    times: observations.length,
    rowsUnread: unread.length,
    unread: unread.slice(0, most),
    ambiguous,
    unknown,
    overMidnight,
  };
}

/** A span without dates that is longer than this is taken for a mistake, minutes. */
const LONGEST_SPAN = 720;
/** "3:10" may be hours where nothing in the column has more of them than this. */
const LIKELY_HOURS = 3;
const DAY = 1440;

/** Reads every row. Never throws. */
export function readObservations(table: Table, mapping: Mapping, scenario: NamesOf): ObservationsRead {
  const reader = new RowReader(table, mapping, scenario);
  const out: ObservationsRead = {
    observations: [],
    unread: [],
    ambiguous: reader.ambiguous,
    unknown: [],
    overMidnight: 0,
  };
  const wide = mapping.columns.step === undefined ? Object.entries(mapping.stepColumns) : [];
  for (let row = 0; row < table.length; row += 1) {
    const trouble = table.broken.get(row);
    if (trouble !== undefined) push(out, table, row, { ok: false, why: trouble });
    else if (wide.length === 0) push(out, table, row, reader.read(row, null, mapping.columns.minutes));
    else {
      const filled = wide.filter(([, column]) => cellOf(table, row, column) !== '');
      if (filled.length === 0)
        push(out, table, row, { ok: false, why: 'no time in any of the steps’ columns' });
      for (const [step, column] of filled) push(out, table, row, reader.read(row, step, column));
    }
  }
  out.unknown = reader.unknown();
  out.overMidnight = reader.overMidnight;
  return out;
}

function push(out: ObservationsRead, table: Table, row: number, read: Read<Observation>): void {
  if (read.ok) out.observations.push(read.value);
  else out.unread.push({ row: table.rowNumbers[row]!, why: read.why, text: rowText(table, row) });
}

const fail = (why: string): { ok: false; why: string } => ({ ok: false, why });

class RowReader {
  readonly ambiguous: Ambiguity[] = [];
  overMidnight = 0;
  private readonly dateOrder: DateOrder;
  private readonly colon: ColonStyle;
  private readonly known: Record<'step' | 'product' | 'person', Named[]>;
  private readonly strange = new Map<
    string,
    { role: 'step' | 'product' | 'person'; text: string; rows: number }
  >();
  private readonly moments = new Map<string, Read<Moment>>();
  private readonly lengths = new Map<string, Read<number>>();
  private readonly ids = new Map<string, string | null>();

  private readonly table: Table;
  private readonly mapping: Mapping;

  constructor(table: Table, mapping: Mapping, scenario: NamesOf) {
    this.table = table;
    this.mapping = mapping;
    this.known = {
      step: namedOf(scenario.steps),
      product: namedOf(scenario.products),
      person: namedOf(scenario.people),
    };
    this.dateOrder = this.settleDateOrder();
    this.colon = this.settleColon();
  }

  read(row: number, stepOfColumn: string | null, minutesColumn: number | undefined): Read<Observation> {
    const step = stepOfColumn ?? this.step(row);
    if (typeof step !== 'string') return step;
    const rating = this.cell(row, 'rating');
    const rated = rating === '' ? null : ratingOf(rating);
    if (rated !== null && !rated.ok) return rated;
    const dateText = this.cell(row, 'date');
    const date = dateText === '' ? null : this.moment(dateText);
    if (date !== null && !date.ok) return date;
    const repeat = repeatOf(this.cell(row, 'repeat'));
    if (repeat === null)
      return fail(`“${short(this.cell(row, 'repeat'))}” does not say whether it is a repeat`);
    const took = this.minutes(row, minutesColumn, date?.value.day ?? null);
    if (!took.ok) return took;
    const day = date?.value.day ?? took.value.day;
    const at = this.startMinute(row);
    return {
      ok: true,
      value: {
        step,
        product: this.named(row, 'product'),
        person: this.named(row, 'person'),
        minutes: took.value.minutes,
        rating: rated === null ? null : rated.value,
        repeat,
        date: day === null ? null : isoOfDay(day),
        ...(at === null ? {} : { at }),
        row: this.table.rowNumbers[row]!,
      },
    };
  }

  unknown(): ObservationsRead['unknown'] {
    return [...this.strange.values()].map((one) => ({
      ...one,
      nearest: nearestName(one.text, this.known[one.role]),
    }));
  }

  private cell(row: number, role: Role): string {
    const column = this.mapping.columns[role];
    return column === undefined ? '' : cellOf(this.table, row, column);
  }

  private step(row: number): string | { ok: false; why: string } {
    if (this.mapping.columns.step === undefined)
      return this.mapping.onlyStep ?? fail('nothing says which step this is');
    const text = this.cell(row, 'step');
    if (text === '') return fail('no step given');
    const id = this.id('step', text, this.mapping.steps);
    if (id !== null) return id;
    const near = nearestName(text, this.known.step);
    return fail(`no step is called “${short(text)}”${near === null ? '' : `; the nearest is “${near}”`}`);
  }

  private named(row: number, role: 'product' | 'person'): string | null {
    const text = this.cell(row, role);
    if (text === '') return null;
    return this.id(role, text, role === 'product' ? this.mapping.products : this.mapping.people) ?? text;
  }

  private id(
    role: 'step' | 'product' | 'person',
    text: string,
    corrected: Record<string, string>,
  ): string | null {
    const key = `${role}\n${text}`;
    let id = this.ids.get(key);
    if (id === undefined) {
      const given = Object.hasOwn(corrected, text) ? corrected[text]! : null;
      id =
        given !== null && this.known[role].some((one) => one.id === given)
          ? given
          : idOf(text, this.known[role]);
      this.ids.set(key, id);
      if (id === null) this.strange.set(key, { role, text, rows: 0 });
    }
    if (id === null) this.strange.get(key)!.rows += 1;
    return id;
  }

  private minutes(
    row: number,
    column: number | undefined,
    day: number | null,
  ): Read<{ minutes: number; day: number | null }> {
    const written = column === undefined ? '' : cellOf(this.table, row, column);
    if (written !== '') {
      const read = remembered(this.lengths, written, () => minutesOf(written, this.mapping.unit, this.colon));
      return read.ok ? { ok: true, value: { minutes: read.value, day: this.dayOfStart(row) } } : read;
    }
    const [from, to] = [this.cell(row, 'start'), this.cell(row, 'end')];
    if (from === '' && to === '') return fail('no time given');
    if (from === '') return fail('an end and no start');
    if (to === '') return fail('a start and no end');
    const [start, end] = [this.moment(from), this.moment(to)];
    if (!start.ok) return start;
    if (!end.ok) return end;
    return this.span(start.value, end.value, day);
  }

  private span(
    start: Moment,
    end: Moment,
    day: number | null,
  ): Read<{ minutes: number; day: number | null }> {
    if (start.minute === null || end.minute === null) return fail('a date and no time of day');
    const startDay = start.day ?? day;
    const dated = startDay !== null && end.day !== null;
    const minutes = end.minute - start.minute + (dated ? (end.day! - startDay) * DAY : 0);
    if (Math.abs(minutes) < 1e-6) return fail('it ends when it starts');
    if (minutes > 0 && minutes <= (dated ? DAY : LONGEST_SPAN))
      return { ok: true, value: { minutes: tidy(minutes), day: startDay } };
    if (minutes > 0)
      return fail(
        dated ? 'it ends more than a day after it starts' : 'it ends more than 12 hours after it starts',
      );
    if (dated) return fail('it ends before it starts');
    if (minutes + DAY <= LONGEST_SPAN) {
      this.overMidnight += 1;
      return { ok: true, value: { minutes: tidy(minutes + DAY), day: startDay } };
    }
    return fail(
      start.twelveHour && end.twelveHour
        ? 'it ends before it starts (times of a 12-hour clock without a.m. and p.m.?)'
        : 'it ends before it starts',
    );
  }

  private dayOfStart(row: number): number | null {
    return this.startOf(row)?.day ?? null;
  }

  private startMinute(row: number): number | null {
    return this.startOf(row)?.minute ?? null;
  }

  private startOf(row: number): Moment | null {
    const text = this.cell(row, 'start');
    if (text === '') return null;
    const read = this.moment(text);
    return read.ok ? read.value : null;
  }

  private moment(text: string): Read<Moment> {
    return remembered(this.moments, text, () => momentOf(text, this.dateOrder));
  }

  private texts(roles: Role[]): string[] {
    return roles.flatMap((role) => {
      const column = this.mapping.columns[role];
      return column === undefined ? [] : (this.table.columns[column]?.texts ?? []);
    });
  }

  /** One date that can only be read one way settles all; none that does is a question. */
  private settleDateOrder(): DateOrder {
    if (this.mapping.dateOrder !== null) return this.mapping.dateOrder;
    const texts = this.texts(['date', 'start', 'end']);
    const told = new Set(texts.map(orderTold));
    const example = texts.find(orderOpen);
    const dotted = example !== undefined && /\d\.\d/.test(example);
    const halfDays = texts.some((text) => /\d\s*[ap]\.?m\b/i.test(text));
    if (told.has('day first') !== told.has('month first'))
      return told.has('day first') ? 'day first' : 'month first';
    const assumed: DateOrder = halfDays && !dotted ? 'month first' : 'day first';
    if (example !== undefined && (!dotted || told.has('month first'))) {
      const other: DateOrder = assumed === 'day first' ? 'month first' : 'day first';
      this.ambiguous.push({
        what: 'date order',
        assumed,
        other,
        example,
        question: `Is “${example}” day first or month first?`,
      });
    }
    return assumed;
  }

  private settleColon(): ColonStyle {
    if (this.mapping.colon !== null) return this.mapping.colon;
    const columns =
      this.mapping.columns.minutes === undefined
        ? Object.values(this.mapping.stepColumns)
        : [this.mapping.columns.minutes];
    const pairs = columns.flatMap((column) => this.table.columns[column]?.texts ?? []).filter(isColonPair);
    if (pairs.length > 0 && pairs.every((text) => Number(text.split(':')[0]) <= LIKELY_HOURS)) {
      this.ambiguous.push({
        what: 'colon',
        assumed: 'mm:ss',
        other: 'h:mm',
        example: pairs[0]!,
        question: `Is “${pairs[0]!}” minutes and seconds, or hours and minutes?`,
      });
    }
    return 'mm:ss';
  }
}

function remembered<T>(memory: Map<string, T>, key: string, make: () => T): T {
  let held = memory.get(key);
  if (held === undefined) {
    held = make();
    memory.set(key, held);
  }
  return held;
}

/** Clock arithmetic leaves dust in the last bits; times are known to the millisecond at best. */
const tidy = (minutes: number): number => Math.round(minutes * 60_000) / 60_000;

/** Yes, no, a visit's number, or nothing; null where it cannot be told. */
function repeatOf(text: string): boolean | null {
  const lower = text.toLowerCase();
  if (/^(|no|n|false|first|nein|non|nee|nie|nej|-|0|1)$/.test(lower)) return false;
  if (/^(yes|y|x|true|again|repeat|rework|second|ja|j|oui|si|sí|tak|[2-9]|[1-9]\d)$/.test(lower)) return true;
  return null;
}

/**
 * What a study keeps of one case: moments of every measure, how often so many good units were made, and the
 * first rows in full. So what is kept does not grow with the number of replications.
 */
import { combineShifts, perShift } from '../record/day.ts';
import { layoutOfShift } from '../record/layout.ts';
import type { JobResult } from '../record/job.ts';
import { SCALARS, type ReportLayout } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { FrequencyTable } from './intervals/frequencies.ts';
import { addRow, addRows, createMoments, type Moments } from './intervals/moments.ts';

/** So many whole rows are kept, for bands through the day, and as many replications' single numbers. */
export const ROWS_KEPT = 400;

/**
 * Rows as they come, put together when somebody first looks: of most cases of a study only the single numbers
 * are ever read, and to copy fresh memory takes longer than to run what it holds.
 */
class KeptRows {
  private readonly sizes: number[];
  private readonly room: number;
  private whole: Float64Array[] | null = null;
  private parts: { from: number; rows: Float64Array[] }[] = [];

  constructor(layouts: readonly ReportLayout[], room: number) {
    this.sizes = layouts.map(({ size }) => size);
    this.room = room;
  }

  /** Rows `from` on, by shift; they may be those of more replications than `count`. */
  add(from: number, count: number, rows: readonly Float64Array[], given: number): void {
    // A stretch of a long array would hold on to all of it.
    const own = count === given ? [...rows] : rows.map((one, i) => one.slice(0, count * this.sizes[i]!));
    this.parts.push({ from, rows: own });
  }

  together(): Float64Array[] {
    const { parts } = this;
    this.parts = [];
    if (this.whole === null && parts.length === 1 && this.isAll(parts[0]!.rows)) this.whole = parts[0]!.rows;
    this.whole ??= this.sizes.map((size) => new Float64Array(size * this.room));
    for (const { from, rows } of parts)
      rows.forEach((one, i) => {
        if (one !== this.whole![i]) this.whole![i]!.set(one, from * this.sizes[i]!);
      });
    return this.whole;
  }

  private isAll(rows: readonly Float64Array[]): boolean {
    return rows.every((one, i) => one.length === this.sizes[i]! * this.room);
  }
}

export interface CaseRecord {
  layouts: ReportLayout[];
  count: number;
  /**
   * By shift, of the first `reckoned` replications: most looks never ask for them, so `momentsOf` brings them
   * up to date.
   */
  moments: Moments[];
  reckoned: number;
  /** By shift, the first ROWS_KEPT rows. */
  readonly kept: Float64Array[];
  readonly rows: KeptRows;
  /** [first ROWS_KEPT replications x SCALARS] of the day, its shifts combined by the rule of each measure. */
  scalars: Float64Array;
  /** Of the measures over all replications, all shifts that count together: a shift, where they add up. */
  day: Moments;
  /** How often the day made so many good units. */
  goods: FrequencyTable;
  /** Shifts of a day in which anybody stayed longer, summed up. */
  overtimes: number;
  /** So many shifts at the start do not count: they are there to load the cell. */
  skip: number;
  /**
   * Of the first ROWS_KEPT replications: by how many units the targets were more than met, or missed, in the
   * shift where that is least; NaN without a target. See `marginOf`.
   */
  margins: Float64Array;
  /** How often each margin came. */
  allMargins: FrequencyTable;
  /** Of every shift that counts; null without. `latest`: minutes until which people stay for it. */
  targets: { units: number; latest: number | null }[] | null;
}

/** @param room for so many whole rows; no more will come where that is under ROWS_KEPT. */
export function createCaseRecord(shifts: ResolvedShift[], skip = 0, room = ROWS_KEPT): CaseRecord {
  const counted = shifts.slice(skip);
  const layouts = shifts.map(layoutOfShift);
  const rows = new KeptRows(layouts, room);
  return {
    layouts,
    count: 0,
    moments: layouts.map((layout) => createMoments(layout.size)),
    reckoned: 0,
    rows,
    get kept() {
      return rows.together();
    },
    scalars: new Float64Array(SCALARS.length * room),
    day: createMoments(SCALARS.length),
    goods: new FrequencyTable(),
    overtimes: 0,
    skip,
    margins: new Float64Array(room),
    allMargins: new FrequencyTable(),
    targets: counted.every(({ target }) => target !== null)
      ? counted.map(({ target, overtime, length }) => ({
          units: target!,
          latest: overtime.until === 'target' && overtime.cap > 0 ? length + overtime.cap : null,
        }))
      : null,
  };
}

/** The days of a block: [replications x SCALARS], and the good units of each, all shifts together. */
export interface BlockDays {
  scalars: Float64Array;
  goods: Float64Array;
}

/** Adds the rows of a block, in order. Returns its days. */
export function addCaseRows(record: CaseRecord, parts: JobResult[]): BlockDays {
  const count = parts.reduce((sum, part) => sum + part.count, 0);
  const days = { scalars: new Float64Array(count * SCALARS.length), goods: new Float64Array(count) };
  let i = 0;
  for (const part of parts) {
    keepRows(record, part);
    for (let row = 0; row < part.count; row++) {
      combineDay(record, part, row, days.scalars, i * SCALARS.length);
      days.goods[i] = addDay(record, days.scalars.subarray(i * SCALARS.length), marginOf(record, part, row));
      i += 1;
    }
  }
  return days;
}

/** Keeps the rows there is room for; the others go into the moments at once, after those kept. */
function keepRows(record: CaseRecord, part: JobResult): void {
  const kept = Math.max(0, Math.min(part.count, ROWS_KEPT - record.count));
  if (kept > 0) record.rows.add(record.count, kept, part.rows, part.count);
  if (kept === part.count) return;
  reckon(record, record.count + kept);
  record.layouts.forEach(({ size }, shift) =>
    addRows(record.moments[shift]!, part.rows[shift]!, kept * size, part.count - kept),
  );
  record.reckoned = record.count + part.count;
}

/** Brings the moments up to the first `until` replications; those that are missing are among the kept. */
function reckon(record: CaseRecord, until: number): void {
  if (record.reckoned >= until) return;
  record.layouts.forEach(({ size }, shift) =>
    addRows(record.moments[shift]!, record.kept[shift]!, record.reckoned * size, until - record.reckoned),
  );
  record.reckoned = until;
}

/** Moments of every measure of a shift, of all its replications so far. */
export function momentsOf(record: CaseRecord, shift: number): Moments {
  reckon(record, record.count);
  return record.moments[shift]!;
}

/** Writes the day's scalars of one replication, by the rule of each, into `days` from `at` on. */
function combineDay(
  { layouts, skip }: CaseRecord,
  part: JobResult,
  row: number,
  days: Float64Array,
  at: number,
): void {
  combineShifts(
    part.rows.slice(skip),
    layouts.slice(skip).map((layout) => row * layout.size + layout.at.scalars),
    days,
    at,
  );
}

const aShift = new Float64Array(SCALARS.length);

/** Takes in a day that begins with `day`. Returns its good units, all shifts together. */
function addDay(record: CaseRecord, day: Float64Array, margin: number): number {
  const { count, scalars, margins } = record;
  if (count < margins.length) {
    scalars.set(day.subarray(0, SCALARS.length), count * SCALARS.length);
    margins[count] = margin;
  }
  record.goods.add(day[GOOD]!);
  record.allMargins.add(margin);
  addRow(record.day, perShiftRow(day, 0, shiftsCounted(record), aShift));
  record.overtimes += aShift[ANY_OVERTIME]!;
  record.count += 1;
  return day[GOOD]!;
}

const GOOD = SCALARS.indexOf('good');
const ANY_OVERTIME = SCALARS.indexOf('anyOvertime');

/** How many shifts count towards the day. */
export const shiftsCounted = ({ layouts, skip }: CaseRecord): number => layouts.length - skip;

/** The measures of the day at `days[at]`, a shift where they add up, written into `into`. */
export function perShiftRow(
  days: Float64Array,
  at: number,
  shifts: number,
  into: Float64Array,
): Float64Array {
  for (let i = 0; i < SCALARS.length; i++) into[i] = perShift(i, days[at + i]!, shifts);
  return into;
}

const TARGET_AT = SCALARS.indexOf('targetAt');

/**
 * Units over the target, or short of it. Where people stay until it is met and then go, hardly more is ever
 * made: then it is the time to spare before the last of their overtime, at the target's own pace.
 */
function marginOf({ layouts, targets }: CaseRecord, part: JobResult, row: number): number {
  if (targets === null) return NaN;
  const first = layouts.length - targets.length;
  const margins = targets.map(({ units, latest }, i) => {
    const { size, at } = layouts[first + i]!;
    const from = row * size + at.scalars;
    const rows = part.rows[first + i]!;
    const over = rows[from + GOOD]! - units;
    if (latest === null || over < 0) return over;
    const spare = Math.max(0, ((latest - rows[from + TARGET_AT]!) / latest) * units);
    return Math.round(spare * PARTS_OF_UNIT) / PARTS_OF_UNIT;
  });
  return Math.min(...margins);
}

/** Finer than a promise can be told, and coarse enough that the different margins stay few. */
const PARTS_OF_UNIT = 1024;

/** One scalar of every replication of which single numbers are kept, of the day. */
export function scalarsOf(record: CaseRecord, index: number): Float64Array {
  const values = new Float64Array(Math.min(record.count, record.margins.length));
  for (let row = 0; row < values.length; row++) values[row] = record.scalars[row * SCALARS.length + index]!;
  return values;
}

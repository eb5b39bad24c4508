/**
 * What a study keeps of one case: moments of every measure, the scalars of every replication, a few whole
 * rows.
 */
import { combineShifts, perShift } from '../record/day.ts';
import { layoutOfShift } from '../record/layout.ts';
import type { JobResult } from '../record/job.ts';
import { SCALARS, type ReportLayout } from '../record/report.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { addRow, addRows, createMoments, type Moments } from './intervals/moments.ts';

/** So many whole rows are kept, for bands through the day. */
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
  /** [replications x SCALARS] of the day, its shifts combined by the rule of each measure. */
  scalars: Float64Array;
  /** So many shifts at the start do not count: they are there to load the cell. */
  skip: number;
  /**
   * By replication: by how many units its targets were more than met, or missed, in the shift where that is
   * least; NaN without a target. See `marginOf`.
   */
  margins: Float64Array;
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
    scalars: new Float64Array(SCALARS.length * 256),
    skip,
    margins: new Float64Array(256),
    targets: counted.every(({ target }) => target !== null)
      ? counted.map(({ target, overtime, length }) => ({
          units: target!,
          latest: overtime.until === 'target' && overtime.cap > 0 ? length + overtime.cap : null,
        }))
      : null,
  };
}

/** Adds the rows of a block, in order. Returns the good units a shift of each replication of the block. */
export function addCaseRows(record: CaseRecord, parts: JobResult[]): Float64Array {
  const count = parts.reduce((sum, part) => sum + part.count, 0);
  const goods = new Float64Array(count);
  let i = 0;
  for (const part of parts) {
    keepRows(record, part);
    for (let row = 0; row < part.count; row++) {
      goods[i++] = addScalars(record, part, row);
      record.count++;
    }
  }
  return goods;
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

/** The day's scalars of one replication, by the rule of each; returns its good units a shift. */
function addScalars(record: CaseRecord, part: JobResult, row: number): number {
  const size = SCALARS.length;
  if ((record.count + 1) * size > record.scalars.length) {
    const wider = new Float64Array(record.scalars.length * 2);
    wider.set(record.scalars);
    record.scalars = wider;
    const margins = new Float64Array(record.margins.length * 2);
    margins.set(record.margins);
    record.margins = margins;
  }
  record.margins[record.count] = marginOf(record, part, row);
  const at = record.count * size;
  const first = record.skip;
  const counted = record.layouts.slice(first);
  combineShifts(
    part.rows.slice(first),
    counted.map((layout) => row * layout.size + layout.at.scalars),
    record.scalars,
    at,
  );
  return record.scalars[at + GOOD]! / counted.length;
}

const GOOD = SCALARS.indexOf('good');

/** How many shifts count towards the day. */
export const shiftsCounted = ({ layouts, skip }: CaseRecord): number => layouts.length - skip;

/**
 * Moments of the measures over the replications, all shifts that count together: a shift, where they add up.
 */
export function dayMoments(record: CaseRecord): Moments {
  const moments = createMoments(SCALARS.length);
  const row = new Float64Array(SCALARS.length);
  for (let replication = 0; replication < record.count; replication++)
    addRow(moments, shiftRow(record, replication, row));
  return moments;
}

/** The measures of a replication, a shift where they add up, written into `into`. */
export function shiftRow(record: CaseRecord, replication: number, into: Float64Array): Float64Array {
  const size = SCALARS.length;
  const shifts = shiftsCounted(record);
  for (let i = 0; i < size; i++) into[i] = perShift(i, record.scalars[replication * size + i]!, shifts);
  return into;
}

/** One scalar of every replication, a shift where it adds up. */
export function scalarsAShift(record: CaseRecord, index: number): Float64Array {
  const shifts = shiftsCounted(record);
  return scalarsOf(record, index).map((value) => perShift(index, value, shifts));
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
    return Math.max(0, ((latest - rows[from + TARGET_AT]!) / latest) * units);
  });
  return Math.min(...margins);
}

/** One scalar of every replication, of the day. */
export function scalarsOf(record: CaseRecord, index: number): Float64Array {
  const values = new Float64Array(record.count);
  for (let row = 0; row < values.length; row++) values[row] = record.scalars[row * SCALARS.length + index]!;
  return values;
}

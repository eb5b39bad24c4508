/**
 * Choices side by side, a row each, in three pictures on common scales: good units (dots, mean, the way from
 * today's mean), what waits before each step, and minutes after the bell of each person.
 */
import type { Size } from './frame.ts';
import { narrowPicture } from './side-by-side-narrow.ts';
import type { DrawnRow, SideBySide } from './side-by-side-parts.ts';
import { widePicture } from './side-by-side-wide.ts';

/** Narrower than this the pictures of a row stand one under another. */
const SIDE_BY_SIDE = 640;

export function sideBySidePicture(data: SideBySide, size: Size): string {
  const rows = data.rows.map((row): DrawnRow => ({
    row,
    twenty: twentyOf(row.values),
    mean: row.mean.estimate,
    low: row.mean.low,
    high: row.mean.high,
  }));
  return size.width >= SIDE_BY_SIDE ? widePicture(data, rows, size) : narrowPicture(data, rows, size);
}

const TWENTY = 20;

/** Twenty of the shifts that stand for all: those at one fortieth, three fortieths … of the way through. */
export function twentyOf(values: ArrayLike<number>): number[] {
  const sorted = Array.from(values).sort((a, b) => a - b);
  if (sorted.length === 0) return [];
  return Array.from({ length: TWENTY }, (_, i) => sorted[Math.floor(((i + 0.5) * sorted.length) / TWENTY)]!);
}

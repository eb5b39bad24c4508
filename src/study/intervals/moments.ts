/**
 * Means and spreads of the columns of a table, taken row by row in a fixed order: the same rows in the same
 * order give the same bits. Welford's recurrence (Technometrics 4, 1962), which keeps its digits where sums
 * of squares lose them. What does not exist in a row (NaN) is left out of its column, so every column has its
 * own count.
 */
export interface Moments {
  size: number;
  count: Float64Array;
  mean: Float64Array;
  /** Sum of squared deviations from the mean. */
  squares: Float64Array;
}

export function createMoments(size: number): Moments {
  return {
    size,
    count: new Float64Array(size),
    mean: new Float64Array(size),
    squares: new Float64Array(size),
  };
}

function add(moments: Moments, column: number, value: number): void {
  if (Number.isNaN(value)) return;
  const count = moments.count[column]! + 1;
  const before = value - moments.mean[column]!;
  const mean = moments.mean[column]! + before / count;
  moments.count[column] = count;
  moments.mean[column] = mean;
  moments.squares[column]! += before * (value - mean);
}

/** Takes in the row that begins at `rows[offset]`. */
export function addRow(moments: Moments, rows: ArrayLike<number>, offset = 0): void {
  for (let column = 0; column < moments.size; column++) add(moments, column, rows[offset + column]!);
}

/**
 * Takes in so many rows, one after another from `rows[offset]` on: what `addRow` does with each, with the
 * columns held at hand.
 */
export function addRows(moments: Moments, rows: Float64Array, offset: number, many: number): void {
  const { size, count, mean, squares } = moments;
  for (let at = offset; at < offset + many * size; at += size) {
    for (let column = 0; column < size; column++) {
      const value = rows[at + column]!;
      if (Number.isNaN(value)) continue;
      const told = count[column]! + 1;
      const before = value - mean[column]!;
      const next = mean[column]! + before / told;
      count[column] = told;
      mean[column] = next;
      squares[column] = squares[column]! + before * (value - next);
    }
  }
}

/** Takes in `after - before`, column by column. */
export function addDifferences(
  moments: Moments,
  before: ArrayLike<number>,
  beforeOffset: number,
  after: ArrayLike<number>,
  afterOffset: number,
): void {
  for (let column = 0; column < moments.size; column++)
    add(moments, column, after[afterOffset + column]! - before[beforeOffset + column]!);
}

/** Sample variance (divisor count - 1); NaN under two observations. */
export function varianceOf(moments: Moments, column: number): number {
  const count = moments.count[column]!;
  return count < 2 ? NaN : moments.squares[column]! / (count - 1);
}

export function deviationOf(moments: Moments, column: number): number {
  return Math.sqrt(varianceOf(moments, column));
}

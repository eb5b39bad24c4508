/**
 * How often each value came: all there is to keep of observations whose order does not matter. Of whole units
 * there are few different ones, however many shifts were run; and counts of the same observations are the
 * same in whatever order they were told.
 */
export interface Frequencies {
  /** Ascending, each once, without NaN. */
  values: Float64Array;
  /** How often each came, 1 or more. */
  counts: Float64Array;
  /** Observations in all. */
  total: number;
}

export class FrequencyTable {
  private readonly counts = new Map<number, number>();
  private known: Frequencies | null = null;

  /** NaN is left out. */
  add(value: number): void {
    if (Number.isNaN(value)) return;
    this.counts.set(value, (this.counts.get(value) ?? 0) + 1);
    this.known = null;
  }

  get(): Frequencies {
    this.known ??= sorted(this.counts);
    return this.known;
  }
}

function sorted(table: ReadonlyMap<number, number>): Frequencies {
  const values = Float64Array.from(table.keys()).sort();
  const counts = values.map((value) => table.get(value)!);
  return { values, counts, total: counts.reduce((sum, one) => sum + one, 0) };
}

export function frequenciesOf(observations: ArrayLike<number>): Frequencies {
  const table = new FrequencyTable();
  for (let i = 0; i < observations.length; i++) table.add(observations[i]!);
  return table.get();
}

/** The same observations, each moved or scaled. @param by keeps the order of the values, and no two alike. */
export const mapped = (
  { values, counts, total }: Frequencies,
  by: (value: number) => number,
): Frequencies => ({
  values: values.map(by),
  counts,
  total,
});

/** Observations of at least so much. */
export function reaching({ values, counts }: Frequencies, least: number): number {
  let sum = 0;
  for (let i = values.length - 1; i >= 0 && values[i]! >= least; i--) sum += counts[i]!;
  return sum;
}

/** Mean and sample standard deviation (divisor total - 1); NaN without observations, or with one. */
export function meanAndDeviation({ values, counts, total }: Frequencies): {
  mean: number;
  deviation: number;
} {
  let [sum, squares] = [0, 0];
  for (let i = 0; i < values.length; i++) sum += counts[i]! * values[i]!;
  const mean = sum / total;
  for (let i = 0; i < values.length; i++) squares += counts[i]! * (values[i]! - mean) * (values[i]! - mean);
  return { mean, deviation: total < 2 ? NaN : Math.sqrt(squares / (total - 1)) };
}

/**
 * What a share of the shifts made: the most that at least `share` of the observations reach ("nine shifts in
 * ten make 18"). Always one of the observations; NaN without any. @param share over 0, at most 1.
 */
export function madeByShareOf({ values, counts, total }: Frequencies, share: number): number {
  // A rounding error in share x count must not cost a whole rank.
  const wanted = Math.max(1, Math.ceil(share * total - 1e-9));
  let seen = 0;
  for (let i = values.length - 1; i >= 0; i--) {
    seen += counts[i]!;
    if (seen >= wanted) return values[i]!;
  }
  return NaN;
}

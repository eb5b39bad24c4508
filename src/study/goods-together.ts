/**
 * The good units of every case, replication by replication, as far as what one case has over any other needs
 * them. Good units are whole, so sums of them and of their products are exact (below 2^53: squares of 60
 * units for 10^12 shifts) and the same whether they were grown on the way or added up afterwards.
 */
export interface PairSums {
  count: number;
  /** Of (after / shifts after - before / shifts before), replication by replication. */
  mean: number;
  /** Sample standard deviation (divisor count - 1); NaN under two. */
  deviation: number;
}

interface Sums {
  count: number;
  /** By case. */
  ofOne: Float64Array;
  /** [cases x cases] of products; the lower half is not used. */
  ofTwo: Float64Array;
}

export class GoodsTogether {
  private readonly shifts: readonly number[];
  /** By case; null where only sums are kept, so that memory does not grow with the shifts. */
  private readonly kept: Float64Array[] | null;
  private readonly sums: Sums;
  private count = 0;

  /**
   * @param shifts by case: so many shifts that count. @param single whether single replications are kept, for
   *   who asks for the first of them only.
   */
  constructor(shifts: readonly number[], single: boolean) {
    this.shifts = shifts;
    this.kept = single ? shifts.map(() => new Float64Array(256)) : null;
    this.sums = noSums(shifts.length);
  }

  /** Takes in a block: by case the good units of each replication, all shifts that count together. */
  add(goods: readonly Float64Array[], count: number): void {
    if (this.kept === null) addUp(this.sums, goods, count);
    else goods.forEach((one, at) => this.keep(at, one.subarray(0, count)));
    this.count += count;
  }

  private keep(at: number, goods: Float64Array): void {
    const kept = this.kept!;
    if (this.count + goods.length > kept[at]!.length) {
      const wider = new Float64Array(Math.max(this.count + goods.length, kept[at]!.length * 2));
      wider.set(kept[at]!);
      kept[at] = wider;
    }
    kept[at]!.set(goods, this.count);
  }

  /**
   * What one case has over another, a shift. @param first of the first so many replications: all, where only
   *   sums are kept.
   */
  between(before: number, after: number, first = Infinity): PairSums {
    const count = Math.min(first, this.count);
    const sums = this.kept === null ? this.sums : noSums(2);
    let [one, other] = [before, after];
    if (this.kept !== null) {
      addUp(sums, [this.kept[before]!, this.kept[after]!], count);
      [one, other] = [0, 1];
    }
    return pairSums(sums, one, other, this.shifts[before]!, this.shifts[after]!);
  }
}

const noSums = (cases: number): Sums => ({
  count: 0,
  ofOne: new Float64Array(cases),
  ofTwo: new Float64Array(cases * cases),
});

function addUp(sums: Sums, goods: readonly Float64Array[], count: number): void {
  const { ofOne, ofTwo } = sums;
  const cases = ofOne.length;
  for (let a = 0; a < cases; a++) {
    const [one, row] = [goods[a]!, a * cases];
    for (let b = a; b < cases; b++) {
      const other = goods[b]!;
      let sum = 0;
      for (let i = 0; i < count; i++) sum += one[i]! * other[i]!;
      ofTwo[row + b] = ofTwo[row + b]! + sum;
    }
    for (let i = 0; i < count; i++) ofOne[a] = ofOne[a]! + one[i]!;
  }
  sums.count += count;
}

/** On common multiples, whole numbers as well, so that nothing is rounded before the end. */
function pairSums(
  sums: Sums,
  before: number,
  after: number,
  shiftsBefore: number,
  shiftsAfter: number,
): PairSums {
  const { count, ofOne, ofTwo } = sums;
  const cases = ofOne.length;
  const product = (a: number, b: number): number => ofTwo[Math.min(a, b) * cases + Math.max(a, b)]!;
  const sum = shiftsBefore * ofOne[after]! - shiftsAfter * ofOne[before]!;
  const squares =
    shiftsBefore ** 2 * product(after, after) -
    2 * shiftsBefore * shiftsAfter * product(before, after) +
    shiftsAfter ** 2 * product(before, before);
  const scale = shiftsBefore * shiftsAfter;
  const variance = count < 2 ? NaN : Math.max(0, squares - (sum * sum) / count) / (count - 1);
  return { count, mean: sum / count / scale, deviation: Math.sqrt(variance) / scale };
}

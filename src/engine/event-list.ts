/**
 * The list of planned events, in order of (time, order), smallest first. A cell has few of them at a time (one for each piece in
 * hand or curing, and people's), most new ones belong near the end, and the next one is taken for each one planned: so they stand
 * sorted in two arrays, and the few that come later make room. Where there are many, the place is halved down to and the later
 * ones are moved in one piece, which is cheap to a few thousand.
 *
 * `kind`, `a` and `b` ride along untouched.
 */

/** Later events that are stepped over one by one; a place further off is looked for by halving. */
const NEAR = 24;
/** Bits of `kind`, below those of `a`. */
const KIND_BITS = 4;
const KIND_MASK = (1 << KIND_BITS) - 1;

export class EventList {
  /** The event taken by the last `take`. */
  kind = 0;
  a = 0;
  b = 0;
  /** Event i: its time at 2 i, its order at 2 i + 1; `a` and `kind` at 2 i, `b` at 2 i + 1. From `first` to `end`, then one of time Infinity. */
  private keys = new Float64Array(128).fill(Infinity, 0, 1);
  private marks = new Int32Array(128);
  private first = 0;
  private end = 0;

  get length(): number {
    return (this.end - this.first) / 2;
  }

  clear(): void {
    this.first = 0;
    this.end = 0;
    this.keys[0] = Infinity;
  }

  /** Time of the next event, Infinity where there is none. */
  nextTime(): number {
    return this.keys[this.first]!;
  }

  nextOrder(): number {
    return this.keys[this.first + 1]!;
  }

  /** Plans an event: `kind` 0 to 15, `a` below 2^27. Throws where the time is not finite: an event that never comes is a fault of the caller. */
  plan(time: number, order: number, kind: number, a: number, b: number): void {
    if (!(time - time === 0)) throw new RangeError(`an event needs a finite time, not ${time}`);
    if (this.end + 4 > this.keys.length) this.makeRoom();
    const { keys, marks, first, end } = this;
    const nearest = end - 2 * NEAR;
    let at = end;
    if (nearest > first && !isBefore(keys, nearest, time, order)) {
      at = this.openFar(time, order);
    } else {
      while (at > first && !isBefore(keys, at - 2, time, order)) {
        keys[at] = keys[at - 2]!;
        keys[at + 1] = keys[at - 1]!;
        marks[at] = marks[at - 2]!;
        marks[at + 1] = marks[at - 1]!;
        at -= 2;
      }
    }
    keys[at] = time;
    keys[at + 1] = order;
    marks[at] = (a << KIND_BITS) | kind;
    marks[at + 1] = b;
    this.end = end + 2;
    keys[end + 2] = Infinity;
  }

  /** Takes the next event out into `kind`, `a`, `b`. The list must not be empty. */
  take(): void {
    const { marks, first } = this;
    const mark = marks[first]!;
    this.kind = mark & KIND_MASK;
    this.a = mark >> KIND_BITS;
    this.b = marks[first + 1]!;
    this.first = first + 2;
  }

  /** Calls `each` for every planned event, in order. */
  forEach(each: (time: number, order: number, kind: number, a: number, b: number) => void): void {
    const { keys, marks } = this;
    for (let at = this.first; at < this.end; at += 2) {
      each(keys[at]!, keys[at + 1]!, marks[at]! & KIND_MASK, marks[at]! >> KIND_BITS, marks[at + 1]!);
    }
  }

  /** Makes room where the event belongs, found by halving; returns the place. */
  private openFar(time: number, order: number): number {
    const { keys, marks, first, end } = this;
    let low = first >> 1;
    let high = end >> 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (isBefore(keys, 2 * middle, time, order)) low = middle + 1;
      else high = middle;
    }
    keys.copyWithin(2 * low + 2, 2 * low, end);
    marks.copyWithin(2 * low + 2, 2 * low, end);
    return 2 * low;
  }

  /** Moves the events back to the beginning; into longer arrays, where that does not help. */
  private makeRoom(): void {
    const { keys, marks, first, end } = this;
    const used = end - first;
    if (2 * used > keys.length) {
      this.keys = new Float64Array(2 * keys.length);
      this.marks = new Int32Array(2 * keys.length);
    }
    this.keys.set(keys.subarray(first, end));
    this.marks.set(marks.subarray(first, end));
    this.keys[used] = Infinity;
    this.first = 0;
    this.end = used;
  }
}

/** Does the event at `at` come before (time, order)? */
function isBefore(keys: Float64Array, at: number, time: number, order: number): boolean {
  const other = keys[at]!;
  return other < time || (other === time && keys[at + 1]! <= order);
}

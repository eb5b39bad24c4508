/**
 * The list of planned events, in order of (time, order), smallest first. A cell has few of them at a time
 * (one for each piece in hand or curing, and people's), and the next one is taken for each one planned. An
 * event stands in a slot; the queue holds the numbers of slots, sorted, so that making room moves one small
 * number an event. Where there are many, the place is halved down to and the later ones are moved in one
 * piece, which is cheap to a few thousand.
 *
 * `kind`, `a` and `b` ride along untouched.
 */

/** Later events that are stepped over one by one; a place further off is looked for by halving. */
const NEAR = 24;
/** Bits of `kind`, below those of `a`. */
const KIND_BITS = 4;
const KIND_MASK = (1 << KIND_BITS) - 1;
/** The slot of an event that never comes: it ends the queue. */
const NEVER = 0;

export class EventList {
  /** The event taken by the last `take`. */
  kind = 0;
  a = 0;
  b = 0;
  /** Slots from `first` to `end`, sorted; then NEVER. */
  private queue = new Int32Array(256);
  /** By slot: time, order; kind and `a` together, `b`. */
  private times = new Float64Array(128).fill(Infinity);
  private orders = new Float64Array(128);
  private marks = new Int32Array(128);
  private tokens = new Int32Array(128);
  /** Slots that are free, `free` of them. */
  private spare = new Int32Array(128);
  private free = 0;
  private first = 0;
  private end = 0;

  constructor() {
    this.clear();
  }

  get length(): number {
    return this.end - this.first;
  }

  clear(): void {
    this.first = 0;
    this.end = 0;
    this.queue[0] = NEVER;
    this.free = 0;
    for (let slot = this.times.length - 1; slot > NEVER; slot--) this.spare[this.free++] = slot;
  }

  /** Time of the next event, Infinity where there is none. */
  nextTime(): number {
    return this.times[this.queue[this.first]!]!;
  }

  nextOrder(): number {
    return this.orders[this.queue[this.first]!]!;
  }

  /**
   * Plans an event: `kind` 0 to 15, `a` below 2^27. Throws where the time is not finite: an event that never
   * comes is a fault of the caller.
   */
  plan(time: number, order: number, kind: number, a: number, b: number): void {
    if (!(time - time === 0)) throw new RangeError(`an event needs a finite time, not ${time}`);
    if (this.free === 0 || this.end + 2 > this.queue.length) this.makeRoom();
    const { queue, times, first, end } = this;
    const slot = this.spare[--this.free]!;
    times[slot] = time;
    this.orders[slot] = order;
    this.marks[slot] = (a << KIND_BITS) | kind;
    this.tokens[slot] = b;
    let at = end;
    if (end - NEAR > first && times[queue[end - NEAR]!]! > time) {
      at = this.openFar(time, order);
    } else {
      while (at > first) {
        const other = queue[at - 1]!;
        if (times[other]! <= time && (times[other]! < time || this.orders[other]! <= order)) break;
        queue[at] = other;
        at--;
      }
    }
    queue[at] = slot;
    this.end = end + 1;
    queue[end + 1] = NEVER;
  }

  /** Takes the next event out into `kind`, `a`, `b`. The list must not be empty. */
  take(): void {
    const slot = this.queue[this.first++]!;
    const mark = this.marks[slot]!;
    this.kind = mark & KIND_MASK;
    this.a = mark >> KIND_BITS;
    this.b = this.tokens[slot]!;
    this.spare[this.free++] = slot;
  }

  /** Calls `each` for every planned event, in order. */
  forEach(each: (time: number, order: number, kind: number, a: number, b: number) => void): void {
    const { queue, times, orders, marks, tokens } = this;
    for (let at = this.first; at < this.end; at++) {
      const slot = queue[at]!;
      each(times[slot]!, orders[slot]!, marks[slot]! & KIND_MASK, marks[slot]! >> KIND_BITS, tokens[slot]!);
    }
  }

  /** Makes room where the event belongs, found by halving; returns the place. */
  private openFar(time: number, order: number): number {
    const { queue, times, orders, first, end } = this;
    let low = first;
    let high = end;
    while (low < high) {
      const middle = (low + high) >> 1;
      const other = queue[middle]!;
      if (times[other]! < time || (times[other] === time && orders[other]! <= order)) low = middle + 1;
      else high = middle;
    }
    queue.copyWithin(low + 1, low, end);
    return low;
  }

  /** Moves the queue back to its beginning; into longer arrays, where all slots are taken. */
  private makeRoom(): void {
    this.queue.copyWithin(0, this.first, this.end + 1);
    this.end -= this.first;
    this.first = 0;
    if (this.free > 0) return;
    const count = this.times.length;
    this.times = longer(this.times, Float64Array);
    this.orders = longer(this.orders, Float64Array);
    this.marks = longer(this.marks, Int32Array);
    this.tokens = longer(this.tokens, Int32Array);
    this.spare = longer(this.spare, Int32Array);
    this.queue = longer(this.queue, Int32Array);
    for (let slot = 2 * count - 1; slot >= count; slot--) this.spare[this.free++] = slot;
  }
}

/** The same numbers in an array twice as long. */
function longer<T extends Float64Array | Int32Array>(short: T, made: new (length: number) => T): T {
  const long = new made(2 * short.length);
  long.set(short);
  return long;
}

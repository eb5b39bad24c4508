/**
 * The future event list, in order of (time, order), smallest first. A cell has few events at a time (one for
 * each piece in hand or curing, and people's), and the next one is taken for each one planned. An event
 * stands in a slot; the queue holds the numbers of slots, sorted, so that making room moves one small number
 * an event. Where there are many, the place is halved down to and the later ones are moved in one piece.
 *
 * `kind`, `a` and `b` ride along untouched.
 */
import { type Integers, integers, moveIntegers, type Numbers, numbers } from './platform.ts';

/** Later events that are stepped over one by one; a place further off is looked for by halving. */
const NEAR: i32 = 24;
/** Bits of `kind`, below those of `a`. */
const KIND_BITS: i32 = 4;
const KIND_MASK: i32 = (1 << KIND_BITS) - 1;
/** The slot of an event that never comes: it ends the queue. */
const NEVER: i32 = 0;
const SLOTS: i32 = 128;

export class EventList {
  /** The event taken by the last `take`. */
  kind: i32 = 0;
  a: i32 = 0;
  b: i32 = 0;
  /** The queue runs from `first` to `end`. */
  first: i32 = 0;
  end: i32 = 0;
  /** Slots, sorted; then NEVER. */
  private queue: Integers = integers(2 * SLOTS);
  /** By slot: time, order; kind and `a` together, `b`. */
  private times: Numbers = numbers(SLOTS);
  private orders: Numbers = numbers(SLOTS);
  private marks: Integers = integers(SLOTS);
  private tokens: Integers = integers(SLOTS);
  /** Slots that are free, `free` of them. */
  private spare: Integers = integers(SLOTS);
  private free: i32 = 0;

  constructor() {
    this.clear();
  }

  clear(): void {
    this.first = 0;
    this.end = 0;
    this.queue[0] = NEVER;
    this.times[NEVER] = Infinity;
    this.free = 0;
    for (let slot: i32 = this.times.length - 1; slot > NEVER; slot--) this.spare[this.free++] = slot;
  }

  /** Time of the next event, Infinity where there is none. */
  nextTime(): number {
    return this.times[this.queue[this.first]!]!;
  }

  nextOrder(): number {
    return this.orders[this.queue[this.first]!]!;
  }

  /** Plans an event at a finite time: `kind` 0 to 15, `a` below 2^27. */
  // @inline
  plan(time: number, order: number, kind: i32, a: i32, b: i32): void {
    if (this.free === 0 || this.end + 2 > this.queue.length) this.makeRoom();
    const queue = this.queue;
    const times = this.times;
    const first = this.first;
    const end = this.end;
    const slot: i32 = this.spare[--this.free]!;
    times[slot] = time;
    this.orders[slot] = order;
    this.marks[slot] = (a << KIND_BITS) | kind;
    this.tokens[slot] = b;
    let at: i32 = end;
    if (end - NEAR > first && times[queue[end - NEAR]!]! > time) {
      at = this.openFar(time, order);
    } else {
      while (at > first) {
        const other: i32 = queue[at - 1]!;
        const then = times[other]!;
        if (then <= time && (then < time || this.orders[other]! <= order)) break;
        queue[at] = other;
        at--;
      }
    }
    queue[at] = slot;
    this.end = end + 1;
    queue[end + 1] = NEVER;
  }

  /** Takes the next event out into `kind`, `a`, `b`. The list must not be empty. */
  // @inline
  take(): void {
    const slot: i32 = this.queue[this.first++]!;
    const mark: i32 = this.marks[slot]!;
    this.kind = mark & KIND_MASK;
    this.a = mark >> KIND_BITS;
    this.b = this.tokens[slot]!;
    this.spare[this.free++] = slot;
  }

  /** Makes room where the event belongs, found by halving; returns the place. */
  private openFar(time: number, order: number): i32 {
    let low: i32 = this.first;
    let high: i32 = this.end;
    while (low < high) {
      const middle: i32 = (low + high) >> 1;
      const other: i32 = this.queue[middle]!;
      const then = this.times[other]!;
      if (then < time || (then === time && this.orders[other]! <= order)) low = middle + 1;
      else high = middle;
    }
    moveIntegers(this.queue, low + 1, low, this.end - low);
    return low;
  }

  /** Moves the queue back to its beginning; into longer arrays, where all slots are taken. */
  private makeRoom(): void {
    moveIntegers(this.queue, 0, this.first, this.end + 1 - this.first);
    this.end -= this.first;
    this.first = 0;
    if (this.free > 0) return;
    const count: i32 = this.times.length;
    this.times = longerNumbers(this.times);
    this.orders = longerNumbers(this.orders);
    this.marks = longerIntegers(this.marks);
    this.tokens = longerIntegers(this.tokens);
    this.spare = longerIntegers(this.spare);
    this.queue = longerIntegers(this.queue);
    for (let slot: i32 = 2 * count - 1; slot >= count; slot--) this.spare[this.free++] = slot;
  }
}

function longerNumbers(short: Numbers): Numbers {
  const long = numbers(2 * short.length);
  for (let i = 0; i < short.length; i++) long[i] = short[i]!;
  return long;
}

function longerIntegers(short: Integers): Integers {
  const long = integers(2 * short.length);
  for (let i = 0; i < short.length; i++) long[i] = short[i]!;
  return long;
}

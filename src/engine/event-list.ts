/**
 * The list of planned events: a binary heap in parallel arrays, smallest (time, order) first; the hole is moved instead of
 * swapping. `kind`, `a` and `b` ride along untouched.
 */
export class EventList {
  length = 0;
  /** The event taken by the last `take`. */
  time = 0;
  kind = 0;
  a = 0;
  b = 0;
  private times = new Float64Array(64);
  private orders = new Float64Array(64);
  private kinds = new Int32Array(64);
  private as = new Int32Array(64);
  private bs = new Int32Array(64);

  clear(): void {
    this.length = 0;
  }

  /** Time of the next event, Infinity where there is none. */
  nextTime(): number {
    return this.length > 0 ? this.times[0]! : Infinity;
  }

  nextOrder(): number {
    return this.length > 0 ? this.orders[0]! : Infinity;
  }

  /** Plans an event. Throws where the time is not finite: an event that never comes is a fault of the caller. */
  plan(time: number, order: number, kind: number, a: number, b: number): void {
    if (!(time < Infinity && time > -Infinity)) throw new RangeError(`an event needs a finite time, not ${time}`);
    if (this.length === this.times.length) this.grow();
    const times = this.times;
    const orders = this.orders;
    let hole = this.length++;
    while (hole > 0) {
      const parent = (hole - 1) >> 1;
      const parentTime = times[parent]!;
      if (parentTime < time || (parentTime === time && orders[parent]! <= order)) break;
      this.move(parent, hole);
      hole = parent;
    }
    this.put(hole, time, order, kind, a, b);
  }

  /** Takes the next event out into `time`, `kind`, `a`, `b`. The list must not be empty. */
  take(): void {
    this.time = this.times[0]!;
    this.kind = this.kinds[0]!;
    this.a = this.as[0]!;
    this.b = this.bs[0]!;
    const last = --this.length;
    if (last === 0) return;
    const times = this.times;
    const orders = this.orders;
    const time = times[last]!;
    const order = orders[last]!;
    let hole = 0;
    for (;;) {
      let child = 2 * hole + 1;
      if (child >= last) break;
      const right = child + 1;
      if (right < last && (times[right]! < times[child]! || (times[right] === times[child] && orders[right]! < orders[child]!))) {
        child = right;
      }
      const childTime = times[child]!;
      if (time < childTime || (time === childTime && order <= orders[child]!)) break;
      this.move(child, hole);
      hole = child;
    }
    this.put(hole, time, order, this.kinds[last]!, this.as[last]!, this.bs[last]!);
  }

  /** Calls `each` for every planned event, in no order. */
  forEach(each: (time: number, order: number, kind: number, a: number, b: number) => void): void {
    for (let i = 0; i < this.length; i++) each(this.times[i]!, this.orders[i]!, this.kinds[i]!, this.as[i]!, this.bs[i]!);
  }

  private move(from: number, to: number): void {
    this.times[to] = this.times[from]!;
    this.orders[to] = this.orders[from]!;
    this.kinds[to] = this.kinds[from]!;
    this.as[to] = this.as[from]!;
    this.bs[to] = this.bs[from]!;
  }

  private put(at: number, time: number, order: number, kind: number, a: number, b: number): void {
    this.times[at] = time;
    this.orders[at] = order;
    this.kinds[at] = kind;
    this.as[at] = a;
    this.bs[at] = b;
  }

  private grow(): void {
    const size = this.times.length * 2;
    const wider = <T extends Float64Array | Int32Array>(old: T, made: T): T => (made.set(old), made);
    this.times = wider(this.times, new Float64Array(size));
    this.orders = wider(this.orders, new Float64Array(size));
    this.kinds = wider(this.kinds, new Int32Array(size));
    this.as = wider(this.as, new Int32Array(size));
    this.bs = wider(this.bs, new Int32Array(size));
  }
}

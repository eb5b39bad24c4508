/** Reads what the host wrote: one number after another. */
import { type Integers, integers, type Numbers, numbers, whole } from './platform.ts';

export class Reader {
  private readonly data: Numbers;
  private at: i32 = 0;

  constructor(data: Numbers) {
    this.data = data;
  }

  number(): number {
    return this.data[this.at++]!;
  }

  integer(): i32 {
    return whole(this.number());
  }

  flag(): boolean {
    return this.number() !== 0;
  }

  numbers(count: i32): Numbers {
    const made = numbers(count);
    for (let i = 0; i < count; i++) made[i] = this.number();
    return made;
  }

  integers(count: i32): Integers {
    const made = integers(count);
    for (let i = 0; i < count; i++) made[i] = this.integer();
    return made;
  }
}

/** `platform.ts` in AssemblyScript: arrays without a header to go through, and the machine's own instructions. */
export type Integers = StaticArray<i32>;
export type Numbers = StaticArray<f64>;
export type List<T> = StaticArray<T>;

export function integers(count: i32): Integers {
  return new StaticArray<i32>(count);
}
export function numbers(count: i32): Numbers {
  return new StaticArray<f64>(count);
}
export function list<T>(count: i32): List<T> {
  return new StaticArray<T>(count);
}

export function moveIntegers(array: Integers, to: i32, from: i32, count: i32): void {
  const base = changetype<usize>(array);
  memory.copy(base + ((<usize>to) << 2), base + ((<usize>from) << 2), (<usize>count) << 2);
}
export function clearNumbers(array: Numbers): void {
  memory.fill(changetype<usize>(array), 0, (<usize>array.length) << 3);
}

export function whole(value: f64): i32 {
  return i32(value);
}
export function unsigned(word: i32): f64 {
  return f64(u32(word));
}
export function leadingZeros(word: i32): i32 {
  return clz<i32>(word);
}
export function lowestBit(word: i32): i32 {
  return ctz<i32>(word);
}

export declare function fillBin(curve: i32, word: i32): f64;
export declare function coefficient(index: i32): f64;
export declare function sampleBeyond(curve: i32, word: i32, worked: f64): f64;

/**
 * The core (src/core) as the rest of the program sees it: the same functions whether it was built to
 * WebAssembly or runs as plain JavaScript, where WebAssembly is refused. Both give the same bits.
 */
import builtCore from 'virtual:core';
import * as plain from '../core/index.ts';
import { setHost, type Host } from '../core/platform.ts';
import { FIXED, LIST, sampleBeyond, type CompiledTime } from '../duration/compile.ts';
import { binOf, fill, TABLE_LENGTH } from '../duration/table.ts';
import { encodeDay } from './encode.ts';
import type { CompiledCell } from './tables.ts';

/** Of the world outside, what stands wherever the program runs, and is typed with pages alone. */
interface Memory {
  readonly buffer: ArrayBuffer;
}
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (
    module: object,
    imports: { platform: Host; env: { abort: () => void } },
  ) => { exports: object };
};

/** An array of the core: in WebAssembly the address of its first number. */
type CoreArray = number | Float64Array;
/** What src/core/index.ts exports. A day is the core's own: in WebAssembly its address. */
export interface Exports<Day = unknown> {
  room(length: number): CoreArray;
  curve(id: number, kind: number, values: CoreArray): void;
  clear(): void;
  day(data: CoreArray): Day;
  run(day: Day, replication: number): number;
  accounts(day: Day, shift: number): CoreArray;
  write(day: Day, on: boolean, reasons: boolean): void;
  tape(day: Day, shift: number): CoreArray;
  tapeLength(day: Day, shift: number): number;
  now(day: Day): number;
  visitedOften(day: Day, times: number): number;
  shiftOf(day: Day): number;
  scarceKind(day: Day): number;
  scarceHeld(day: Day): number;
  setScale(day: Day, shift: number, step: number, product: number, repeat: boolean, scale: number): void;
  setScrap(day: Day, shift: number, step: number, share: number): void;
  setShare(day: Day, shift: number, step: number, branch: number, share: number): void;
  setChance(day: Day, shift: number, person: number, chance: number): void;
}

/** The time curves of a core by their numbers, and what it asks of them. */
class Curves implements Host {
  private readonly times: CompiledTime[] = [];
  private readonly numbers = new Map<CompiledTime, number>();
  private readonly filled = new Float64Array(4);

  get count(): number {
    return this.times.length;
  }

  /** The number of a time; `add` gives a new one to the core. */
  numberOf(time: CompiledTime, add: (id: number) => void): number {
    const known = this.numbers.get(time);
    if (known !== undefined) return known;
    const id = this.times.length;
    add(id);
    this.times.push(time);
    this.numbers.set(time, id);
    return id;
  }

  fillBin(curve: number, word: number): number {
    const { distribution, values } = this.times[curve]!;
    if (distribution.kind !== 'continuous') throw new TypeError('only a curve has a sampling table');
    const minutes = fill(values, distribution, word);
    const bin = binOf(word);
    for (let i = 0; i < this.filled.length; i++) this.filled[i] = values[bin + i]!;
    return minutes;
  }

  coefficient(index: number): number {
    return this.filled[index]!;
  }

  sampleBeyond(curve: number, word: number, worked: number): number {
    return sampleBeyond(this.times[curve]!, word, worked);
  }
}

/** Beyond these a core is given up for a new one: it gives no memory back. */
const MOST_BYTES = 1 << 26;
const MOST_CURVES = 2000;

export class Core {
  readonly kind: 'WebAssembly' | 'JavaScript';
  readonly exports: Exports;
  private readonly curves: Curves;
  private readonly memory: Memory | null;

  constructor(exports: Exports, curves: Curves, memory: Memory | null) {
    this.kind = memory === null ? 'JavaScript' : 'WebAssembly';
    this.exports = exports;
    this.curves = curves;
    this.memory = memory;
  }

  get isFull(): boolean {
    return (this.memory?.buffer.byteLength ?? 0) >= MOST_BYTES || this.curves.count >= MOST_CURVES;
  }

  /** Numbers of the core in place: theirs until the core is called again. */
  view(array: CoreArray, length: number): Float64Array {
    return typeof array === 'number'
      ? new Float64Array(this.memory!.buffer, array, length)
      : array.subarray(0, length);
  }

  /** Have views of the core's numbers become void, because its memory has moved? */
  hasMoved(view: Float64Array): boolean {
    return this.memory !== null && view.buffer !== this.memory.buffer;
  }

  private give(numbers: Float64Array, length = numbers.length): CoreArray {
    const room = this.exports.room(length);
    this.view(room, length).set(numbers);
    return room;
  }

  private curveOf(time: CompiledTime): number {
    return this.curves.numberOf(time, (id) => {
      const length = time.kind === FIXED ? 1 : time.kind === LIST ? time.values.length : TABLE_LENGTH;
      this.exports.curve(id, time.kind, this.give(time.values, length));
    });
  }

  day(cells: CompiledCell[]): unknown {
    return this.exports.day(this.give(encodeDay(cells, (time) => this.curveOf(time))));
  }
}

/** What the build has written as text (asText in src/core/compile.mjs). */
function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    bytes[i] = code - (code < 127 ? 32 : 66);
  }
  return bytes;
}

let module: object | null = null;
const ownModule = (): object => (module ??= new WebAssembly.Module(bytesOf(builtCore)));

/**
 * A core in WebAssembly (of `bytes` instead of what was built). Compiling takes a few milliseconds, and here
 * it is waited for: it is done or refused at once, everywhere. Throws where it is refused, as under a page's
 * policy without 'wasm-unsafe-eval'.
 */
export function wasmCore(bytes: Uint8Array | null = null): Core {
  const curves = new Curves();
  const { exports } = new WebAssembly.Instance(bytes === null ? ownModule() : new WebAssembly.Module(bytes), {
    platform: {
      fillBin: (curve, word) => curves.fillBin(curve, word),
      coefficient: (index) => curves.coefficient(index),
      sampleBeyond: (curve, word, worked) => curves.sampleBeyond(curve, word, worked),
    },
    // Asked for by checks alone: the fast build has none.
    env: {
      abort: () => {
        throw new RangeError('the core has gone beyond a bound of its arrays');
      },
    },
  });
  // What was compiled from src/core/index.ts exports this.
  const own = exports as unknown as Exports & { memory: Memory };
  return new Core(own, curves, own.memory);
}

/** A core in plain JavaScript. There is one at a time: making another ends the one before. */
export function plainCore(): Core {
  const curves = new Curves();
  setHost(curves);
  plain.clear();
  // The days it hands out are its own and go back to it alone.
  return new Core(plain as unknown as Exports, curves, null);
}

let isRefused = false;
let current: Core | null = null;

/** The core that days are built in now; another one once it is full. */
export function currentCore(): Core {
  if (current === null || current.isFull) current = makeCore();
  return current;
}

function makeCore(): Core {
  if (isRefused) return plainCore();
  try {
    return wasmCore();
  } catch {
    isRefused = true;
    return plainCore();
  }
}

/** Runs `use` with every day built in this core. */
export function withCore<T>(core: Core, use: () => T): T {
  const before = current;
  current = core;
  try {
    return use();
  } finally {
    current = before;
  }
}

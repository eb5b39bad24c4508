/** Stored things as a disk fault, a crash or somebody's hand may leave them. */
import seedrandom from 'seedrandom';

/** What may stand where something else stood. Values a browser's database can hold. */
const ODD: (() => unknown)[] = [
  () => null,
  () => undefined,
  () => 0,
  () => -1,
  () => 1e308,
  () => NaN,
  () => Infinity,
  () => '',
  () => 'x'.repeat(5000),
  () => '\u0000\ud800',
  () => true,
  () => [],
  () => ({}),
  () => [null],
  () => ({ past: null }),
  () => new Date(0),
  () => 5n,
];

type Part = Record<string | number, unknown>;
const isPart = (value: unknown): value is Part => typeof value === 'object' && value !== null;

/**
 * A copy of `value` with one to three places in it replaced, taken out, moved, doubled or cut. The same seed
 * damages the same way. The value itself may be what is replaced.
 */
export function changedAtRandom(value: unknown, seed: number | string): unknown {
  const next = seedrandom(String(seed));
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
  const root: Part = { value: structuredClone(value) };
  for (let left = 1 + Math.floor(next() * 3); left > 0; left--) damageOnce(root, next, pick);
  return root['value'];
}

function damageOnce(root: Part, next: () => number, pick: <T>(from: readonly T[]) => T): void {
  let [part, key]: [Part, string | number] = [root, 'value'];
  // Down into it, so that deep places are met as often as those at the top.
  while (isPart(part[key]) && next() < 0.75) {
    const inner: Part = part[key] as Part;
    const keys: string[] = Object.keys(inner);
    if (keys.length === 0) break;
    [part, key] = [inner, pick(keys)];
  }
  const ways: (() => void)[] = [
    () => (part[key] = pick(ODD)()),
    () => {
      if (Array.isArray(part)) part.splice(Number(key), 1);
      else Reflect.deleteProperty(part, key);
    },
    () => (part[key] = { [key]: part[key] }),
    () => (part[`${key}x`] = part[key]),
    () => {
      const text = part[key];
      part[key] = typeof text === 'string' ? text.slice(0, Math.floor(next() * text.length)) : [text, text];
    },
    () => {
      const other = pick(Object.keys(part));
      [part[key], part[other]] = [part[other], part[key]];
    },
  ];
  pick(ways)();
}

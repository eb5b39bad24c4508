/** Mean minutes of a piece at its step, and what is left of them once it has had some. */
import { compileTime } from '../duration/compile.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Time } from '../duration/time.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';

type Piece = Pick<CarryOver, 'at' | 'product' | 'visits'>;

/**
 * The piece's time and what it is multiplied with: product, people (the larger factor of two), allowance
 * where hands do it.
 */
function timeAndScale(scenario: Scenario, piece: Piece, people: string[]): { time: Time; scale: number } {
  const step = scenario.steps[piece.at];
  if (step === undefined) return { time: 0, scale: 1 };
  const product = piece.product === undefined ? undefined : scenario.products?.[piece.product];
  const repeated = (piece.visits?.[piece.at] ?? 0) > 0 ? step.repeatTime : undefined;
  const time = repeated ?? product?.times?.[piece.at] ?? step.time;
  const scale = product?.factors?.[piece.at] ?? 1;
  if (step.kind === 'wait') return { time, scale };
  const known = people.length === 0 ? [] : resolve(scenario).people;
  const factors = people.flatMap(
    (id) => known.find((person) => person.id === id)?.skills[piece.at]?.factor ?? [],
  );
  return {
    time,
    scale: scale * (factors.length === 0 ? 1 : Math.max(...factors)) * (scenario.shift?.allowance ?? 1),
  };
}

/** Mean minutes of the piece's step. @param people whose it is; nobody: a factor of 1. */
export function meanMinutes(scenario: Scenario, piece: Piece, people: string[] = []): number {
  const { time, scale } = timeAndScale(scenario, piece, people);
  return compileTime(time).mean * scale;
}

const PARTS = 1000;

/**
 * Mean minutes still to go of a piece that has had `worked` and is not done: over the times longer than that.
 * 0 where none is.
 */
export function meanLeft(scenario: Scenario, piece: Piece, worked: number, people: string[] = []): number {
  const { time, scale } = timeAndScale(scenario, piece, people);
  const curve = compileTime(time);
  if (worked <= 0) return curve.mean * scale;
  const passed = curve.cdf(worked / scale);
  if (passed >= 1) return 0;
  let sum = 0;
  for (let part = 0; part < PARTS; part += 1)
    sum += Math.max(0, curve.quantile(passed + ((1 - passed) * (part + 0.5)) / PARTS) * scale - worked);
  return sum / PARTS;
}

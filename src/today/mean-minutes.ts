/** Mean minutes of a piece at its step, and what is left of them once it has had some. */
import { compileTime, type CompiledTime } from '../duration/compile.ts';
import type { Time } from '../duration/time.ts';
import { taskOf, type ResolvedShift } from '../scenario/resolve.ts';

/** Left out or null: the product is not known, it has had no visits. */
interface Piece {
  at: string;
  product?: string | null | undefined;
  visits?: Record<string, number> | null | undefined;
}

/**
 * The piece's time and what it is multiplied with: product, people (the larger factor of two), allowance
 * where hands do it.
 */
function timeAndScale(shift: ResolvedShift, piece: Piece, people: string[]): { time: Time; scale: number } {
  const step = shift.steps.find((one) => one.id === piece.at);
  if (step === undefined) return { time: 0, scale: 1 };
  const task = taskOf(shift, piece.product ?? null, step.id);
  const time = (piece.visits?.[step.id] ?? 0) > 0 ? task.repeat : task.time;
  if (step.kind === 'wait') return { time, scale: task.factor };
  const factors = people.flatMap(
    (id) => shift.people.find((person) => person.id === id)?.skills[step.id]?.factor ?? [],
  );
  return { time, scale: task.factor * (factors.length === 0 ? 1 : Math.max(...factors)) * shift.allowance };
}

/** Mean minutes of the piece's step. @param people whose it is; nobody: a factor of 1. */
export function meanMinutes(shift: ResolvedShift, piece: Piece, people: string[] = []): number {
  const { time, scale } = timeAndScale(shift, piece, people);
  return compileTime(time).mean * scale;
}

const PARTS = 1000;

/**
 * Mean minutes still to go of a piece that has had `worked` and is not done: over the times longer than that.
 * 0 where none is.
 */
export function meanLeft(shift: ResolvedShift, piece: Piece, worked: number, people: string[] = []): number {
  const { time, scale } = timeAndScale(shift, piece, people);
  return meanBeyond(compileTime(time), worked, scale);
}

/** Mean minutes to go of a time drawn from a curve and multiplied by `scale`, `worked` of it being over. */
export function meanBeyond(curve: CompiledTime, worked: number, scale = 1): number {
  if (worked <= 0) return curve.mean * scale;
  const passed = curve.cdf(worked / scale);
  if (passed >= 1) return 0;
  let sum = 0;
  for (let part = 0; part < PARTS; part += 1)
    sum += Math.max(0, curve.quantile(passed + ((1 - passed) * (part + 0.5)) / PARTS) * scale - worked);
  return sum / PARTS;
}

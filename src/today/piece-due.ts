/** When a piece that was counted is due, however it was said. */
import { carriedOf, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver } from '../scenario/schema.ts';

export type PieceWithoutDue = Omit<CarryOver, 'due' | 'dueIn' | 'dueAfter'>;

/**
 * The piece, and when it is due in minutes from the start of the shift (under 0: before it); null at no time.
 * A due time from coming counts back from the count, `elapsed` minutes after the start, as `arrived` does.
 */
export function dueApart(
  counted: CarryOver,
  shift: Pick<ResolvedShift, 'start'>,
  elapsed: number,
): { piece: PieceWithoutDue; due: number | null } {
  const { due: _due, dueIn: _dueIn, dueAfter, ...piece } = counted;
  const { due } = carriedOf(shift, counted);
  return { piece, due: due !== null && dueAfter !== undefined ? elapsed + due : due };
}

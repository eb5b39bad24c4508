/** When the pieces of one shift came, beside all. */
import type { ShiftReasons } from '../../record/why/reasons.ts';
import { cameBy, type Came, type ReasonSums } from '../../record/why/sums.ts';

export const cameOf = (
  shift: Pick<ShiftReasons, 'arrivals' | 'ends'>,
  { came }: Pick<ReasonSums, 'came'>,
): { by: number; all: Came } | null => (came === null ? null : { by: cameBy(shift, came.pieces), all: came });

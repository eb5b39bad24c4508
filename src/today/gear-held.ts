/** Which pieces hold which clamp sets, by a record of events. */
import type { EventRow } from '../record/event-row.ts';
import { carriedOf, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver } from '../scenario/schema.ts';

/**
 * Follows a record. What a piece holds is written down only where its path would say something else: a piece
 * sent back behind its clamps has none, one at a step off the path may have some.
 */
export class GearHeld {
  /** Kinds that stay with a piece over several steps, and are no bench of another. */
  private readonly kinds: Set<string>;
  /** The piece, by kind and number. */
  private readonly holder = new Map<string, { gear: string; unit: string }>();
  /** A record written by hand may say nothing of gear: then the path is all there is. */
  private heard = false;

  constructor(private readonly shift: ResolvedShift) {
    const used = new Set(shift.steps.flatMap((step) => step.uses));
    this.kinds = new Set(
      shift.steps.flatMap((step) => step.takes.map((take) => take.gear)).filter((gear) => !used.has(gear)),
    );
  }

  hear({ event, gear, item, unit }: EventRow): void {
    if (!this.kinds.has(gear)) return;
    if (event === 'gear taken' && unit !== '') {
      this.heard = true;
      this.holder.set(`${gear} ${item}`, { gear, unit });
    } else if (event === 'gear free' || event === 'gear out') {
      // What goes out of order has been left by its piece first.
      this.holder.delete(`${gear} ${item}`);
    }
  }

  /** The piece with the gear it holds, where that is not what its path says. */
  told(piece: CarryOver): CarryOver {
    if (!this.heard) return piece;
    const gear = [...this.holder.values()].filter(({ unit }) => unit === piece.name).map((one) => one.gear);
    const byPath = heldByPath(this.shift, piece).filter((one) => this.kinds.has(one));
    return gear.sort().join('\n') === byPath.sort().join('\n') ? piece : { ...piece, gear };
  }
}

/** The gear a piece took at a step it has been at and frees at one it has not ended yet. */
function heldByPath(shift: ResolvedShift, piece: CarryOver): string[] {
  const { at, state, visits } = carriedOf(shift, piece);
  const path = shift.steps.filter((step) => !step.aside);
  const placeOf = (id: string): number => path.findIndex((step) => step.id === id);
  const here = placeOf(at);
  if (here < 0) return [];
  return path.flatMap((step, from) =>
    step.takes.flatMap(({ gear, until: freeing }) => {
      const until = placeOf(freeing);
      const taken = state === 'waiting' ? from < here : from <= here;
      const notFreed = state === 'blocked' ? here < until : here <= until;
      return taken && notFreed && (step.id === at || (visits?.[step.id] ?? 0) > 0) ? [gear] : [];
    }),
  );
}

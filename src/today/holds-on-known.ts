/** Holds of named pieces, once some of them are out. */
import type { CarryOver, Hold, Intake } from '../scenario/schema.ts';

/**
 * The holds, with the names of pieces that are in the cell or to come; one whose pieces are all gone is left
 * out. Several of one name are numbered once they are in the cell.
 */
export function holdsOnKnown(holds: readonly Hold[], inside: readonly CarryOver[], intake: Intake): Hold[] {
  const names = new Set(
    [...inside, ...(intake.kind === 'list' ? intake.arrivals : [])].flatMap((one) =>
      one.name === undefined ? [] : [one.name],
    ),
  );
  return holds.flatMap((hold) => {
    if (hold.units === undefined) return [hold];
    const units = hold.units.flatMap((name) =>
      [...names].filter(
        (one) => one === name || (one.startsWith(`${name} `) && /^\d+$/.test(one.slice(name.length + 1))),
      ),
    );
    return units.length > 0 ? [{ ...hold, units }] : [];
  });
}

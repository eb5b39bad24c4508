/** The piece that would come to a step next. */
import type { Moment, Standing } from './moment.ts';
import type { Timeline } from './timeline.ts';

/** Of all that is on its way there, what has the fewest steps before it; of those, what gets on first. */
export function nearestPiece({ timeline, standing }: Moment, step: number): Standing | null {
  let nearest: Standing | null = null;
  let least = Infinity;
  for (const one of standing) {
    const stepsBefore = distance(timeline, one, step);
    const isNearer =
      stepsBefore < least || (stepsBefore === least && nearest !== null && one.place.to < nearest.place.to);
    if (!isNearer || stepsBefore === Infinity) continue;
    nearest = one;
    least = stepsBefore;
  }
  return nearest;
}

/** Steps still to be done before this one; half a step where one is under way. Infinity: it does not come. */
function distance({ cell }: Timeline, { unit, place }: Standing, step: number): number {
  const { count } = cell.steps;
  const next = (at: number): number => cell.products.next[unit.product * count + at]!;
  const isBegun = place.where === 'hand' || place.where === 'wait' || place.where === 'put down';
  let at = place.where === 'blocked' ? place.wants : isBegun ? next(place.step) : place.step;
  // What stands before the step already is no piece to come, unless something keeps it out of the line.
  if (at === step && (place.where === 'line' || place.where === 'outside')) return Infinity;
  for (let steps = isBegun ? 0.5 : 0; at < count && steps <= count + 1; steps++) {
    if (at === step) return steps;
    at = next(at);
  }
  return Infinity;
}

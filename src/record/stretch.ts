/** What somebody or something did from when to when. */

/**
 * Minutes from the start of its shift; `state` as engine/states.ts numbers them; `unit` from 0, -1 without
 * one.
 */
export interface Stretch {
  from: number;
  to: number;
  state: number;
  unit: number;
}

/**
 * Ends the open stretch and begins another; the same state with the same piece, or told again without one,
 * goes on.
 */
export function turn(stretches: Stretch[], at: number, state: number, unit: number): void {
  const open = stretches.at(-1)!;
  if (open.state === state && (unit === -1 || open.unit === unit)) return;
  if (open.state === state && open.unit === -1 && open.from === at) {
    open.unit = unit;
    return;
  }
  open.to = at;
  stretches.push({ from: at, to: at, state, unit });
}

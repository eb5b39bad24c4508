/**
 * Planned times out of order: which pieces of gear are taken out. Nobody takes a clamp set off a curing piece
 * to have it mended while another one hangs on the wall, so a free one goes first, else the one that is free
 * soonest as things stand.
 */
import { failItem } from './gear.ts';
import type { GearItem, GearKind } from './resources.ts';
import type { Step } from './steps.ts';
import { ASIDE, BLOCKED, IN_HAND, IN_WAIT, PUT_DOWN, type Unit } from './units.ts';
import type { CellState, Outage } from './state.ts';

/** The time of an outage has come. What is out of order already, or will be, is had with that repair. */
export function takeOutOfOrder(state: CellState, outage: Outage): void {
  for (let taken = 0; taken < outage.items; taken++) {
    const item = freeSoonest(state, outage.kind);
    if (item === null) return;
    failItem(state, item, outage.length);
  }
}

/** The item in order that is free first, of equals the lowest-numbered; null where none is in order. */
function freeSoonest(state: CellState, kind: GearKind): GearItem | null {
  let found: GearItem | null = null;
  let soonest = Infinity;
  for (let i = 0; i < kind.count; i++) {
    const item = kind.items[i]!;
    if (item.out || item.repair >= 0) continue;
    if (item.unit === null) return item;
    const free = freeAt(state, item, item.unit!);
    if (free >= soonest) continue;
    found = item;
    soonest = free;
  }
  return found;
}

/**
 * When the item will be free as things stand, ms: a place (a bench, a slot) when what its piece is at ends;
 * what stays with the piece (a clamp set) after the step that frees it, reached without waiting for anybody,
 * in mean times as for overtime.
 */
function freeAt(state: CellState, item: GearItem, unit: Unit): number {
  const where = unit.where;
  let time = state.now;
  if (where === IN_HAND || where === IN_WAIT || where === ASIDE) time = unit.ends;
  if (where === PUT_DOWN) time += unit.ends;
  const until = heldUntil(state, item, unit);
  if (until === null) return time;
  let step = where === ASIDE || where === BLOCKED ? unit.to! : unit.step!;
  if (where === IN_HAND || where === IN_WAIT || where === PUT_DOWN) {
    if (step === until) return time;
    step = step.tasks[unit.product]!.next;
  }
  return time + onTheWay(state, unit.product, step, until);
}

/** The step that frees the item; null where the unit only stands on it. */
function heldUntil(state: CellState, item: GearItem, unit: Unit): Step | null {
  for (let i = 0; i < unit.taken.length; i++)
    if (unit.taken[i] === item) return state.shift.takings[i]!.until;
  return null;
}

/** Ms of all steps from one to another, both included: work at its mean, waits as planned. */
function onTheWay(state: CellState, product: i32, from: Step, until: Step): number {
  let time: number = 0;
  let step = from;
  while (step !== state.out) {
    const task = step.tasks[product]!;
    time += Math.floor((step.hands ? task.mean : task.planned) * task.plannedScale + 0.5);
    if (step === until) break;
    step = task.next;
  }
  return time;
}

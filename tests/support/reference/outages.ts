/** Which piece of gear a planned time out of order takes: a free one, else the one that is free soonest. */
import { compileTime } from '../../../src/duration/compile.ts';
import { durationOf, nextStep, plannedFirst, type Item, type Unit, type World } from './world.ts';

/** Of those in order; undefined where none is. */
export const freeSoonest = (world: World, items: Item[]): Item | undefined =>
  items
    .filter((item) => !item.out && item.due === null)
    .map((item) => ({ item, at: item.unit === null ? -Infinity : freeAt(world, item, item.unit) }))
    .sort((a, b) => a.at - b.at || a.item.number - b.item.number)[0]?.item;

/** A place is left when what its piece is at is over; what was taken along after the step that frees it. */
function freeAt(world: World, item: Item, unit: Unit): number {
  const over = endOfNow(world, unit);
  const taken = unit.taken.find((one) => one.item === item);
  if (taken === undefined) return over;
  const underWay = ['in hand', 'put down', 'wait'].includes(unit.where);
  if (underWay && unit.step === taken.until) return over;
  const from =
    unit.where === 'blocked' ? unit.to : underWay ? nextStep(world, unit.product, unit.step) : unit.step;
  return over + pathTime(world, unit, from, taken.until);
}

function endOfNow(world: World, unit: Unit): number {
  if (unit.where === 'in hand') return unit.end!.time;
  if (unit.where === 'wait' || unit.where === 'aside') return unit.planned;
  return world.now + (unit.where === 'put down' ? unit.left : 0);
}

/** Nobody is waited for: work at its mean, waits as planned, both ends included. */
function pathTime(world: World, unit: Unit, from: string | null, until: string): number {
  if (from === null) return 0;
  const task = unit.product.tasks[from]!;
  const minutes =
    world.steps[from]!.kind === 'hands'
      ? compileTime(task.time).mean
      : plannedFirst(world, unit.product, from);
  const here = durationOf(world, unit.product, from, minutes, 1);
  return from === until ? here : here + pathTime(world, unit, nextStep(world, unit.product, from), until);
}

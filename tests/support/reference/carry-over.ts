/** Units of the cell, and those that stand there when a shift begins. */
import { type ResolvedCarried } from '../../../src/scenario/resolve.ts';
import { uniform } from '../../../src/random/threefry.ts';
import { PURPOSE } from '../../../src/random/keys.ts';
import { enter, findGear, freeOnReturn, hasSlot, occupy, standsAside, startWait } from './flow.ts';
import { leftOf } from './starts.ts';
import { milliseconds, nextStep, tell, word, type Unit, type World } from './world.ts';

export function newUnit(
  world: World,
  product: string | null,
  given: { name?: string | null; rush?: boolean; due?: number | null },
): Unit {
  const number = world.units.length;
  const { products } = world.shift;
  const luck =
    uniform(word(world, PURPOSE.PRODUCT, number, 0, 0, false)) *
    products.reduce((sum, one) => sum + one.share, 0);
  let sum = 0;
  const drawn = products.find((one) => luck < (sum += one.share)) ?? products.at(-1)!;
  const chosen = products.find((one) => one.id === product) ?? drawn;
  const unit: Unit = {
    number,
    name: given.name ?? null,
    product: chosen,
    arrived: world.now,
    due: dueOf(given.due ?? null),
    rush: given.rush ?? false,
    visits: {},
    doneBy: {},
    where: 'outside',
    step: chosen.enters,
    to: null,
    inSlot: false,
    since: world.now,
    order: world.orders++,
    place: [],
    taken: [],
    workers: [],
    end: null,
    left: 0,
    planned: 0,
    wantsPlace: null,
    wantsSince: 0,
    started: null,
  };
  world.units.push(unit);
  return unit;
}

const dueOf = (due: number | null): number => (due === null ? Infinity : milliseconds(due));

export function openCarryOver(world: World): void {
  for (const carried of world.shift.carryOver) {
    for (let i = 0; i < carried.units; i++) openCarried(world, carried);
  }
  // Cured ones stand where they cured, as far as those that still cure leave room.
  for (const unit of world.units.filter(
    (one) => one.where === 'line' && !one.inSlot && one.place.length === 0,
  )) {
    const wait = world.shift.steps.find(
      (one) =>
        one.kind === 'wait' &&
        !unit.product.skips.includes(one.id) &&
        nextStep(world, unit.product, one.id) === unit.step,
    );
    if (wait !== undefined) occupy(world, unit, findGear(world, unit, wait.uses) ?? []);
  }
}

/** Steps of the product's path before `at`. */
function before(world: World, unit: Unit, at: string): string[] {
  const main = world.shift.steps
    .filter((step) => !step.aside && !unit.product.skips.includes(step.id))
    .map((step) => step.id);
  const upTo = world.steps[at]!.aside ? world.steps[at]!.next! : at;
  return main.slice(Math.max(0, main.indexOf(unit.product.enters)), main.indexOf(upTo));
}

function openCarried(world: World, carried: ResolvedCarried): void {
  const unit = newUnit(world, carried.product, carried);
  unit.arrived = -milliseconds(carried.arrived);
  tell(world, `arrive ${unit.number} ${unit.product.id}`);
  const { state } = carried;
  const step = world.steps[carried.at]!;
  const earlier = before(world, unit, carried.at);
  for (const one of earlier) unit.visits[one] = 1;
  Object.assign(unit.visits, carried.visits ?? {});
  const ended = state === 'blocked';
  const holds = (take: { by: string; until: string }): boolean =>
    !step.aside &&
    (earlier.includes(take.by) || (take.by === carried.at && state !== 'waiting')) &&
    !earlier.includes(take.until) &&
    !(ended && take.until === carried.at);
  const takes = world.shift.steps
    .flatMap((one) => one.takes.map((take) => ({ by: one.id, ...take })))
    .filter((take) => take.by !== take.until || take.by === carried.at);
  const held =
    carried.gear === null
      ? takes.filter(holds)
      : carried.gear.map(
          (gear) =>
            takes.find((take) => take.gear === gear && holds(take)) ??
            takes.find((take) => take.gear === gear)!,
        );
  for (const take of held) {
    const item = world.items.find((one) => one.kind === take.gear && one.unit === null)!;
    item.unit = unit;
    unit.taken.push({ item, by: take.by, until: take.until });
  }
  unit.step = carried.at;
  if (state !== 'waiting' && state !== 'curing') {
    unit.place = step.uses.map((kind) => {
      const item = world.items.find((one) => one.kind === kind && one.unit === null)!;
      item.unit = unit;
      return item;
    });
  }
  putBack(world, unit, carried, state);
  if (unit.where === 'line' || unit.where === 'blocked' || unit.where === 'outside')
    unit.since = world.now - milliseconds(carried.waited);
}

function putBack(world: World, unit: Unit, carried: ResolvedCarried, state: ResolvedCarried['state']): void {
  const step = world.steps[carried.at]!;
  if (state === 'waiting') {
    if (step.id === unit.product.enters && (unit.visits[step.id] ?? 0) === 0) place(world, unit);
    else if (!standsAside(world, unit, step.id)) putInLine(world, unit, step.id);
  } else if (state === 'curing') {
    startWait(world, unit, step.id, carried.minutes === null ? null : milliseconds(carried.minutes));
  } else if (state === 'blocked') {
    unit.visits[step.id] = Math.max(1, unit.visits[step.id] ?? 1);
    putBlocked(world, unit, carried.to === null ? nextStep(world, unit.product, unit.step) : carried.to);
  } else {
    openPutDown(world, unit, carried, state);
  }
}

/** It moves in the first instant, after all that is carried over has its slot. */
function putBlocked(world: World, unit: Unit, to: string | null): void {
  if (to !== null) freeOnReturn(world, unit, to);
  if (to !== null && standsAside(world, unit, to)) return;
  if (to !== null && world.steps[to]!.kind === 'wait') {
    startWait(world, unit, to);
    return;
  }
  const inPlace = to !== null && world.steps[to]!.rack === 0;
  unit.where = inPlace ? 'line' : 'blocked';
  unit.to = to;
  if (!inPlace) return;
  unit.step = to;
  tell(world, `join ${unit.number} ${to}`);
}

/** In line; cured, in no slot. */
function putInLine(world: World, unit: Unit, step: string): void {
  const wait = world.shift.steps.find(
    (one) =>
      one.kind === 'wait' &&
      !unit.product.skips.includes(one.id) &&
      nextStep(world, unit.product, one.id) === step,
  );
  if (wait === undefined && world.steps[step]!.rack !== 0 && !hasSlot(world, step)) {
    unit.where = 'blocked';
    unit.to = step;
    return;
  }
  unit.where = 'line';
  unit.inSlot = wait === undefined && world.steps[step]!.rack !== 0;
  tell(world, `join ${unit.number} ${step}`);
}

function openPutDown(
  world: World,
  unit: Unit,
  carried: ResolvedCarried,
  state: 'in hand' | 'put down',
): void {
  const owner = world.workers.find((worker) => worker.person.id === carried.person);
  const factor = owner?.person.skills[carried.at]?.factor ?? 1;
  unit.left =
    state === 'put down' && carried.minutes !== null
      ? milliseconds(carried.minutes)
      : leftOf(world, unit, state === 'in hand' ? (carried.minutes ?? 0) : 0, factor);
  unit.visits[carried.at] = (unit.visits[carried.at] ?? 0) + 1;
  unit.where = 'put down';
  tell(world, `put down ${unit.number} ${carried.at}`);
  if (owner === undefined) return;
  unit.workers = [owner];
  owner.down = unit;
}

/** In a slot if there is one; before a rack of 0 it may still start at this instant. */
export function place(world: World, unit: Unit): void {
  if (standsAside(world, unit, unit.step)) return;
  const others = world.units.some((one) => one !== unit && one.where === 'outside' && one.step === unit.step);
  if (!others && hasSlot(world, unit.step)) enter(world, unit);
  if (
    unit.where !== 'outside' ||
    world.shift.intake.whenFull !== 'divert' ||
    world.steps[unit.step]!.rack === 0
  )
    return;
  unit.where = 'diverted';
  tell(world, `divert ${unit.number}`);
}

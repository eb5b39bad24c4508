/** A slow, plain reading of what a run means: the list of facts of a shift, to hold the engine's against. */
import { PURPOSE, replicationKey, seedKey } from '../../src/random/keys.ts';
import { uniform } from '../../src/random/threefry.ts';
import { type ResolvedShift, type ResolvedCarried } from '../../src/scenario/resolve.ts';
import { enter, findGear, freeOnReturn, hasSlot, occupy, standsAside, startWait } from './reference/flow.ts';
import { planDay, settle, stateOf } from './reference/people.ts';
import { freeSoonest } from './reference/outages.ts';
import { gearState, leftOf, starts } from './reference/starts.ts';
import {
  ARRIVALS,
  draw,
  fail,
  lengthOf,
  milliseconds,
  nextStep,
  plan,
  planFailure,
  RETURNS,
  tell,
  word,
  type Item,
  type Unit,
  type World,
} from './reference/world.ts';

/** More at one instant than any sound cell has. */
const MOST_AT_ONCE = 3000;
export class EndlessInstant extends Error {}

/** Facts as lines: "time what who …", in the order they came about. One shift; `seed` is the file's. */
export function referenceRun(shift: ResolvedShift, replication: number): string[] {
  const world = open(shift, replication);
  for (const back of shift.outRack?.away ?? [])
    plan(world, milliseconds(back), RETURNS, () => world.racksThere++);
  for (const kind of shift.gear) openGear(world, kind.id);
  openCarryOver(world);
  for (const worker of world.workers) planDay(world, worker);
  openIntake(world);
  plan(world, 0, 4, () => undefined);
  plan(world, lengthOf(world), 4, () => undefined);
  // Who stayed for one step alone may go once its last start has passed.
  for (const step of shift.steps)
    if (step.lastStart !== null) plan(world, milliseconds(step.lastStart) + 1, 4, () => undefined);
  const states = world.workers.map(() => 'not in');
  const gear = world.items.map(() => 'free');
  do {
    instant(world);
    world.workers.forEach((worker, i) => {
      const state = stateOf(world, worker);
      if (state !== states[i]) tell(world, `${worker.person.id} ${state}`);
      states[i] = state;
    });
    world.items.forEach((item, i) => {
      const state = gearState(item);
      if (state !== gear[i]) tell(world, `gear ${item.kind} ${item.number} ${state}`);
      gear[i] = state;
    });
  } while (world.now < lengthOf(world) || world.workers.some((worker) => worker.state === 'in'));
  tell(world, 'end');
  return world.facts;
}

function open(shift: ResolvedShift, replication: number): World {
  return {
    shift,
    steps: Object.fromEntries(shift.steps.map((step) => [step.id, step])),
    key0: seedKey(shift.seed),
    key1: replicationKey(replication),
    now: 0,
    orders: 0,
    happenings: [],
    units: [],
    items: shift.gear.flatMap((gear) =>
      Array.from({ length: gear.count }, (_, number): Item => ({
        kind: gear.id,
        number,
        unit: null,
        out: false,
        due: null,
        failures: 0,
        failed: false,
      })),
    ),
    workers: shift.people.map((person, number) => ({
      number,
      person,
      from: milliseconds(person.from),
      to: milliseconds(person.to),
      state: 'not in',
      cover: person.cover[0]!.steps,
      off: null,
      owed: [],
      piece: null,
      down: null,
      lastPiece: -Infinity,
      tidyUntil: null,
      inTime: false,
    })),
    good: 0,
    racksThere: shift.outRack === null ? 0 : shift.outRack.racks - shift.outRack.away.length,
    onRack: shift.outRack?.standing ?? 0,
    facts: [],
    onLeave: () => undefined,
  };
}

/** Everything of the instant, then moves and starts; what ends at once begins the order again. */
function instant(world: World): void {
  world.now = Math.min(...world.happenings.map((one) => one.time));
  let carriedOut = 0;
  const isDue = (): boolean => world.happenings.some((one) => one.time === world.now);
  do {
    while (isDue()) {
      const next = world.happenings
        .filter((one) => one.time === world.now)
        .sort((a, b) => a.rank - b.rank || a.order - b.order)[0]!;
      world.happenings = world.happenings.filter((one) => one !== next);
      if (++carriedOut > MOST_AT_ONCE) throw new EndlessInstant();
      next.act();
    }
    starts(world);
  } while (isDue());
  for (const unit of world.units) {
    if (unit.where !== 'outside' || world.shift.intake.whenFull !== 'divert') continue;
    unit.where = 'diverted';
    tell(world, `divert ${unit.number}`);
  }
  for (const worker of world.workers) settle(world, worker);
}

function openGear(world: World, kind: string): void {
  const gear = world.shift.gear.find((one) => one.id === kind)!;
  const items = world.items.filter((item) => item.kind === kind);
  for (const out of gear.out) {
    plan(world, milliseconds(out.from), RETURNS, () => {
      for (let taken = 0; taken < out.items; taken++) {
        const item = freeSoonest(world, items);
        if (item !== undefined) fail(world, item, milliseconds(out.minutes));
      }
    });
  }
  for (const item of items) planFailure(world, item);
}

function newUnit(
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

function arrive(
  world: World,
  product: string | null = null,
  given: Parameters<typeof newUnit>[2] = {},
): void {
  const { dueAfter } = world.shift.intake;
  const unit = newUnit(world, product, given);
  if (given.due === undefined && dueAfter !== null) unit.due = world.now + milliseconds(dueAfter);
  tell(world, `arrive ${unit.number} ${unit.product.id}`);
  place(world, unit);
}

/** In a slot if there is one; before a rack of 0 it may still start at this instant. */
function place(world: World, unit: Unit): void {
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

function openIntake(world: World): void {
  const { intake } = world.shift;
  const late = milliseconds(intake.late);
  const many = (
    time: number,
    units: number,
    product: string | null = null,
    given: Parameters<typeof newUnit>[2] = {},
  ): void => {
    plan(world, time, ARRIVALS, () => {
      for (let i = 0; i < units; i++) arrive(world, product, given);
    });
  };
  if (intake.kind === 'at start') many(late, intake.units);
  if (intake.kind === 'constant') {
    for (
      let missing = intake.inside - world.units.filter((unit) => unit.where !== 'diverted').length;
      missing > 0;
      missing--
    )
      many(late, 1);
    world.onLeave = () => many(world.now, 1);
  }
  if (intake.kind === 'list') {
    for (const one of intake.arrivals) many(milliseconds(one.at) + late, one.units, one.product, one);
  }
  if (intake.kind === 'beat') {
    const next = (k: number): void => {
      if (k >= (intake.units ?? Infinity)) return;
      plan(world, late + k * milliseconds(intake.every), ARRIVALS, () => {
        next(k + 1);
        arrive(world);
      });
    };
    next(0);
  }
  if (intake.kind === 'random') {
    const next = (k: number, after: number): void => {
      if (k >= (intake.units ?? Infinity)) return;
      const gap = milliseconds(draw(intake.gap, word(world, PURPOSE.GAP, world.units.length, 0, 0, false)));
      plan(world, after + gap, ARRIVALS, () => {
        arrive(world);
        next(k + 1, world.now);
      });
    };
    next(0, late);
  }
}

function openCarryOver(world: World): void {
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

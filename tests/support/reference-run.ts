/** A slow, plain reading of what a run means: the list of facts of a shift, to hold the engine's against. */
import { type ResolvedShift } from '../../src/scenario/resolve.ts';
import { PURPOSE, replicationKey, seedKey } from '../../src/random/keys.ts';
import { planDay, settle, stateOf } from './reference/people.ts';
import { freeSoonest } from './reference/outages.ts';
import { gearState, starts } from './reference/starts.ts';
import {
  ARRIVALS,
  draw,
  fail,
  lengthOf,
  milliseconds,
  plan,
  planFailure,
  RETURNS,
  tell,
  word,
  type Item,
  type World,
} from './reference/world.ts';
import { newUnit, openCarryOver, place } from './reference/carry-over.ts';

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

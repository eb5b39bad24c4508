/** Units on their way: ends of steps, lines, moves, deadlock. */
import { PURPOSE } from '../../../src/random/keys.ts';
import { uniform } from '../../../src/random/threefry.ts';
import {
  draw,
  duration,
  ENDS,
  free,
  milliseconds,
  nextStep,
  plan,
  RETURNS,
  stepNumber,
  tell,
  timeOf,
  visitsOf,
  word,
  type Item,
  type Taken,
  type Unit,
  type World,
} from './world.ts';

/** On, rework or scrap, and where to. `visit` is the one that ends. */
function outcomeOf(world: World, unit: Unit, visit: number): { kind: string; to: string | null } {
  const step = world.steps[unit.step]!;
  const luck = uniform(word(world, PURPOSE.TASK, unit.number, stepNumber(world, unit.step), visit, true));
  let sum = 0;
  for (const back of step.rework) {
    sum += back.share * (unit.doneBy[back.to] ?? 1);
    if (luck < sum) return { kind: `rework ${back.to}`, to: back.to };
  }
  if (luck < sum + step.scrap) return { kind: 'scrap', to: null };
  return { kind: 'on', to: nextStep(world, unit.product, unit.step) };
}

const place = (world: World, step: string): number => {
  // A step aside stands just before the one that follows it.
  const it = world.steps[step]!;
  return it.aside ? place(world, it.next!) - 0.5 : stepNumber(world, step);
};

function freeTaken(world: World, unit: Unit, which: (taken: Taken) => boolean): void {
  const freed = unit.taken.filter(which);
  unit.taken = unit.taken.filter((one) => !freed.includes(one));
  free(
    world,
    freed.map((one) => one.item),
  );
}

/** Going back to or before the taking step frees what was taken there. */
export const freeOnReturn = (world: World, unit: Unit, to: string): void =>
  freeTaken(world, unit, (one) => place(world, one.by) >= place(world, to));

/** The end of a hands or a wait step: outcome, gear that is freed, and where the unit wants to go. */
export function endStep(world: World, unit: Unit): void {
  const step = world.steps[unit.step]!;
  const outcome = outcomeOf(world, unit, visitsOf(unit, unit.step) - 1);
  tell(world, `${step.kind === 'hands' ? 'finish' : 'cured'} ${unit.number} ${step.id} ${outcome.kind}`);
  freeTaken(world, unit, (one) => one.until === step.id);
  if (outcome.to !== null) freeOnReturn(world, unit, outcome.to);
  if (outcome.kind === 'scrap') {
    free(world, [...unit.place, ...unit.taken.map((one) => one.item)]);
    unit.place = [];
    unit.taken = [];
    unit.where = 'scrap';
    tell(world, `scrap ${unit.number}`);
    world.onLeave();
    return;
  }
  goOn(world, unit, outcome.to);
}

/**
 * From the end of a step towards `to`: a wait begins at once, a hold stands it aside, after a wait it is in
 * line where it is.
 */
export function goOn(world: World, unit: Unit, to: string | null): void {
  const from = world.steps[unit.step]!;
  if (to !== null && world.steps[to]!.kind === 'wait') {
    startWait(world, unit, to);
    return;
  }
  unit.wantsPlace = to !== null && staysAfterWait(world, unit.step, to) ? unit.wantsPlace : null;
  if (to !== null && standsAside(world, unit, to)) return;
  block(world, unit, to, to !== null && staysAfterWait(world, from.id, to));
}

/**
 * After a wait a unit waits for the next step where it is; one that is sent back needs a slot like any other.
 */
const staysAfterWait = (world: World, from: string, to: string): boolean =>
  world.steps[from]!.kind === 'wait' && place(world, to) > place(world, from);

/** In line where it stands, or blocked until there is a slot. */
function block(world: World, unit: Unit, to: string | null, staysWhereItIs: boolean): void {
  unit.since = world.now;
  unit.order = world.orders++;
  if (to !== null && (staysWhereItIs || world.steps[to]!.rack === 0)) {
    unit.where = 'line';
    unit.step = to;
    unit.inSlot = false;
    tell(world, `join ${unit.number} ${to}`);
    return;
  }
  unit.where = 'blocked';
  unit.to = to;
  tryToMove(world, unit);
}

export function standsAside(world: World, unit: Unit, to: string): boolean {
  const holds = world.shift.holds.filter(
    (one) =>
      one.before === to &&
      world.now < milliseconds(one.until) &&
      (one.product === null || one.product === unit.product.id) &&
      (one.units === null || (unit.name !== null && one.units.includes(unit.name))),
  );
  if (holds.length === 0) return false;
  free(world, unit.place);
  unit.place = [];
  unit.where = 'aside';
  unit.wantsPlace = null;
  unit.step = to;
  unit.inSlot = false;
  tell(world, `aside ${unit.number} ${to}`);
  unit.planned = Math.max(...holds.map((hold) => milliseconds(hold.until)));
  plan(world, unit.planned, RETURNS, () => {
    tell(world, `release ${unit.number} ${to}`);
    block(world, unit, to, false);
  });
  return true;
}

export function startWait(world: World, unit: Unit, step: string, given: number | null = null): void {
  const onBench = !world.shift.steps.some(
    (one) => one.kind === 'wait' && one.uses.some((kind) => unit.place.some((item) => item.kind === kind)),
  );
  const base = draw(
    timeOf(world, unit, step),
    word(world, PURPOSE.TASK, unit.number, stepNumber(world, step), visitsOf(unit, step), false),
  );
  const takes = given ?? duration(world, unit, step, base, 1);
  unit.planned = world.now + takes;
  unit.step = step;
  unit.visits[step] = visitsOf(unit, step) + 1;
  unit.where = 'wait';
  unit.since = world.now;
  unit.order = world.orders++;
  const uses = world.steps[step]!.uses;
  unit.wantsPlace = uses.length > 0 ? step : null;
  unit.wantsSince = world.orders++;
  if (uses.length === 0 && onBench) {
    free(world, unit.place);
    unit.place = [];
  }
  const others = world.units.some((one) => one !== unit && one.wantsPlace !== null);
  if (unit.wantsPlace !== null && !others) tryToStandAside(world, unit);
  tell(world, `wait ${unit.number} ${step} ${takes}`);
  unit.end = plan(world, world.now + takes, ENDS, () => endStep(world, unit));
}

/** The line of a step, the next one first. */
export function lineOf(world: World, step: string): Unit[] {
  const byDue = world.steps[step]!.order === 'earliest due';
  return world.units
    .filter((unit) => unit.where === 'line' && unit.step === step)
    .sort(
      (a, b) =>
        Number(b.rush) - Number(a.rush) ||
        (byDue && a.due !== b.due ? a.due - b.due : 0) ||
        a.since - b.since ||
        a.number - b.number,
    );
}

export function hasSlot(world: World, step: string): boolean {
  const rack = world.steps[step]!.rack;
  return (
    rack === null ||
    world.units.filter((unit) => unit.where === 'line' && unit.step === step && unit.inSlot).length < rack
  );
}

export const oldest = (units: Unit[]): Unit[] =>
  [...units].sort((a, b) => a.since - b.since || a.order - b.order);

/** A free piece of each kind, or one the unit stands in already; null where one is missing. */
export function findGear(world: World, unit: Unit, kinds: string[]): Item[] | null {
  const found: Item[] = [];
  for (const kind of kinds) {
    const own = unit.place.find((item) => item.kind === kind && !found.includes(item));
    const other = world.items.find(
      (item) => item.kind === kind && item.unit === null && !item.out && !found.includes(item),
    );
    const item = own ?? other;
    if (item === undefined) return null;
    found.push(item);
  }
  return found;
}

/** The unit leaves where it stands for `items`. */
export function occupy(world: World, unit: Unit, items: Item[]): void {
  const left = unit.place.filter((item) => !items.includes(item));
  unit.place = items;
  for (const item of items) item.unit = unit;
  free(world, left);
}

/**
 * Moves of blocked units into slots, cured ones into their places, finished ones onto the out-rack, then held
 * arrivals.
 */
export function moves(world: World): void {
  for (const unit of oldest(world.units.filter((one) => one.where === 'blocked'))) tryToMove(world, unit);
  const wanting = world.units
    .filter((one) => one.wantsPlace !== null)
    .sort((a, b) => a.wantsSince - b.wantsSince);
  // One that leaves a place may free it for another.
  while (wanting.some((unit) => unit.wantsPlace !== null && tryToStandAside(world, unit)));
  for (const unit of outsideInOrder(world)) {
    if (unit.where === 'outside' && hasSlot(world, unit.product.enters)) enter(world, unit);
  }
  if (changePlaces(world)) moves(world);
}

/** Rush first, then first come. */
export const outsideInOrder = (world: World): Unit[] =>
  world.units
    .filter((unit) => unit.where === 'outside')
    .sort((a, b) => Number(b.rush) - Number(a.rush) || a.number - b.number);

export function enter(world: World, unit: Unit): void {
  unit.where = 'line';
  unit.step = unit.product.enters;
  unit.inSlot = world.steps[unit.step]!.rack !== 0;
  unit.since = world.now;
  tell(world, `join ${unit.number} ${unit.step}`);
}

function tryToStandAside(world: World, unit: Unit): boolean {
  const items = findGear(world, unit, world.steps[unit.wantsPlace!]!.uses);
  if (items === null) return false;
  occupy(world, unit, items);
  unit.wantsPlace = null;
  return true;
}

function tryToMove(world: World, unit: Unit): void {
  if (unit.to === null) putOnRack(world, unit);
  else if (hasSlot(world, unit.to)) intoRack(world, unit, unit.to);
}

function intoRack(world: World, unit: Unit, step: string): void {
  free(world, unit.place);
  unit.place = [];
  unit.since = world.now;
  tell(world, `join ${unit.number} ${step}`);
  unit.where = 'line';
  unit.step = step;
  unit.inSlot = true;
}

function putOnRack(world: World, unit: Unit): void {
  const outRack = world.shift.outRack;
  if (outRack !== null && world.racksThere === 0) return;
  free(world, [...unit.place, ...unit.taken.map((one) => one.item)]);
  unit.place = [];
  unit.taken = [];
  unit.where = 'good';
  if (!unit.product.returned) world.good++;
  tell(world, `${unit.product.returned ? 'out again' : 'good'} ${unit.number}`);
  world.onLeave();
  if (!unit.product.returned && world.good === world.shift.target) tell(world, 'target met');
  if (outRack === null || ++world.onRack < outRack.size) return;
  tell(world, 'rack sent');
  world.onRack = 0;
  world.racksThere--;
  plan(world, world.now + milliseconds(outRack.back), RETURNS, () => world.racksThere++);
}

/**
 * The step whose rack, gear or place a unit waits for while it stands on a bench or in a place; null where it
 * is in nobody's way.
 */
function wants(unit: Unit): string | null {
  if (unit.place.length === 0) return null;
  if (unit.where === 'blocked') return unit.to;
  if (unit.where === 'wait') return unit.wantsPlace;
  return unit.where === 'line' ? unit.step : null;
}

/**
 * Those of `stuck` that stand on all there is of some kind of gear that the unit's next step needs, blocked
 * longest first.
 */
function inTheWay(world: World, unit: Unit, stuck: Unit[]): Unit[] {
  const step = world.steps[wants(unit)!]!;
  for (const kind of [...step.uses, ...step.takes.map((take) => take.gear)]) {
    const items = world.items.filter((item) => item.kind === kind);
    const holders = items.map((item) =>
      item.unit !== null && item.unit.place.includes(item) ? item.unit : null,
    );
    // One in line may begin on the bench it has.
    const open = holders.some(
      (holder) => holder === null || !stuck.includes(holder) || (holder === unit && unit.where === 'line'),
    );
    if (items.length > 0 && !open) return holders as Unit[];
  }
  return [];
}

/** Deadlock: units that wait for each other in a circle change places; whether some did. */
function changePlaces(world: World): boolean {
  let stuck = world.units.filter((unit) => wants(unit) !== null);
  for (let before = -1; before !== stuck.length;) {
    before = stuck.length;
    const all = stuck;
    stuck = stuck.filter((unit) => inTheWay(world, unit, all).length > 0);
  }
  const chain: Unit[] = [];
  let unit = [...stuck].sort((a, b) => a.since - b.since || a.number - b.number)[0];
  while (unit !== undefined && !chain.includes(unit)) {
    chain.push(unit);
    unit = inTheWay(world, unit, stuck)[0];
  }
  if (unit === undefined) return false;
  const circle = chain.slice(chain.indexOf(unit)).sort((a, b) => a.since - b.since);
  tell(world, `change places ${circle.length}`);
  for (const one of circle) {
    if (one.where === 'blocked') {
      intoRack(world, one, one.to!);
    } else {
      free(world, one.place);
      one.place = [];
    }
  }
  return true;
}

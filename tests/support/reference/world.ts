/**
 * The things of the reference run: plain objects, looked through from end to end at every instant. It shares
 * no code with the engine but the time curves and the random words, so that two readings of the rules can be
 * held against each other.
 */
import { compileTime, sample } from '../../../src/duration/compile.ts';
import { counter, PURPOSE, type Purpose } from '../../../src/random/keys.ts';
import { threefry, words } from '../../../src/random/threefry.ts';
import type {
  ResolvedOff,
  ResolvedPerson,
  ResolvedProduct,
  ResolvedShift,
  ResolvedStep,
} from '../../../src/scenario/resolve.ts';
import type { Time } from '../../../src/duration/time.ts';

export const milliseconds = (minutes: number): number => Math.floor(minutes * 60_000 + 0.5);

/** What happens first at one instant. */
export const ENDS = 1;
export const RETURNS = 2;
export const ARRIVALS = 3;
export const PEOPLE = 4;

export interface Happening {
  time: number;
  rank: number;
  order: number;
  act: () => void;
}

export interface Item {
  kind: string;
  number: number;
  unit: Unit | null;
  out: boolean;
  /** A repair that begins when the unit in it leaves, ms. */
  due: number | null;
  failures: number;
  /** The next failure comes when this repair is over: it was not a planned one. */
  failed: boolean;
}

export interface Taken {
  item: Item;
  by: string;
  until: string;
}

export type Where =
  'outside' | 'line' | 'in hand' | 'put down' | 'wait' | 'blocked' | 'aside' | 'good' | 'scrap' | 'diverted';

export interface Unit {
  number: number;
  name: string | null;
  product: ResolvedProduct;
  arrived: number;
  due: number;
  rush: boolean;
  visits: Record<string, number>;
  /** Rework factor of whoever last did a step. */
  doneBy: Record<string, number>;
  where: Where;
  /** The step it is at, or waits for; blocked: the step it has ended. */
  step: string;
  /** Blocked: where to, null for the out-rack. */
  to: string | null;
  inSlot: boolean;
  since: number;
  order: number;
  place: Item[];
  taken: Taken[];
  /** Of a piece in hand or put down: who has it, its end, what is left. */
  workers: Worker[];
  end: Happening | null;
  left: number;
  /** Curing, or standing aside: until when. */
  planned: number;
  /** The wait for whose place it still stands at the bench of the step before. */
  wantsPlace: string | null;
  wantsSince: number;
  started: number | null;
}

export interface Worker {
  number: number;
  person: ResolvedPerson;
  from: number;
  to: number;
  state: 'not in' | 'in' | 'gone';
  cover: string[];
  off: { kind: 'break' | 'away'; until: number; back: Happening } | null;
  owed: ResolvedOff[];
  piece: Unit | null;
  down: Unit | null;
  lastPiece: number;
  tidyUntil: number | null;
  /** Overtime was to be had at their own end: tidying up follows the last piece. */
  inTime: boolean;
}

export interface World {
  shift: ResolvedShift;
  steps: Record<string, ResolvedStep>;
  key0: number;
  key1: number;
  now: number;
  orders: number;
  happenings: Happening[];
  units: Unit[];
  items: Item[];
  workers: Worker[];
  good: number;
  racksThere: number;
  onRack: number;
  facts: string[];
  /** Good or scrap: with a constant number inside the next one comes in. */
  onLeave: () => void;
}

export const lengthOf = (world: World): number => milliseconds(world.shift.length);

/** One fact: time in ms, what, and to whom. */
export function tell(world: World, text: string): void {
  world.facts.push(`${world.now} ${text}`);
}

export function plan(world: World, time: number, rank: number, act: () => void): Happening {
  const happening = { time, rank, order: world.orders++, act };
  world.happenings.push(happening);
  return happening;
}

export function cancel(world: World, happening: Happening | null): void {
  world.happenings = world.happenings.filter((one) => one !== happening);
}

/** First or second word of a draw. */
export function word(
  world: World,
  purpose: Purpose,
  item: number,
  step: number,
  visit: number,
  second: boolean,
): number {
  const first = threefry(world.key0, world.key1, item, counter(purpose, step, visit));
  return second ? words[1]! : first;
}

export const draw = (time: Time, random: number): number => sample(compileTime(time), random);

export const stepNumber = (world: World, step: string): number =>
  world.shift.steps.findIndex((one) => one.id === step);

/** Where a product goes after a step; null is the out-rack. */
export function nextStep(world: World, product: ResolvedProduct, step: string): string | null {
  let next = world.steps[step]!.next;
  while (next !== null && product.skips.includes(next)) next = world.steps[next]!.next;
  return next;
}

/**
 * The time of this visit of a unit: the product's own before the step's; a repeat has the step's repeat time
 * where there is one.
 */
export function timeOf(world: World, unit: Unit, step: string): Time {
  const { repeatTime } = world.steps[step]!;
  return visitsOf(unit, step) > 0 && repeatTime !== null ? repeatTime : unit.product.tasks[step]!.time;
}

export const visitsOf = (unit: Unit, step: string): number => unit.visits[step] ?? 0;

/** Base minutes to ms; `factor` is the person's, 1 for waits. */
export const duration = (world: World, unit: Unit, step: string, minutes: number, factor: number): number =>
  durationOf(world, unit.product, step, minutes, factor);

export function durationOf(
  world: World,
  product: ResolvedProduct,
  step: string,
  minutes: number,
  factor: number,
): number {
  const allowance = world.steps[step]!.kind === 'hands' ? world.shift.allowance : 1;
  return Math.floor(minutes * (60_000 * product.tasks[step]!.factor * allowance) * factor + 0.5);
}

/** Minutes reckoned with when asking whether a visit still fits. */
export function plannedMinutes(world: World, unit: Unit, step: string): number {
  const time = compileTime(timeOf(world, unit, step));
  const at = world.steps[step]!.plannedAt;
  return at === 'mean' ? time.mean : time.percentile(at);
}

/** The same for a first visit, of a unit that may not be there yet. */
export function plannedFirst(world: World, product: ResolvedProduct, step: string): number {
  const it = world.steps[step]!;
  const time = compileTime(product.tasks[step]!.time);
  return it.plannedAt === 'mean' ? time.mean : time.percentile(it.plannedAt);
}

export const isInside = (unit: Unit): boolean =>
  !['outside', 'good', 'scrap', 'diverted'].includes(unit.where);

export function free(world: World, items: Item[]): void {
  for (const item of items) {
    item.unit = null;
    const repair = item.due;
    item.due = null;
    if (repair !== null) outOfOrder(world, item, repair);
  }
}

export function outOfOrder(world: World, item: Item, repair: number): void {
  item.out = true;
  plan(world, world.now + repair, RETURNS, () => {
    item.out = false;
    if (item.failed) planFailure(world, item);
    item.failed = false;
  });
}

/** The next failure of a piece of gear, a time of its own after it was last put right. */
export function planFailure(world: World, item: Item): void {
  const gear = world.shift.gear.findIndex((one) => one.id === item.kind);
  const fails = world.shift.gear[gear]!.fails;
  if (fails === null || fails === undefined) return;
  const lasts = draw(fails.every, word(world, PURPOSE.GEAR_FAILURE, item.number, gear, item.failures, false));
  const repair = milliseconds(
    draw(fails.repair, word(world, PURPOSE.GEAR_FAILURE, item.number, gear, item.failures, true)),
  );
  item.failures++;
  plan(world, world.now + milliseconds(lasts), RETURNS, () => {
    if (item.out || item.due !== null) {
      planFailure(world, item);
      return;
    }
    item.failed = true;
    fail(world, item, repair);
  });
}

/** One repair at a time: what falls into one is mended with it. */
export function fail(world: World, item: Item, repair: number): void {
  if (item.out || item.due !== null) return;
  if (item.unit === null) outOfOrder(world, item, repair);
  else item.due = repair;
}

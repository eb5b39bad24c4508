/** Who begins what: free people asked in crew order. */
import { compileTime, sampleBeyond } from '../../../src/duration/compile.ts';
import { PURPOSE } from '../../../src/random/keys.ts';
import { endStep, findGear, lineOf, moves, occupy, outsideInOrder } from './flow.ts';
import { afterPiece, capOf, lastEnd, staysOn } from './people.ts';
import {
  draw,
  duration,
  ENDS,
  lengthOf,
  milliseconds,
  plan,
  plannedMinutes,
  stepNumber,
  tell,
  timeOf,
  visitsOf,
  word,
  type Item,
  type Unit,
  type Worker,
  type World,
} from './world.ts';

export const isFree = (worker: Worker): boolean =>
  worker.state === 'in' && worker.off === null && worker.piece === null;

const factorOf = (workers: Worker[], step: string): number =>
  Math.max(...workers.map((one) => one.person.skills[step]?.factor ?? 1));

/** Moves, then everybody in crew order; after every start again from the first. */
export function starts(world: World): void {
  do moves(world);
  while (world.workers.some((worker) => isFree(worker) && takesSomething(world, worker)));
}

function takesSomething(world: World, worker: Worker): boolean {
  if (worker.down !== null) return resumeOwn(world, worker);
  if (worker.tidyUntil !== null) return false;
  const able = worker.cover
    .map((step) => ({ step, unit: leftAt(world, step) ?? headOf(world, step) }))
    .map((one) => ({
      ...one,
      crew: one.unit === undefined ? null : crewFor(world, worker, one.step, one.unit),
    }))
    .filter((one) => one.crew !== null);
  const chosen =
    worker.person.rule === 'oldest' ? able.sort((a, b) => a.unit!.since - b.unit!.since)[0] : able[0];
  if (chosen === undefined) return false;
  if (chosen.unit!.where === 'put down') resume(world, chosen.unit!, chosen.crew!);
  else start(world, chosen.unit!, chosen.step, chosen.crew!);
  return true;
}

/** Their own piece, once all who have it in hand are there. */
function resumeOwn(world: World, worker: Worker): boolean {
  const unit = worker.down!;
  if (!unit.workers.every(isFree)) return false;
  resume(world, unit, unit.workers);
  return true;
}

/** A piece that somebody left for good comes before the line of its step. */
const leftAt = (world: World, step: string): Unit | undefined =>
  world.units
    .filter((one) => one.where === 'put down' && one.step === step && one.workers.length === 0)
    .sort((a, b) => a.order - b.order)[0];

export function resume(world: World, unit: Unit, crew: Worker[]): void {
  tell(world, `resume ${unit.number} ${unit.step} ${crew[0]!.person.id}`);
  takeInHand(world, unit, crew, unit.left);
}

/**
 * The worker, and for a piece that takes two the first other free person whom it fits; null where it cannot
 * be begun.
 */
function crewFor(world: World, worker: Worker, step: string, unit: Unit): Worker[] | null {
  if (unit.where !== 'put down' && gearFor(world, unit, step) === null) return null;
  const crews =
    world.steps[step]!.people === 1
      ? [[worker]]
      : world.workers
          .filter(
            (one) =>
              one !== worker &&
              isFree(one) &&
              one.down === null &&
              one.tidyUntil === null &&
              one.cover.includes(step),
          )
          .map((one) => [worker, one]);
  return (
    crews.find((crew) => crew.every((one) => mayBegin(world, one)) && canStart(world, unit, step, crew)) ??
    null
  );
}

const mayBegin = (world: World, worker: Worker): boolean =>
  staysOn(world, worker) ? world.now < capOf(world, worker) : world.now < worker.to && !tidies(world, worker);

/** The unit that could start next; before a rack of 0 an arrival held outside, if it would be first. */
function headOf(world: World, step: string): Unit | undefined {
  const head = lineOf(world, step).find((unit) => mayEnter(world, unit, step));
  if (world.steps[step]!.rack !== 0) return head;
  return (
    head ?? outsideInOrder(world).find((unit) => unit.product.enters === step && mayEnter(world, unit, step))
  );
}

/** Overtime until the cell is empty: after the end no unit enters its first step. */
const mayEnter = (world: World, unit: Unit, step: string): boolean =>
  !(
    world.shift.overtime.until === 'empty' &&
    world.now >= lengthOf(world) &&
    unit.product.enters === step &&
    visitsOf(unit, step) === 0
  );

function canStart(world: World, unit: Unit, step: string, crew: Worker[]): boolean {
  const it = world.steps[step]!;
  if (unit.where !== 'put down' && it.lastStart !== null && world.now > milliseconds(it.lastStart))
    return false;
  return fits(world, unit, step, crew);
}

function gearFor(world: World, unit: Unit, step: string): ReturnType<typeof findGear> {
  const it = world.steps[step]!;
  const toTake = it.takes.filter(
    (take) => !unit.taken.some((one) => one.item.kind === take.gear && one.until === take.until),
  );
  return findGear(world, unit, [...it.uses, ...toTake.map((take) => take.gear)]);
}

function fits(world: World, unit: Unit, step: string, crew: Worker[]): boolean {
  const end =
    world.now +
    (unit.where === 'put down'
      ? unit.left
      : duration(world, unit, step, plannedMinutes(world, unit, step), factorOf(crew, step)));
  return crew.every((one) => {
    const nextOff =
      one.person.offs.map((off) => milliseconds(off.from)).find((from) => from > world.now) ?? Infinity;
    const late = staysOn(world, one);
    // What is begun in overtime is over, tidying up included, by the cap.
    if (
      late &&
      world.now >= Math.max(0, one.to - milliseconds(world.shift.tidyUp)) &&
      end > lastEnd(world, one)
    )
      return false;
    return (
      !world.steps[step]!.whole ||
      (end <= nextOff && end <= (late ? Math.max(one.to, lastEnd(world, one)) : one.to))
    );
  });
}

/** No start from the tidy-up on, for those who do not stay on. */
const tidies = (world: World, worker: Worker): boolean =>
  world.shift.tidyUp > 0 &&
  !staysOn(world, worker) &&
  world.now >= worker.to - milliseconds(world.shift.tidyUp);

/** The first missing thing of the first step they cover. */
export function whyIdle(world: World, worker: Worker): string {
  const step = worker.cover[0];
  if (step === undefined) return 'covers nothing';
  const it = world.steps[step]!;
  const left = leftAt(world, step);
  const unit = left ?? headOf(world, step);
  if (unit === undefined) return 'no unit';
  if (left === undefined && gearFor(world, unit, step) === null) return missingGear(world, unit, step);
  return it.people === 2 && mayBegin(world, worker) && canStart(world, unit, step, [worker])
    ? 'no help'
    : 'no fit';
}

/** A bench with a piece on it that nobody works at is "nowhere to put it". */
function missingGear(world: World, unit: Unit, step: string): string {
  const it = world.steps[step]!;
  const uses = it.uses.find((kind) => findGear(world, unit, [kind]) === null);
  if (uses === undefined)
    return `no ${it.takes.find((take) => findGear(world, unit, [take.gear]) === null)?.gear ?? 'gear'}`;
  const stands = world.items.some(
    (item) =>
      item.kind === uses && item.unit !== null && ['blocked', 'line', 'wait'].includes(item.unit.where),
  );
  return stands ? 'nowhere' : `no ${uses}`;
}

/** What a piece of gear is doing. */
export function gearState(item: Item): string {
  const unit = item.unit;
  if (unit === null) return item.out ? 'out of order' : 'free';
  if (unit.where === 'in hand' || unit.where === 'wait') return `at ${unit.step}`;
  if (unit.where === 'put down') return `put down ${unit.step}`;
  return `before ${unit.where === 'blocked' ? (unit.to ?? 'out') : unit.step}`;
}

function start(world: World, unit: Unit, step: string, crew: Worker[]): void {
  const it = world.steps[step]!;
  const items = gearFor(world, unit, step)!;
  const visit = visitsOf(unit, step);
  const base = draw(
    timeOf(world, unit, step),
    word(world, PURPOSE.TASK, unit.number, stepNumber(world, step), visit, false),
  );
  const takes = duration(world, unit, step, base, factorOf(crew, step));
  const toTake = it.takes.filter(
    (take) => !unit.taken.some((one) => one.item.kind === take.gear && one.until === take.until),
  );
  occupy(world, unit, items.slice(0, it.uses.length));
  toTake.forEach((take, i) => {
    const item = items[it.uses.length + i]!;
    item.unit = unit;
    unit.taken.push({ item, by: step, until: take.until });
  });
  unit.inSlot = false;
  unit.wantsPlace = null;
  unit.visits[step] = visit + 1;
  unit.step = step;
  unit.started ??= world.now;
  tell(world, `start ${unit.number} ${step} ${crew.map((one) => one.person.id).join('+')} ${takes}`);
  takeInHand(world, unit, crew, takes);
}

function takeInHand(world: World, unit: Unit, crew: Worker[], takes: number): void {
  unit.where = 'in hand';
  unit.workers = crew;
  for (const one of crew) {
    one.piece = unit;
    one.down = null;
  }
  unit.end = plan(world, world.now + takes, ENDS, () => endPiece(world, unit));
}

function endPiece(world: World, unit: Unit): void {
  const crew = unit.workers;
  unit.workers = [];
  for (const one of crew) {
    one.piece = null;
    one.lastPiece = world.now;
  }
  unit.doneBy[unit.step] = crew[0]!.person.skills[unit.step]?.rework ?? 1;
  endStep(world, unit);
  for (const one of crew) afterPiece(world, one);
}

/** What is left of a piece begun the day before with `worked` minutes in it. */
export function leftOf(world: World, unit: Unit, worked: number, factor: number): number {
  const scale = 60_000 * unit.product.tasks[unit.step]!.factor * world.shift.allowance * factor;
  const random = word(
    world,
    PURPOSE.TASK,
    unit.number,
    stepNumber(world, unit.step),
    visitsOf(unit, unit.step),
    false,
  );
  const base = sampleBeyond(
    compileTime(timeOf(world, unit, unit.step)),
    random,
    milliseconds(worked) / scale,
  );
  return Math.max(0, duration(world, unit, unit.step, base, factor) - milliseconds(worked));
}

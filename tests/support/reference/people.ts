/** Comings, goings, breaks, times away, and who stays on. */
import { compileTime } from '../../../src/duration/compile.ts';
import { PURPOSE } from '../../../src/random/keys.ts';
import { uniform } from '../../../src/random/threefry.ts';
import type { ResolvedOff, ResolvedProduct } from '../../../src/scenario/resolve.ts';
import { isFree, resume, whyIdle } from './starts.ts';
import {
  ARRIVALS,
  cancel,
  draw,
  durationOf,
  isInside,
  milliseconds,
  nextStep,
  PEOPLE,
  plan,
  plannedFirst,
  tell,
  visitsOf,
  word,
  type Happening,
  type Unit,
  type Worker,
  type World,
} from './world.ts';

const MAIN_STATES = { 'not in': 'not in', gone: 'gone' } as const;

/** People's changes of one instant: in crew order, and those of one person in this order. */
const COVER = 0;
const OFF_END = 1;
const COME = 2;
const OWN_END = 3;
const OFF_START = 4;
const LAST = 5;
function planFor(world: World, worker: Worker, time: number, change: number, act: () => void): Happening {
  const happening = plan(world, time, PEOPLE, act);
  happening.order = worker.number * 10 + change;
  return happening;
}

/**
 * Plans a person's day: comes or not, late or not, breaks, cover, own end, and the last moment of overtime.
 */
export function planDay(world: World, worker: Worker): void {
  const { person, number } = worker;
  const comes = uniform(word(world, PURPOSE.ATTENDANCE, number, 0, 0, false)) < person.chance;
  const isLate = uniform(word(world, PURPOSE.ATTENDANCE, number, 0, 0, true)) < person.lateChance;
  const late =
    isLate && person.late !== null
      ? milliseconds(draw(person.late, word(world, PURPOSE.LATENESS, number, 0, 0, false)))
      : 0;
  const from = worker.from + late;
  if (!comes || from >= worker.to) {
    leaveDown(world, worker);
  } else {
    planFor(world, worker, from, COME, () => come(world, worker));
  }
  planFor(world, worker, worker.from, LAST, () => undefined);
  for (const off of person.offs)
    planFor(world, worker, milliseconds(off.from), OFF_START, () => offDue(world, worker, off));
  for (const change of person.cover.slice(1))
    planFor(world, worker, milliseconds(change.from), COVER, () => (worker.cover = change.steps));
  planFor(world, worker, worker.to, OWN_END, () => ownEnd(world, worker));
  if (world.shift.tidyUp > 0)
    planFor(world, worker, Math.max(0, worker.to - milliseconds(world.shift.tidyUp)), LAST, () => undefined);
}

const endOfOff = (off: ResolvedOff): number => milliseconds(off.from) + milliseconds(off.minutes);

function come(world: World, worker: Worker): void {
  worker.state = 'in';
  const off = worker.person.offs.find(
    (one) => milliseconds(one.from) < world.now && world.now < endOfOff(one),
  );
  if (off !== undefined) beginOff(world, worker, off.kind, endOfOff(off));
  else takeUpOwn(world, worker);
}

/** Their own piece before anything else, once all who have it in hand are there. */
function takeUpOwn(world: World, worker: Worker): void {
  const unit = worker.down;
  if (worker.off === null && unit !== null && unit.workers.every(isFree)) resume(world, unit, unit.workers);
}

function offDue(world: World, worker: Worker, off: ResolvedOff): void {
  // Nobody interrupts their last piece for a break after their end.
  if (worker.state !== 'in' || worker.tidyUntil !== null || (world.now >= worker.to && !worker.inTime))
    return;
  if (worker.off !== null || (worker.piece !== null && world.steps[worker.piece.step]!.whole)) {
    worker.owed.push(off);
    return;
  }
  if (worker.piece !== null) {
    const unit = worker.piece;
    putDown(world, unit);
    // A partner who only stayed to finish it does not wait for the end of a break.
    if (
      unit.workers.some(
        (one) =>
          one !== worker && world.now >= one.to && !(staysOn(world, one) && world.now < capOf(world, one)),
      )
    )
      leaveDown(world, worker);
  }
  beginOff(world, worker, off.kind, endOfOff(off));
}

/** The piece stays where it is; everybody at it waits for the one who is off. */
function putDown(world: World, unit: Unit): void {
  cancel(world, unit.end);
  unit.left = unit.end!.time - world.now;
  unit.where = 'put down';
  unit.since = world.now;
  tell(world, `put down ${unit.number} ${unit.step}`);
  for (const one of unit.workers) {
    one.piece = null;
    one.down = unit;
    one.lastPiece = world.now;
  }
}

function beginOff(world: World, worker: Worker, kind: 'break' | 'away', until: number): void {
  const back = planFor(world, worker, until, OFF_END, () => {
    worker.off = null;
    takeOwed(world, worker);
    takeUpOwn(world, worker);
  });
  worker.off = { kind, until, back };
}

/** A break owed is taken in full; a time away ends when it was to end. */
function takeOwed(world: World, worker: Worker): void {
  while (worker.owed.length > 0) {
    const off = worker.owed.shift()!;
    const until = off.kind === 'break' ? world.now + milliseconds(off.minutes) : endOfOff(off);
    if (until <= world.now) continue;
    beginOff(world, worker, off.kind, until);
    return;
  }
}

export function afterPiece(world: World, worker: Worker): void {
  takeOwed(world, worker);
}

/**
 * Their own end: what is owed lapses; a piece that is put down is left to others, one in hand as the shift
 * says.
 */
function ownEnd(world: World, worker: Worker): void {
  if (worker.state !== 'in') return;
  worker.inTime = staysOn(world, worker);
  if (worker.off !== null) stopOff(world, worker);
  else leaveOwed(world, worker);
  if (worker.state !== 'in') return;
  leaveDown(world, worker);
  if (worker.inTime) planFor(world, worker, capOf(world, worker), LAST, () => closeDay(world, worker));
  else closeDay(world, worker);
}

/** On a break at their end: they go, and a piece they put down is nobody's. */
function stopOff(world: World, worker: Worker): void {
  leaveOwed(world, worker);
  leaveDown(world, worker);
  cancel(world, worker.off!.back);
  goHome(worker);
}

/** What is owed at the end lapses, the rest of a break under way too. */
function leaveOwed(world: World, worker: Worker): void {
  const owed = worker.owed
    .filter((off) => off.kind === 'break')
    .reduce((sum, off) => sum + milliseconds(off.minutes), 0);
  const lapsed = owed + (worker.off?.kind === 'break' ? worker.off.until - world.now : 0);
  if (lapsed > 0) tell(world, `lapsed ${worker.person.id} ${lapsed}`);
  worker.owed = [];
}

/** The last moment of a person's day, at their own end or at the cap of the overtime. */
function closeDay(world: World, worker: Worker): void {
  if (worker.state === 'in' && worker.off !== null) stopOff(world, worker);
  if (worker.state === 'in') leaveDown(world, worker);
  const piece = worker.piece;
  if (
    worker.state !== 'in' ||
    piece === null ||
    world.steps[piece.step]!.whole ||
    world.shift.atEnd === 'finish'
  )
    return;
  putDown(world, piece);
  leaveDown(world, worker);
}

function goHome(worker: Worker): void {
  worker.state = 'gone';
  worker.off = null;
}

/** A piece that its person will not take up again is nobody's. */
function leaveDown(world: World, worker: Worker): void {
  const unit = worker.down;
  if (unit === null) return;
  unit.order = world.orders++;
  for (const one of unit.workers) one.down = null;
  unit.workers = [];
}

/** Whether the overtime policy keeps this person now. */
export function staysOn(world: World, worker: Worker): boolean {
  const { until, who } = world.shift.overtime;
  if (
    until === 'none' ||
    world.shift.overtime.cap === 0 ||
    !worker.person.overtime ||
    !(who === null || who.includes(worker.person.id))
  )
    return false;
  return until === 'empty' || world.good < (world.shift.target ?? Infinity);
}

/** The last moment a whole piece may end: own end, or the cap of the overtime. */
export const capOf = (world: World, worker: Worker): number =>
  worker.to + (staysOn(world, worker) ? milliseconds(world.shift.overtime.cap) : 0);

/**
 * At the close of an instant: those past their own end with nothing in hand tidy up and go, unless something
 * can still reach them.
 */
export function settle(world: World, worker: Worker): void {
  if (worker.state !== 'in' || world.now < worker.to || worker.piece !== null || worker.off !== null) return;
  if (worker.tidyUntil !== null) return;
  if (world.now < capOf(world, worker) && (worker.down !== null || canBeReached(world, worker))) return;
  if (worker.down !== null) {
    leaveDown(world, worker);
    plan(world, world.now, PEOPLE, () => undefined);
  }
  const until = worker.inTime ? worker.lastPiece + milliseconds(world.shift.tidyUp) : world.now;
  if (until <= world.now) {
    goHome(worker);
    return;
  }
  worker.tidyUntil = until;
  planFor(world, worker, until, LAST, () => goHome(worker));
}

function canBeReached(world: World, worker: Worker): boolean {
  if (!staysOn(world, worker)) return false;
  const next = Math.min(...world.happenings.filter((one) => one.rank === ARRIVALS).map((one) => one.time));
  const fromOutside =
    world.shift.overtime.until === 'target' && next < Infinity && world.shift.intake.kind !== 'constant';
  return (
    world.units.some((unit) => reaches(world, unit, worker)) ||
    (fromOutside &&
      world.shift.products.some((product) => reachesFrom(world, product, product.enters, next, worker)))
  );
}

/** Forward only: where the unit can be from when on. */
function reaches(world: World, unit: Unit, worker: Worker): boolean {
  const empty = world.shift.overtime.until === 'empty';
  const outside = unit.where === 'outside';
  if (!isInside(unit) && (!outside || empty)) return false;
  if (empty && unit.where === 'line' && unit.step === unit.product.enters && visitsOf(unit, unit.step) === 0)
    return false;
  const time = unit.where === 'wait' || unit.where === 'aside' ? unit.planned : world.now;
  let step: string | null = outside ? unit.product.enters : unit.where === 'blocked' ? unit.to : unit.step;
  if (unit.where === 'in hand' || unit.where === 'wait') step = nextStep(world, unit.product, unit.step);
  return reachesFrom(world, unit.product, step, time, worker);
}

/** Waits by their planned time, others' work by its mean; their own piece must end in time before the cap. */
function reachesFrom(
  world: World,
  product: ResolvedProduct,
  from: string | null,
  when: number,
  worker: Worker,
): boolean {
  let time = when;
  for (let step = from; step !== null; step = nextStep(world, product, step)) {
    const it = world.steps[step]!;
    if (time >= capOf(world, worker)) return false;
    const minutes = plannedFirst(world, product, step);
    if (it.kind === 'wait') {
      time += durationOf(world, product, step, minutes, 1);
      continue;
    }
    const work = durationOf(world, product, step, compileTime(product.tasks[step]!.time).mean, 1);
    const own = durationOf(world, product, step, minutes, worker.person.skills[step]?.factor ?? 1);
    const open = it.lastStart === null || time <= milliseconds(it.lastStart);
    if (worker.cover.includes(step) && open && time + own <= lastEnd(world, worker)) return true;
    time += work;
  }
  return false;
}

/** When the last piece of their overtime has to be over, so that tidying up is by the cap. */
export const lastEnd = (world: World, worker: Worker): number =>
  capOf(world, worker) - milliseconds(world.shift.tidyUp);

/** What a person is doing, in a word. */
export function stateOf(world: World, worker: Worker): string {
  if (worker.state !== 'in') return MAIN_STATES[worker.state];
  if (worker.off !== null) return worker.off.kind;
  if (worker.piece !== null) return `at ${worker.piece.step}`;
  if (worker.down !== null) return 'waits for partner';
  const tidying =
    worker.tidyUntil !== null ||
    (world.shift.tidyUp > 0 &&
      !staysOn(world, worker) &&
      world.now >= worker.to - milliseconds(world.shift.tidyUp));
  return tidying ? 'tidies' : whyIdle(world, worker);
}

/** Comings, goings, breaks, times away, and who stays on. */
import { PURPOSE } from '../../../src/engine/random/keys.ts';
import { uniform } from '../../../src/engine/random/threefry.ts';
import type { ResolvedOff } from '../../../src/scenario/resolve.ts';
import {
  cancel, draw, duration, isInside, milliseconds, nextStep, PEOPLE, plan, plannedMinutes, tell, visitsOf, word,
  type Unit, type Worker, type World,
} from './world.ts';

const MAIN_STATES = { 'not in': 'not in', gone: 'gone' } as const;

/** Plans a person's day: comes or not, late or not, breaks, cover, own end, and the last moment of overtime. */
export function planDay(world: World, worker: Worker): void {
  const { person, number } = worker;
  const comes = uniform(word(world, PURPOSE.ATTENDANCE, number, 0, 0, false)) < person.chance;
  const isLate = uniform(word(world, PURPOSE.ATTENDANCE, number, 0, 0, true)) < person.lateChance;
  const late = isLate && person.late !== null ? milliseconds(draw(person.late, word(world, PURPOSE.LATENESS, number, 0, 0, false))) : 0;
  const from = worker.from + late;
  if (!comes || from >= worker.to) return;
  plan(world, from, PEOPLE, () => come(world, worker));
  for (const off of person.offs) plan(world, milliseconds(off.from), PEOPLE, () => offDue(world, worker, off));
  for (const change of person.cover.slice(1)) plan(world, milliseconds(change.from), PEOPLE, () => (worker.cover = change.steps));
  plan(world, worker.to, PEOPLE, () => ownEnd(world, worker));
}

const endOfOff = (off: ResolvedOff): number => milliseconds(off.from) + milliseconds(off.minutes);

function come(world: World, worker: Worker): void {
  worker.state = 'in';
  const off = worker.person.offs.find((one) => milliseconds(one.from) < world.now && world.now < endOfOff(one));
  if (off !== undefined) beginOff(world, worker, off.kind, endOfOff(off));
}

function offDue(world: World, worker: Worker, off: ResolvedOff): void {
  if (worker.state !== 'in') return;
  if (worker.off !== null || (worker.piece !== null && world.steps[worker.piece.step]!.whole)) {
    worker.owed.push(off);
    return;
  }
  if (worker.piece !== null) putDown(world, worker.piece);
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
  worker.off = { kind, until };
  plan(world, until, PEOPLE, () => {
    if (worker.state !== 'in') return;
    worker.off = null;
    takeOwed(world, worker);
  });
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
  if (world.now >= worker.to && !staysOn(world, worker)) goHome(world, worker);
  else takeOwed(world, worker);
}

function ownEnd(world: World, worker: Worker): void {
  if (worker.state !== 'in') return;
  if (worker.off !== null) goHome(world, worker);
  else if (staysOn(world, worker)) plan(world, capOf(world, worker), PEOPLE, () => closeDay(world, worker));
  else closeDay(world, worker);
}

/** The end of a person's day: pieces in hand are finished or put down, as the shift says. */
function closeDay(world: World, worker: Worker): void {
  if (worker.state !== 'in') return;
  const piece = worker.piece;
  if (piece !== null && (world.steps[piece.step]!.whole || world.shift.atEnd === 'finish')) return;
  if (piece !== null) putDown(world, piece);
  goHome(world, worker);
}

export function goHome(world: World, worker: Worker): void {
  worker.state = 'gone';
  worker.off = null;
  const lapsed = worker.owed.filter((off) => off.kind === 'break').reduce((sum, off) => sum + milliseconds(off.minutes), 0);
  if (lapsed > 0) tell(world, `lapsed ${worker.person.id} ${lapsed}`);
  worker.owed = [];
  if (worker.down === null) return;
  const unit = worker.down;
  for (const one of unit.workers) one.down = null;
  unit.workers = [];
}

/** Whether the overtime policy keeps this person now. */
export function staysOn(world: World, worker: Worker): boolean {
  const { until, who } = world.shift.overtime;
  if (until === 'none' || !worker.person.overtime || !(who === null || who.includes(worker.person.id))) return false;
  return until === 'empty' || world.good < (world.shift.target ?? Infinity);
}

/** The last moment a whole piece may end: own end, or the cap of the overtime. */
export const capOf = (world: World, worker: Worker): number =>
  worker.to + (staysOn(world, worker) ? milliseconds(world.shift.overtime.cap) : 0);

/** At the close of an instant: those past their own end with nothing in hand tidy up and go, unless something can still reach them. */
export function settle(world: World, worker: Worker): void {
  if (worker.state !== 'in' || world.now < worker.to || worker.piece !== null || worker.off !== null) return;
  if (worker.tidyUntil !== null) return;
  if (world.now < capOf(world, worker) && (worker.down !== null || canBeReached(world, worker))) return;
  const stayed = world.shift.overtime.until !== 'none' && worker.person.overtime && (world.shift.overtime.who?.includes(worker.person.id) ?? true);
  const until = stayed && staysOn(world, worker) ? worker.lastPiece + milliseconds(world.shift.tidyUp) : world.now;
  if (until <= world.now) {
    goHome(world, worker);
    return;
  }
  worker.tidyUntil = until;
  plan(world, until, PEOPLE, () => goHome(world, worker));
}

function canBeReached(world: World, worker: Worker): boolean {
  return staysOn(world, worker) && world.units.some((unit) => reaches(world, unit, worker));
}

/** Forward only; waits by their planned time, hands steps as if done at once. */
function reaches(world: World, unit: Unit, worker: Worker): boolean {
  const empty = world.shift.overtime.until === 'empty';
  if (!isInside(unit) && !(unit.where === 'outside' && !empty)) return false;
  const atEntry = unit.where === 'outside' || (unit.step === unit.product.enters && visitsOf(unit, unit.step) === 0);
  if (empty && atEntry) return false;
  let time = world.now;
  let step: string | null = unit.where === 'outside' ? unit.product.enters : unit.where === 'blocked' ? unit.to : unit.step;
  if (unit.where === 'in hand' || (unit.where === 'put down' && unit.workers.length > 0)) step = nextStep(world, unit.product, unit.step);
  if (unit.where === 'wait') {
    time = Math.max(time, unit.planned);
    step = nextStep(world, unit.product, unit.step);
  }
  for (; step !== null; step = nextStep(world, unit.product, step)) {
    const it = world.steps[step]!;
    if (it.kind === 'wait') {
      time += duration(world, unit, step, plannedMinutes(world, unit, step), 1);
      continue;
    }
    if (!worker.cover.includes(step)) continue;
    const ends = it.whole ? time + duration(world, unit, step, plannedMinutes(world, unit, step), worker.person.skills[step]?.factor ?? 1) : time + 1;
    if (ends <= capOf(world, worker)) return true;
  }
  return false;
}

/** What a person is doing, in a word. */
export function stateOf(world: World, worker: Worker): string {
  if (worker.state !== 'in') return MAIN_STATES[worker.state];
  if (worker.off !== null) return worker.off.kind;
  if (worker.piece !== null) return `at ${worker.piece.step}`;
  if (worker.down !== null) return 'waits for partner';
  const tidying = worker.tidyUntil !== null || (world.shift.tidyUp > 0 && !staysOn(world, worker) && world.now >= worker.to - milliseconds(world.shift.tidyUp));
  return tidying ? 'tidies' : 'idle';
}

/**
 * One run by the three-phase method: the clock goes to the next instant, its bound events are carried out in
 * the order of their ranks, then what has become possible (moves and starts) is begun. The shifts of a day
 * follow each other.
 */
import { type Person, type GearItem, LEFT, OFF } from './resources.ts';
import { endStep, release } from './flow.ts';
import { gearBack, gearFails } from './gear.ts';
import { takeOutOfOrder } from './outages.ts';
import { tellIdle } from './idle.ts';
import { arrival, divertLeft, openIntake } from './intake.ts';
import { enterShift, openShift } from './opening.ts';
import { leave, settleEnded } from './overtime.ts';
import { carryOn } from './overnight.ts';
import { capReached, come, drawAttendance, endHands, offEnds, offStarts, ownEnd } from './people.ts';
import type { List } from './platform.ts';
import {
  ARRIVAL,
  CAP,
  COME,
  COVER,
  END_HANDS,
  END_WAIT,
  GEAR_BACK,
  GEAR_FAILS,
  GO,
  LEAVE,
  OFF_END,
  OFF_START,
  OUTAGE,
  RACK_BACK,
  RELEASE,
} from './ranks.ts';
import { tellReasons } from './reasons.ts';
import { starts } from './starts.ts';
import { type CellState, OVERTIME_EMPTY, type Shift } from './state.ts';

/** How a run ended. */
export const DONE: i32 = 0;
/** Units go round, or keep arriving, without any time passing. */
export const RUNS_AWAY: i32 = 1;
/** More events than any shift has. */
export const NEVER_ENDS: i32 = 2;
/** A shift begins with fewer pieces of gear than the units that stand over hold. */
export const TOO_FEW: i32 = 3;

/** Most events of one instant: this many, or a hundred for every unit there is. */
const MOST_AT_ONCE: i32 = 100000;
const MOST_EVENTS: i32 = 500000000;

export class Day {
  readonly state: CellState;
  readonly shifts: List<Shift>;
  private entered: i32 = -1;
  private events: i32 = 0;

  constructor(state: CellState, shifts: List<Shift>) {
    this.state = state;
    this.shifts = shifts;
  }

  /** One replication: `key` is the number itself, as a signed word. Tells how it ended. */
  run(key: i32): i32 {
    const state = this.state;
    state.key1 = key;
    state.tooFew = null;
    for (let index = 0; index < this.shifts.length; index++) {
      const shift = this.shifts[index]!;
      if (this.entered !== index) enterShift(state, shift);
      this.entered = index;
      state.recorder = shift.recorder;
      state.shiftNumber = index;
      if (index > 0) {
        carryOn(state, shift, this.shifts[index - 1]!.outRacks);
        if (state.tooFew !== null) return TOO_FEW;
      }
      const ended = this.runShift(index === 0);
      if (ended !== DONE) return ended;
    }
    return DONE;
  }

  /** What the file says of a step is another number now. */
  changed(): void {
    this.entered = -1;
  }

  private runShift(first: boolean): i32 {
    const state = this.state;
    state.recorder.begin();
    openShift(state, first);
    drawAttendance(state);
    openIntake(state);
    this.events = 0;
    do {
      if (!this.instant()) return RUNS_AWAY;
      if (this.events > MOST_EVENTS) return NEVER_ENDS;
    } while (state.now < state.shift.length || state.present > 0);
    state.recorder.end(state.now, state.inside, state.outside.length);
    return DONE;
  }

  /** Everything of the next instant. False where it never ends. */
  private instant(): boolean {
    const state = this.state;
    const shift = state.shift;
    const planned = state.events.nextTime();
    const now = planned < state.calendarDue ? planned : state.calendarDue;
    const over = now >= shift.length;
    const before = this.events;
    state.now = now;
    state.happened = false;
    if (over) state.nothingNew = shift.overtime === OVERTIME_EMPTY;
    do {
      if (!this.carryOut(now, before)) return false;
      // Only ends of pieces that have been put down since: nothing happens at this time.
      if (!state.happened) return true;
      starts(state);
    } while (state.events.nextTime() === now);
    if (state.outside.length > 0 && shift.divert) divertLeft(state);
    if (over || state.anyEnded) settleEnded(state);
    tellIdle(state);
    tellReasons(state);
    return true;
  }

  /** All bound events of this instant, by rank, of which there is one at least. */
  private carryOut(now: number, before: i32): boolean {
    const state = this.state;
    const events = state.events;
    do {
      this.events++;
      if (this.events - before > MOST_AT_ONCE && this.runsAway(before)) return false;
      const isFixed = state.calendarDue === now;
      if (
        isFixed &&
        (events.nextTime() !== now || state.shift.calendar[state.calendarAt]!.order < events.nextOrder())
      ) {
        carryOutFixed(state);
      } else {
        events.take();
        carryOutPlanned(state, events.kind, events.a, events.b);
      }
    } while (events.nextTime() === now || state.calendarDue === now);
    return true;
  }

  private runsAway(before: i32): boolean {
    const state = this.state;
    const units: i32 = state.inside + state.outside.length + state.shift.listed.length;
    return this.events - before > 100 * units;
  }
}

function carryOutFixed(state: CellState): void {
  const entry = state.shift.calendar[state.calendarAt]!;
  const person: Person | null = state.people.length > 0 ? state.people[entry.person]! : null;
  const kind = entry.kind;
  state.toCalendar(state.calendarAt + 1);
  state.happened = true;
  if (person === null) return;
  if (kind === COVER) {
    person.coverNow(person.covers[entry.detail]!);
  } else if (kind === COME) {
    if (person.comes) come(state, person);
  } else if (kind === OFF_START) {
    offStarts(state, person, entry.detail);
  } else if (kind === GO) {
    state.anyEnded = true;
    if (person.at !== LEFT) ownEnd(state, person);
  }
}

/** An event planned for a piece that was put down since, or for a time off that ended before, is void. */
function carryOutPlanned(state: CellState, kind: i32, a: i32, b: i32): void {
  if (kind === END_HANDS || kind === END_WAIT || kind === RELEASE) {
    const unit = state.units.at(a);
    if (unit.token !== b) return;
    state.happened = true;
    if (kind === END_HANDS) endHands(state, unit);
    else if (kind === END_WAIT) endStep(state, unit, unit.step!);
    else release(state, unit);
    return;
  }
  if (kind === OFF_END) {
    const person = state.people[a]!;
    if (person.at !== OFF || person.offToken !== b) return;
    state.happened = true;
    offEnds(state, person);
    return;
  }
  state.happened = true;
  if (kind === ARRIVAL) arrival(state);
  else if (kind === RACK_BACK) state.outRackHere++;
  else if (kind === GEAR_FAILS) gearFails(state, itemAt(state, a));
  else if (kind === OUTAGE) takeOutOfOrder(state, state.shift.outages[a]!);
  else if (kind === GEAR_BACK) gearBack(state, itemAt(state, a));
  else if (kind === COME) come(state, personAt(state, a));
  else if (kind === LEAVE) leave(state, personAt(state, a));
  else if (kind === CAP) capReached(state, personAt(state, a));
}

function itemAt(state: CellState, index: i32): GearItem {
  return state.items[index]!;
}

function personAt(state: CellState, index: i32): Person {
  return state.people[index]!;
}

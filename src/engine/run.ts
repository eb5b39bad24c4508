/** One run: the shifts of a day one after another, for one replication. */
import { openShift, carryOn } from './carry.ts';
import { endWait, release } from './flow.ts';
import { gearBack, gearFails } from './gear.ts';
import { tellIdle } from './idle.ts';
import { arrival, divertLeft, openIntake } from './intake.ts';
import { leave, settleEnded } from './overtime.ts';
import { capReached, come, drawAttendance, endHands, offEnds, offStarts, ownEnd } from './people.ts';
import { replicationKey, seedKey } from '../random/keys.ts';
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
  RACK_BACK,
  RELEASE,
} from './ranks.ts';
import type { Recorder } from './recorder.ts';
import { starts } from './starts.ts';
import { LEFT, OFF, type CellState, type Person, type ShiftThings } from './state.ts';
import { OVERTIME_EMPTY, type CompiledCell } from './tables.ts';
import { makeShift, makeState } from './make-state.ts';
import { settersOf } from './vary.ts';
import type { InputPlace } from '../scenario/inputs.ts';

/**
 * A scenario that never gets on: units go round without time passing, or there are more events than any shift
 * has.
 */
export class RunawayError extends Error {
  override name = 'RunawayError';
}

/** Most events of one instant: this many, or a hundred for every unit there is. */
const MOST_AT_ONCE = 100_000;
const MOST_EVENTS = 500_000_000;

/** Runs replications of a day. Its memory is used again from one to the next. */
export class CellRun {
  private readonly state: CellState;
  private readonly shifts: ShiftThings[];
  private entered: ShiftThings | null = null;
  private readonly seedKey: number;

  /** Shifts of one day or more, in order, compiled; at least one. */
  constructor(cells: CompiledCell[]) {
    this.state = makeState(cells);
    this.shifts = cells.map((cell) => makeShift(this.state, cell));
    this.seedKey = seedKey(cells[0]!.shift.seed);
  }

  /**
   * What sets the given inputs of every shift, each to so many times what the file has, until it is set
   * again: a time by its mean, a share or an attendance by its odds.
   */
  vary(places: readonly InputPlace[]): (factors: ArrayLike<number>, offset: number) => void {
    const sets = places.map((place) => this.shifts.flatMap((shift) => settersOf(shift, place)));
    return (factors, offset) => {
      sets.forEach((set, i) => set.forEach((one) => one(factors[offset + i]!)));
      // Steps are told anew what their shift says of them.
      this.entered = null;
    };
  }

  /** One replication, 0 to 2^32 - 1. The recorder of shift k is `recorders[k]`. Throws RunawayError. */
  run(replication: number, recorders: Recorder[]): void {
    const state = this.state;
    state.key0 = this.seedKey;
    state.key1 = replicationKey(replication);
    state.replication = replication;
    for (let shift = 0; shift < this.shifts.length; shift++) {
      const before = state.cell;
      this.enter(this.shifts[shift]!);
      state.recorder = recorders[shift]!;
      state.shiftNumber = shift;
      if (shift > 0) carryOn(state, before, state.cell);
      runShift(state, shift === 0);
    }
  }

  private enter(shift: ShiftThings): void {
    if (this.entered === shift) return;
    const { state } = this;
    state.cell = shift.cell;
    state.people = shift.people;
    state.kinds = shift.kinds;
    state.listed = shift.listed;
    state.circlesPossible = shift.circlesPossible;
    state.hasHolds = shift.cell.holds.count > 0;
    shift.enter();
    this.entered = shift;
  }
}

const runShift = (state: CellState, first: boolean): void => {
  const { cell } = state;
  state.recorder.begin(state.replication, state.shiftNumber);
  openShift(state, first);
  drawAttendance(state);
  openIntake(state);
  let events = 0;
  do {
    events += instant(state);
    if (events > MOST_EVENTS)
      throw new RunawayError(
        `the shift does not end: more than ${MOST_EVENTS} events by minute ${Math.floor(state.now / 60_000)}`,
      );
  } while (state.now < cell.length || state.present > 0);
  state.recorder.end(state.now, state.inside, state.outside.length);
};

/** Everything of the next instant. Returns the number of events carried out. */
const instant = (state: CellState): number => {
  const { events } = state;
  const planned = events.nextTime();
  const now = planned < state.calendarDue ? planned : state.calendarDue;
  const over = now >= state.cell.length;
  state.now = now;
  state.happened = false;
  if (over) state.nothingNew = state.cell.overtime === OVERTIME_EMPTY;
  let count = 0;
  do {
    count = carryOut(state, now, count);
    // Only ends of pieces that have been put down since: nothing happens at this time.
    if (!state.happened) return count;
    starts(state);
    if (!state.circlesPossible) state.circleDue = false;
  } while (events.nextTime() === now);
  if (state.outside.length > 0 && state.cell.divert) divertLeft(state);
  if (over || state.anyEnded) settleEnded(state);
  if (state.idleMask !== 0) tellIdle(state);
  return count;
};

/** All events of this instant, by rank, of which there is one at least; counted on from `before`. */
const carryOut = (state: CellState, now: number, before: number): number => {
  const { events } = state;
  let count = before;
  do {
    if (++count > MOST_AT_ONCE) checkEnds(state, count);
    if (
      state.calendarDue === now &&
      (events.nextTime() !== now || state.cell.calendar.order[state.calendarAt]! < events.nextOrder())
    ) {
      carryOutFixed(state);
    } else {
      events.take();
      carryOutPlanned(state, events.kind, events.a, events.b);
    }
  } while (events.nextTime() === now || state.calendarDue === now);
  return count;
};

const checkEnds = (state: CellState, count: number): void => {
  if (count > 100 * (state.inside + state.outside.length + state.listed.length)) throw runaway(state);
};

const carryOutFixed = (state: CellState): void => {
  const { calendar } = state.cell;
  const at = state.calendarAt;
  state.toCalendar(at + 1);
  state.happened = true;
  personChange(state, calendar.kind[at]!, state.people[calendar.person[at]!]!, calendar.detail[at]!);
};

const carryOutPlanned = (state: CellState, kind: number, a: number, b: number): void => {
  if (kind === END_HANDS) {
    const unit = state.units[a]!;
    if (unit.token !== b) return;
    state.happened = true;
    endHands(state, unit);
  } else if (!isVoid(state, kind, a, b)) {
    state.happened = true;
    carryOutEvent(state, kind, a, b);
  }
};

/**
 * Planned for a unit whose piece was put down since, or that has left the cell; or for a person whose time
 * off came to an end before.
 */
const isVoid = (state: CellState, kind: number, a: number, token: number): boolean => {
  if (kind === END_WAIT || kind === RELEASE) return state.units[a]!.token !== token;
  return kind === OFF_END && (state.people[a]!.at !== OFF || state.people[a]!.offToken !== token);
};

const carryOutEvent = (state: CellState, kind: number, a: number, b: number): void => {
  switch (kind) {
    case END_WAIT:
      endWait(state, state.units[a]!);
      break;
    case ARRIVAL:
      arrival(state);
      break;
    case OFF_END:
      offEnds(state, state.people[a]!);
      break;
    case RELEASE:
      release(state, state.units[a]!);
      break;
    case RACK_BACK:
      state.outRackHere++;
      break;
    case GEAR_FAILS:
      gearFails(state, state.items[a]!, b);
      break;
    case GEAR_BACK:
      gearBack(state, state.items[a]!);
      break;
    case COME:
      come(state, state.people[a]!);
      break;
    case LEAVE:
      leave(state, state.people[a]!);
      break;
    case CAP:
      capReached(state, state.people[a]!);
      break;
    default:
      break;
  }
};

const personChange = (state: CellState, kind: number, person: Person, detail: number): void => {
  if (kind === COVER) person.coverNow(person.covers[detail - state.cell.people.firstCover[person.index]!]!);
  else if (kind === COME) {
    if (person.comes) come(state, person);
  } else if (kind === OFF_START) offStarts(state, person, detail);
  else if (kind === GO) {
    state.anyEnded = true;
    if (person.at !== LEFT) ownEnd(state, person);
  }
};

const runaway = (state: CellState): RunawayError => {
  const { cell } = state;
  const seen = new Set<string>();
  for (const unit of state.units.slice(0, state.top)) {
    const step = unit.where === 0 || unit.step === null ? -1 : unit.step.index;
    if (step >= 0 && unit.visits[step]! > 100) seen.add(cell.stepIds[step]!);
  }
  const where =
    seen.size > 0
      ? `units go round ${[...seen].map((step) => `"${step}"`).join(', ')}`
      : 'units keep arriving';
  return new RunawayError(
    `${where} without any time passing at minute ${Math.floor(state.now / 60_000)}: give one of these steps a time, or an end to its rework`,
  );
};

/**
 * What is told of a shift: into its accounts always, onto a tape where somebody asked for one.
 *
 * Minutes in a state are counted as the time of leaving it less the time of coming into it, so that a change
 * is one number added and one taken off, and nothing has to be kept of when it began. Times are whole
 * milliseconds: such sums are exact in any order.
 */
import { FREE, gearStates, NOT_IN, personStates, REWORK } from './codes.ts';
import type { GearItem, GearKind, Person } from './resources.ts';
import type { Step } from './steps.ts';
import type { Unit } from './units.ts';
import * as facts from './facts.ts';
import { type Tape } from './facts.ts';
import {
  clearNumbers,
  type Integers,
  integers,
  type List,
  type Numbers,
  numbers,
  whole,
} from './platform.ts';
import * as at from './stretches.ts';
import { Stretches } from './stretches.ts';

const HOUR: number = 3600000;

/** What only a shift's file says of its report. */
export class ReportShape {
  hours: i32 = 0;
  bins: i32 = 0;
  /** Ms. */
  binWidth: number = 0.5;
  diverts: boolean = false;
  /** Numbers of the first branch of each step among all causes, and how many there are. */
  firstCause: Integers = integers(0);
  causes: i32 = 0;
}

export class Recorder {
  tape: Tape | null = null;
  readonly data: Numbers;
  readonly stretches: Stretches;
  private readonly shape: ReportShape;
  private readonly steps: List<Step>;
  private readonly people: List<Person>;
  private readonly kinds: List<GearKind>;
  /** From a person's state before their own end to the same state after it. */
  private readonly personAfter: i32;
  /** Where some of the stretches begin. */
  private readonly lineMost: i32;
  private readonly waited: i32;
  private readonly starts: i32;
  /** The bin of now: its number, where it stands in `data`, when it ends, the end it is reckoned to. */
  private bin: i32 = 0;
  private binAt: i32 = 0;
  private binEnds: number = 0.5;
  private edge: number = 0.5;
  private readonly lineNow: Integers;
  private outsideSince: number = 0.5;
  private outsideNow: i32 = 0;

  constructor(shape: ReportShape, steps: List<Step>, people: List<Person>, kinds: List<GearKind>) {
    const stretches = new Stretches(
      steps.length,
      people.length,
      kinds.length,
      shape.causes,
      shape.hours,
      shape.bins,
    );
    this.shape = shape;
    this.steps = steps;
    this.people = people;
    this.kinds = kinds;
    this.stretches = stretches;
    this.data = numbers(stretches.size);
    this.personAfter = personStates(kinds.length, steps.length);
    this.lineMost = stretches.lineMost;
    this.waited = stretches.waited;
    this.starts = stretches.starts;
    this.lineNow = integers(steps.length);
  }

  /** A shift begins: every person is NOT_IN and every piece of gear FREE until said otherwise. */
  begin(): void {
    const data = this.data;
    const tape = this.tape;
    if (tape !== null) tape.length = 0;
    clearNumbers(data);
    data[at.TARGET_AT] = NaN;
    this.outsideSince = 0;
    this.outsideNow = 0;
    this.toBin(0);
    for (let step = 0; step < this.steps.length; step++) this.lineNow[step] = 0;
    for (let i = 0; i < this.people.length; i++) {
      const person = this.people[i]!;
      person.account = this.stretches.personTime + 2 * i * this.personAfter;
      person.counted = person.account + NOT_IN;
    }
    for (let i = 0; i < this.kinds.length; i++) {
      const kind = this.kinds[i]!;
      kind.account = this.stretches.gearTime + i * gearStates(this.steps.length);
      for (let item = 0; item < kind.count; item++) kind.items[item]!.counted = kind.account + FREE;
    }
  }

  arrive(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.ARRIVE, time, unit.number, unit.product);
    this.add(at.ARRIVED, 1);
  }

  divert(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact1(facts.DIVERT, time, unit.number);
    this.add(at.DIVERTED, 1);
    // Before a rack of 0 it was outside for this instant.
    if (this.outsideNow > 0 && this.shape.diverts) this.setOutside(time, this.outsideNow - 1);
  }

  /** The unit cannot enter the first line and waits outside; `outside` units now do. */
  keepOutside(time: number, unit: Unit, outside: i32): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.KEEP_OUTSIDE, time, unit.number, outside);
    this.setOutside(time, outside);
    if (outside > this.data[at.OUTSIDE_MOST]!) this.data[at.OUTSIDE_MOST] = outside;
  }

  enter(time: number, unit: Unit, outside: i32): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.ENTER, time, unit.number, outside);
    this.setOutside(time, outside);
  }

  private setOutside(time: number, outside: i32): void {
    this.add(at.OUTSIDE_AREA, this.outsideNow * (time - this.outsideSince));
    this.outsideSince = time;
    this.outsideNow = outside;
  }

  /** The unit joins the line of a hands step, now `length` long. */
  // @inline
  join(time: number, unit: Unit, step: Step, length: i32): void {
    const index = step.index;
    const tape = this.tape;
    if (tape !== null) tape.fact3(facts.JOIN, time, unit.number, index, length);
    this.changeLine(time, index, 1);
    this.lineNow[index] = length;
    const most: i32 = this.lineMost + index;
    if (length > this.data[most]!) this.data[most] = length;
  }

  /** A hands step starts; its unit was in the line for `waited` ms of this shift. */
  start(time: number, unit: Unit, step: Step, visit: i32, duration: number, waited: number): void {
    const index = step.index;
    const length = step.line.length;
    const tape = this.tape;
    if (tape !== null) {
      const second = unit.second;
      tape.begin(facts.START, time, 8);
      tape.put(unit.number);
      tape.put(index);
      tape.put(visit);
      tape.put(unit.person!.index);
      tape.put(second === null ? -1 : second.index);
      tape.put(duration);
      tape.put(waited);
      tape.put(length);
    }
    this.add(this.starts + index, 1);
    this.add(this.waited + index, waited);
    // A unit that comes straight in from outside was in no line.
    if (length === this.lineNow[index]) return;
    this.changeLine(time, index, -1);
    this.lineNow[index] = length;
  }

  /** So many more units in the line from now on. */
  // @inline
  private changeLine(time: number, step: i32, more: i32): void {
    if (time >= this.binEnds) this.turnTo(time);
    const place: i32 = this.binAt + 2 * step;
    this.add(place, more * (this.edge - time));
    this.add(place + 1, more);
  }

  private turnTo(time: number): void {
    while (time >= this.binEnds) this.toBin(this.bin + 1);
  }

  private toBin(bin: i32): void {
    const shape = this.shape;
    this.bin = bin;
    this.binAt = this.stretches.lineChanges + 2 * this.steps.length * bin;
    // What comes after all bins has no end of its own: it is reckoned to 0, which falls out at the close.
    this.edge = bin < shape.bins ? (bin + 1) * shape.binWidth : 0;
    this.binEnds = bin < shape.bins ? this.edge : Infinity;
  }

  putDown(time: number, unit: Unit, step: Step, person: i32): void {
    const tape = this.tape;
    if (tape !== null) tape.fact4(facts.PUTS_DOWN, time, unit.number, step.index, person, unit.ends);
  }

  resume(time: number, unit: Unit, step: Step, person: Person): void {
    const tape = this.tape;
    if (tape !== null) tape.fact4(facts.RESUME, time, unit.number, step.index, person.index, unit.ends);
  }

  /** A hands step (or a wait: `person` is -1) ends with this outcome. */
  finish(time: number, unit: Unit, step: Step, person: i32, outcome: i32, branch: i32): void {
    const tape = this.tape;
    if (tape !== null) {
      tape.begin(step.hands ? facts.FINISH : facts.WAIT_END, time, 5);
      tape.put(unit.number);
      tape.put(step.index);
      if (step.hands) tape.put(person);
      tape.put(outcome);
      tape.put(branch);
    }
    if (outcome !== REWORK) return;
    this.add(this.stretches.byCause + this.shape.firstCause[step.index]! + branch, 1);
    this.add(at.REWORKED, 1);
  }

  waitStart(time: number, unit: Unit, step: Step, duration: number): void {
    const tape = this.tape;
    if (tape !== null) tape.fact3(facts.WAIT_START, time, unit.number, step.index, duration);
  }

  block(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact3(facts.BLOCK, time, unit.number, unit.step!.index, unit.to!.index);
  }

  unblock(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact3(facts.UNBLOCK, time, unit.number, unit.step!.index, unit.to!.index);
  }

  standAside(time: number, unit: Unit, step: Step): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.STAND_ASIDE, time, unit.number, step.index);
  }

  release(time: number, unit: Unit, step: Step): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.RELEASED, time, unit.number, step.index);
  }

  /** On the out-rack. */
  good(time: number, unit: Unit): void {
    const lead = time - unit.arrival;
    const flow = time - unit.firstStart;
    const tape = this.tape;
    if (tape !== null) tape.fact4(facts.GOOD, time, unit.number, lead, flow, unit.repeats);
    this.add(at.GOODS, 1);
    this.add(at.LEAD, lead);
    this.add(at.FLOW, flow);
    if (!unit.stoodHere) {
      this.add(at.NEW_GOODS, 1);
      this.add(at.NEW_LEAD, lead);
    }
    if (unit.repeats === 0) this.add(at.FIRST_PASS, 1);
    if (unit.due < Infinity) {
      this.add(at.DATED, 1);
      if (time > unit.due) this.add(at.LATE, 1);
    }
    const last: i32 = this.shape.hours - 1;
    const hour: i32 = whole(Math.floor(time / HOUR));
    this.add(this.stretches.goodByHour + (hour < last ? hour : last), 1);
  }

  /** On the out-rack, of a kind that was counted before. */
  again(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact1(facts.OUT_AGAIN, time, unit.number);
    this.add(at.AGAIN, 1);
  }

  scrap(time: number, unit: Unit): void {
    const tape = this.tape;
    if (tape !== null) tape.fact1(facts.SCRAPPED, time, unit.number);
    this.add(at.SCRAPS, 1);
  }

  /** A full out-rack leaves, `fill` ms after its first unit; its units waited `waited` ms on it in all. */
  rackSent(time: number, fill: number, waited: number): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.RACK_SENT, time, fill, waited);
    this.add(at.RACKS, 1);
    this.add(at.RACK_FILL, fill);
    this.add(at.RACK_WAIT, waited);
  }

  changePlaces(time: number, units: i32): void {
    const tape = this.tape;
    if (tape !== null) tape.fact1(facts.CHANGE_PLACES, time, units);
    this.add(at.PLACES, units);
  }

  /** A person's state. */
  // @inline
  person(time: number, person: Person, state: i32): void {
    const after = person.ended !== 0;
    const tape = this.tape;
    if (tape !== null) tape.fact3(facts.PERSON, time, person.index, state, after ? 1 : 0);
    const now: i32 = person.account + (after ? state + this.personAfter : state);
    this.turn(person.counted, now, time);
    person.counted = now;
  }

  // @inline
  gear(time: number, item: GearItem, state: i32, unit: i32): void {
    const kind = item.kind;
    const tape = this.tape;
    if (tape !== null) tape.fact4(facts.GEAR, time, kind.index, item.number, state, unit);
    const now: i32 = kind.account + state;
    this.turn(item.counted, now, time);
    item.counted = now;
  }

  /** From one state to another. */
  // @inline
  private turn(from: i32, to: i32, time: number): void {
    const data = this.data;
    data[from] = data[from]! + time;
    data[to] = data[to]! - time;
  }

  targetMet(time: number): void {
    const tape = this.tape;
    if (tape !== null) tape.begin(facts.TARGET_MET, time, 0);
    this.data[at.TARGET_AT] = time;
  }

  /** Past their own end, somebody is done with the piece that was in their hands then. */
  finished(time: number, person: Person): void {
    this.add(this.stretches.finishing + person.index, time - person.finishing);
    person.finishing = -1;
  }

  /** Break time owed that lapsed when the person went, ms. */
  breakLapsed(time: number, person: Person, milliseconds: number): void {
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.BREAK_LAPSED, time, person.index, milliseconds);
    this.add(at.LAPSED, milliseconds);
  }

  /** The shift's report closes here; `inside` units are in the cell, `outside` wait outside. */
  end(time: number, inside: i32, outside: i32): void {
    const data = this.data;
    const tape = this.tape;
    if (tape !== null) tape.fact2(facts.CLOSE, time, inside, outside);
    data[at.CLOSED] = time;
    data[at.INSIDE] = inside;
    data[at.STILL_OUTSIDE] = outside;
    this.setOutside(time, this.outsideNow);
    for (let i = 0; i < this.people.length; i++) {
      const person = this.people[i]!;
      this.add(person.counted, time);
      if (person.finishing >= 0) this.finished(time, person);
    }
    for (let i = 0; i < this.kinds.length; i++) {
      const kind = this.kinds[i]!;
      for (let item = 0; item < kind.count; item++) this.add(kind.items[item]!.counted, time);
    }
    this.closeLines(time);
  }

  /** Units still in line have waited too: the area is the sum of all waits. */
  private closeLines(time: number): void {
    const data = this.data;
    const steps = this.steps.length;
    const bins = this.shape.bins;
    const binWidth = this.shape.binWidth;
    for (let step = 0; step < steps; step++)
      if (this.lineNow[step] !== 0) this.changeLine(time, step, -this.lineNow[step]!);
    for (let step = 0; step < steps; step++) {
      let length: number = 0;
      let area: number = 0;
      let place: i32 = this.stretches.lineChanges + 2 * step;
      const binsAt: i32 = this.stretches.lineBins + step * bins;
      for (let bin = 0; bin < bins; bin++) {
        const within: number = data[place]! + length * binWidth;
        data[binsAt + bin] = within;
        area += within;
        length += data[place + 1]!;
        place += 2 * steps;
      }
      data[this.stretches.lineArea + step] = area + data[place]! - length * (bins * binWidth);
    }
  }

  private add(place: i32, value: number): void {
    this.data[place] = this.data[place]! + value;
  }
}

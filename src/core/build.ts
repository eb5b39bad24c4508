/** From the numbers of a day (written by src/engine/encode.ts) to its entities and resources. */
import { type Curve, curveAt } from './curves.ts';
import { Cover, type GearItem, GearKind, Person, TimeOff } from './resources.ts';
import { Branch, Step, StepRules, Taking, Task } from './steps.ts';
import { NONE } from './units.ts';
import { type List, list, type Numbers, numbers } from './platform.ts';
import { Reader } from './reader.ts';
import { Recorder, ReportShape } from './recorder.ts';
import { Day } from './run.ts';
import { Carried, CellState, Entry, Hold, Listed, Outage, Shift } from './state.ts';

export function buildDay(data: Numbers): Day {
  const read = new Reader(data);
  const key = read.integer();
  const stepCount = read.integer();
  const places = read.integer();
  const takes = read.integer();
  const steps = list<Step>(stepCount);
  for (let step = 0; step < stepCount; step++) steps[step] = new Step(step);
  const kinds = list<GearKind>(read.integer());
  let itemCount: i32 = 0;
  for (let kind = 0; kind < kinds.length; kind++) {
    const most = read.integer();
    kinds[kind] = new GearKind(kind, most, itemCount);
    itemCount += most;
  }
  const state = new CellState(steps, new Step(stepCount), kinds, itemsOf(kinds, itemCount), places, takes);
  state.key0 = key;
  const shifts = list<Shift>(read.integer());
  for (let i = 0; i < shifts.length; i++) shifts[i] = buildShift(state, read);
  return new Day(state, shifts);
}

function itemsOf(kinds: List<GearKind>, count: i32): List<GearItem> {
  const items = list<GearItem>(count);
  for (let kind = 0; kind < kinds.length; kind++) {
    const own = kinds[kind]!.items;
    for (let i = 0; i < own.length; i++) items[own[i]!.index] = own[i]!;
  }
  return items;
}

function buildShift(state: CellState, read: Reader): Shift {
  const shift = new Shift();
  shift.length = read.number();
  shift.tidyUp = read.number();
  shift.putDownAtEnd = read.flag();
  shift.target = read.integer();
  shift.overtime = read.integer();
  shift.overtimeCap = read.number();
  shift.divert = read.flag();
  shift.night = read.number();
  shift.sameGear = read.flag();
  shift.sameAs = read.integers(read.integer());
  shift.outRackSize = read.integer();
  shift.outRacks = read.integer();
  shift.outRackBack = read.number();
  shift.outRackStanding = read.integer();
  shift.outRacksAway = read.numbers(read.integer());
  shift.deadlocks = read.flag();
  const products = read.integer();
  shift.shares = read.numbers(products);
  shift.enters = list<Step>(products);
  for (let product = 0; product < products; product++) shift.enters[product] = stepAt(state, read);
  shift.returned = read.integers(products);
  readGear(state, shift, read);
  readSteps(state, shift, read, products);
  readNeeding(state, shift);
  readPeople(state, shift, read);
  readCalendar(shift, read);
  readHolds(shift, read);
  readIntake(shift, read);
  readCarried(state, shift, read);
  shift.recorder = new Recorder(readReport(shift, read), state.steps, shift.people, shift.kinds);
  return shift;
}

/** A step by its number; one above the last is the way out. */
function stepAt(state: CellState, read: Reader): Step {
  const index = read.integer();
  return index < state.steps.length ? state.steps[index]! : state.out;
}

function curveOrNone(read: Reader): Curve | null {
  const id = read.integer();
  return id < 0 ? null : curveAt(id);
}

function readGear(state: CellState, shift: Shift, read: Reader): void {
  const count = read.integer();
  shift.kinds = list<GearKind>(count);
  for (let i = 0; i < count; i++) shift.kinds[i] = state.allKinds[read.integer()]!;
  shift.counts = read.integers(count);
  shift.fails = list<Curve | null>(count);
  shift.repairs = list<Curve | null>(count);
  for (let i = 0; i < count; i++) {
    shift.fails[i] = curveOrNone(read);
    shift.repairs[i] = curveOrNone(read);
  }
  shift.outages = list<Outage>(read.integer());
  for (let i = 0; i < shift.outages.length; i++) {
    const kind = shift.kinds[read.integer()]!;
    const items = read.integer();
    const time = read.number();
    shift.outages[i] = new Outage(kind, items, time, read.number());
  }
}

function readSteps(state: CellState, shift: Shift, read: Reader, products: i32): void {
  shift.takings = list<Taking>(state.takes);
  for (let rule = 0; rule < state.takes; rule++) {
    const kind = shift.kinds[read.integer()]!;
    const step = stepAt(state, read);
    shift.takings[rule] = new Taking(rule, kind, step, stepAt(state, read));
  }
  shift.rules = list<StepRules>(state.steps.length);
  for (let step = 0; step < state.steps.length; step++) {
    const rules = readRules(state, shift, read, products);
    rules.takes = takingsAt(shift, state.steps[step]!, true);
    rules.frees = takingsAt(shift, state.steps[step]!, false);
    shift.rules[step] = rules;
    if (rules.ownPlace) shift.ownPlaceMask |= state.steps[step]!.bit;
  }
}

function readRules(state: CellState, shift: Shift, read: Reader, products: i32): StepRules {
  const rules = new StepRules();
  rules.hands = read.flag();
  rules.pair = read.flag();
  rules.rack = read.integer();
  rules.byDue = read.flag();
  rules.whole = read.flag();
  rules.position = read.number();
  rules.scrap = read.number();
  rules.shut = numbers(read.integer());
  for (let i = 0; i < rules.shut.length; i++) rules.shut[i] = read.number();
  rules.aside = read.flag();
  rules.ownPlace = read.flag();
  rules.tasks = list<Task>(products);
  for (let product = 0; product < products; product++) {
    const task = new Task();
    task.time = curveAt(read.integer());
    task.repeat = curveAt(read.integer());
    task.scale = read.number();
    task.repeatScale = task.scale;
    task.plannedScale = task.scale;
    task.planned = read.number();
    task.plannedRepeat = read.number();
    task.mean = read.number();
    task.next = stepAt(state, read);
    task.skipped = read.flag();
    rules.tasks[product] = task;
  }
  rules.uses = list<GearKind>(read.integer());
  for (let i = 0; i < rules.uses.length; i++) rules.uses[i] = shift.kinds[read.integer()]!;
  rules.branches = list<Branch>(read.integer());
  for (let i = 0; i < rules.branches.length; i++) {
    const to = stepAt(state, read);
    const share = read.number();
    rules.branches[i] = new Branch(to, share, read.flag());
  }
  return rules;
}

/** The takings that begin, or end, with a step. */
function takingsAt(shift: Shift, step: Step, begin: boolean): List<Taking> {
  const all = shift.takings;
  let count: i32 = 0;
  for (let i = 0; i < all.length; i++) if ((begin ? all[i]!.step : all[i]!.until) === step) count++;
  const found = list<Taking>(count);
  count = 0;
  for (let i = 0; i < all.length; i++)
    if ((begin ? all[i]!.step : all[i]!.until) === step) found[count++] = all[i]!;
  return found;
}

/** By kind of gear: the steps that use or take it. */
function readNeeding(state: CellState, shift: Shift): void {
  shift.needing = list<List<Step>>(shift.kinds.length);
  for (let i = 0; i < shift.kinds.length; i++) {
    const kind = shift.kinds[i]!;
    let count: i32 = 0;
    for (let step = 0; step < state.steps.length; step++) if (needs(shift.rules[step]!, kind)) count++;
    const needing = list<Step>(count);
    count = 0;
    for (let step = 0; step < state.steps.length; step++)
      if (needs(shift.rules[step]!, kind)) needing[count++] = state.steps[step]!;
    shift.needing[i] = needing;
  }
}

function needs(rules: StepRules, kind: GearKind): boolean {
  for (let i = 0; i < rules.uses.length; i++) if (rules.uses[i] === kind) return true;
  for (let i = 0; i < rules.takes.length; i++) if (rules.takes[i]!.kind === kind) return true;
  return false;
}

function readPeople(state: CellState, shift: Shift, read: Reader): void {
  shift.people = list<Person>(read.integer());
  for (let index = 0; index < shift.people.length; index++) {
    const person = new Person(index);
    person.byAge = read.flag();
    person.mayOvertime = read.flag();
    person.from = read.number();
    person.to = read.number();
    person.tidyFrom = person.to - shift.tidyUp;
    person.chance = read.number();
    person.lateChance = read.number();
    person.late = curveOrNone(read);
    person.factor = read.numbers(state.steps.length);
    person.reworkFactor = read.numbers(state.steps.length);
    person.covers = list<Cover>(read.integer());
    for (let i = 0; i < person.covers.length; i++) person.covers[i] = readCover(state, read);
    person.offs = list<TimeOff>(read.integer());
    for (let i = 0; i < person.offs.length; i++) {
      const start = read.number();
      const length = read.number();
      person.offs[i] = new TimeOff(start, length, read.flag());
    }
    shift.people[index] = person;
  }
}

function readCover(state: CellState, read: Reader): Cover {
  const steps = list<Step>(read.integer());
  let mask: i32 = 0;
  for (let i = 0; i < steps.length; i++) {
    steps[i] = stepAt(state, read);
    mask |= steps[i]!.bit;
  }
  return new Cover(steps, mask);
}

function readCalendar(shift: Shift, read: Reader): void {
  shift.calendar = list<Entry>(read.integer());
  for (let i = 0; i < shift.calendar.length; i++) {
    const time = read.number();
    const order = read.number();
    const kind = read.integer();
    const person = read.integer();
    shift.calendar[i] = new Entry(time, order, kind, person, read.integer());
  }
}

function readHolds(shift: Shift, read: Reader): void {
  shift.holds = list<Hold>(read.integer());
  for (let i = 0; i < shift.holds.length; i++) {
    const before = read.integer();
    const until = read.number();
    const product = read.integer();
    const names = read.integer();
    shift.holds[i] = new Hold(before, until, product, names === NONE ? null : read.integers(names));
  }
}

function readIntake(shift: Shift, read: Reader): void {
  shift.intake = read.integer();
  shift.units = read.integer();
  shift.inside = read.integer();
  shift.late = read.number();
  shift.every = read.number();
  shift.gap = curveOrNone(read);
  shift.dueAfter = read.number();
  shift.listed = list<Listed>(read.integer());
  for (let i = 0; i < shift.listed.length; i++) {
    const time = read.number();
    const product = read.integer();
    const due = read.number();
    const rush = read.integer();
    shift.listed[i] = new Listed(time, product, due, rush, read.integer());
  }
}

function readCarried(state: CellState, shift: Shift, read: Reader): void {
  shift.carried = list<Carried>(read.integer());
  for (let i = 0; i < shift.carried.length; i++) {
    const carried = new Carried();
    carried.units = read.integer();
    carried.step = stepAt(state, read);
    carried.state = read.integer();
    carried.product = read.integer();
    carried.arrival = read.number();
    carried.waited = read.number();
    carried.due = read.number();
    carried.rush = read.integer();
    carried.name = read.integer();
    carried.time = read.number();
    const to = read.integer();
    carried.to = to === NONE ? null : state.steps[to]!;
    carried.person = read.integer();
    if (read.flag()) carried.gear = read.integers(shift.kinds.length);
    carried.visits = read.integers(state.steps.length);
    shift.carried[i] = carried;
  }
}

function readReport(shift: Shift, read: Reader): ReportShape {
  const shape = new ReportShape();
  shape.hours = read.integer();
  shape.bins = read.integer();
  shape.binWidth = read.number();
  shape.diverts = shift.divert;
  shape.firstCause = read.integers(shift.rules.length);
  shape.causes = read.integer();
  return shape;
}

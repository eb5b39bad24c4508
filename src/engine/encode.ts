/** The shifts of a day as the numbers that the core reads (src/core/build.ts), in the order it reads them. */
import type { ResolvedCarried, ResolvedShift } from '../scenario/resolve.ts';
import type { CompiledTime } from '../duration/compile.ts';
import {
  AT_START,
  BEAT,
  CONSTANT,
  CURES,
  IS_BLOCKED,
  IS_IN_HAND,
  IS_PUT_DOWN,
  LIST,
  RANDOM,
  WAITS,
} from '../core/state.ts';
import { COVER, OFF_START } from '../core/ranks.ts';
import { seedKey } from '../random/keys.ts';
import { listArrivals } from './arrivals.ts';
import { toMilliseconds } from './compile.ts';
import type { CompiledCell } from './tables.ts';

const NONE = -1;

/** Numbers one after another. */
class Writer {
  readonly numbers: number[] = [];
  /** Of names, from 1: 0 is no name. */
  private readonly names = new Map<string, number>();

  put(...values: (number | boolean)[]): void {
    for (const value of values) this.numbers.push(Number(value));
  }

  /** How many, then each. */
  list(values: ArrayLike<number>): void {
    this.numbers.push(values.length);
    this.all(values);
  }

  all(values: ArrayLike<number>): void {
    for (let i = 0; i < values.length; i++) this.numbers.push(values[i]!);
  }

  nameOf(name: string | null): number {
    if (name === null) return 0;
    const known = this.names.get(name) ?? this.names.size + 1;
    this.names.set(name, known);
    return known;
  }
}

/**
 * The numbers of a day. `curveOf` is the number under which the core knows a time curve. Throws RangeError
 * where the shifts do not share their steps: units could not be carried from one to the next.
 */
export function encodeDay(cells: CompiledCell[], curveOf: (time: CompiledTime) => number): Float64Array {
  const [first] = cells;
  if (first === undefined) throw new RangeError('a day needs at least one shift');
  for (const cell of cells) {
    if (cell.stepIds.join() !== first.stepIds.join())
      throw new RangeError('all shifts of a day need the same steps in the same order');
    if (cell.takes.count !== first.takes.count)
      throw new RangeError('all shifts of a day need the same takings of gear');
  }
  const writer = new Writer();
  const kinds = allKinds(cells);
  const kindIds = kindIdsOf(cells);
  const uses = cells.flatMap(({ steps }) =>
    Array.from({ length: steps.count }, (_, step) => steps.usesFrom[step + 1]! - steps.usesFrom[step]!),
  );
  writer.put(seedKey(first.shift.seed), first.steps.count, Math.max(0, ...uses), first.takes.count);
  writer.list([...kinds.values()]);
  writer.put(cells.length);
  cells.forEach((cell, i) => encodeShift(writer, cell, i === 0 ? null : cells[i - 1]!, kindIds, curveOf));
  return Float64Array.from(writer.numbers);
}

/** Every kind of gear of the day, and as many pieces as the shift with the most of them has. */
function allKinds(cells: CompiledCell[]): Map<string, number> {
  const most = new Map<string, number>();
  for (const cell of cells) {
    cell.gearIds.forEach((id, kind) => most.set(id, Math.max(most.get(id) ?? 0, cell.gear.items[kind]!)));
  }
  return most;
}

/** Every kind of gear of the day by its number in the core. */
export const kindIdsOf = (cells: CompiledCell[]): string[] => [...allKinds(cells).keys()];

function encodeShift(
  writer: Writer,
  cell: CompiledCell,
  before: CompiledCell | null,
  kindIds: string[],
  curveOf: (time: CompiledTime) => number,
): void {
  const { shift } = cell;
  writer.put(cell.length, Math.max(0, cell.tidyUp), cell.putDownAtEnd, cell.target);
  writer.put(cell.overtime, cell.overtimeCap, cell.divert);
  writer.put(before === null ? 0 : toMilliseconds(shift.startsAfter - before.shift.startsAfter));
  writer.put(before === null || sameGear(before, cell));
  writer.list((before?.personIds ?? []).map((id) => cell.personIds.indexOf(id)));
  const rack = shift.outRack;
  writer.put(rack?.size ?? 0, rack?.racks ?? 0, rack === null ? 0 : toMilliseconds(rack.back));
  writer.put(rack?.standing ?? 0);
  writer.list(rack === null ? [] : rack.away.map(toMilliseconds));
  writer.put(deadlocksArePossible(cell));
  writer.put(cell.products.count);
  writer.all(cell.products.cumulative);
  writer.all(cell.products.enters);
  writer.all(cell.products.returned);
  encodeGear(writer, cell, kindIds, curveOf);
  encodeSteps(writer, cell, curveOf);
  encodePeople(writer, cell, curveOf);
  encodeCalendar(writer, cell);
  encodeHolds(writer, cell);
  encodeIntake(writer, cell, curveOf);
  encodeCarryOver(writer, before === null ? cell : null);
  encodeReport(writer, cell);
}

const sameGear = (before: CompiledCell, cell: CompiledCell): boolean =>
  before.gearIds.join() === cell.gearIds.join() &&
  before.gear.items.every((count, kind) => count === cell.gear.items[kind]);

function encodeGear(
  writer: Writer,
  { shift, gear, gearIds }: CompiledCell,
  kindIds: string[],
  curveOf: (time: CompiledTime) => number,
): void {
  const orNone = (time: CompiledTime | null): number => (time === null ? NONE : curveOf(time));
  writer.list(gearIds.map((id) => kindIds.indexOf(id)));
  writer.all(gear.items);
  gearIds.forEach((_, kind) => writer.put(orNone(gear.fails[kind]!), orNone(gear.repair[kind]!)));
  const outages = shift.gear.flatMap(({ out }, kind) => out.map((one) => ({ ...one, kind })));
  writer.put(outages.length);
  for (const { kind, items, from, minutes } of outages)
    writer.put(kind, items, toMilliseconds(from), toMilliseconds(minutes));
}

function encodeSteps(
  writer: Writer,
  { steps, takes, products, people, shift }: CompiledCell,
  curveOf: (time: CompiledTime) => number,
): void {
  for (let rule = 0; rule < takes.count; rule++)
    writer.put(takes.gear[rule]!, takes.step[rule]!, takes.until[rule]!);
  for (let step = 0; step < steps.count; step++) {
    writer.put(steps.hands[step]!, steps.people[step] === 2, steps.rack[step]!, steps.byDue[step]!);
    writer.put(steps.whole[step]!, steps.position[step]!, steps.scrap[step]!);
    writer.list(steps.shut[step]!);
    writer.put(shift.steps[step]!.aside, steps.ownPlace[step]!);
    for (let product = 0; product < products.count; product++) {
      const at = product * steps.count + step;
      writer.put(curveOf(products.time[at]!), curveOf(products.repeat[at]!), products.scale[at]!);
      writer.put(products.planned[at]!, products.plannedRepeat[at]!, products.mean[at]!, products.next[at]!);
      writer.put(shift.products[product]!.skips.includes(shift.steps[step]!.id));
    }
    writer.list(steps.uses.subarray(steps.usesFrom[step], steps.usesFrom[step + 1]));
    const from = steps.branchFrom[step]!;
    const until = steps.branchFrom[step + 1]!;
    writer.put(until - from);
    for (let branch = from; branch < until; branch++) {
      const to = steps.branchTo[branch]!;
      let byPerson = false;
      for (let person = 0; person < people.count; person++)
        byPerson ||= people.reworkFactor[person * steps.count + to] !== 1;
      writer.put(to, steps.branchShare[branch]!, byPerson);
    }
  }
}

function encodePeople(
  writer: Writer,
  { people, steps }: CompiledCell,
  curveOf: (time: CompiledTime) => number,
): void {
  writer.put(people.count);
  for (let person = 0; person < people.count; person++) {
    const late = people.late[person]!;
    writer.put(people.byAge[person]!, people.mayOvertime[person]!, people.from[person]!, people.to[person]!);
    writer.put(people.chance[person]!, people.lateChance[person]!, late === null ? NONE : curveOf(late));
    const own = (matrix: Float64Array): Float64Array =>
      matrix.subarray(person * steps.count, (person + 1) * steps.count);
    writer.all(own(people.factor));
    writer.all(own(people.reworkFactor));
    const first = people.firstCover[person]!;
    const end = people.firstCover[person + 1]!;
    writer.put(end - first);
    for (let cover = first; cover < end; cover++)
      writer.list(people.coverSteps.subarray(people.coverFrom[cover], people.coverFrom[cover + 1]));
    writer.put(people.offFrom[person + 1]! - people.offFrom[person]!);
    for (let off = people.offFrom[person]!; off < people.offFrom[person + 1]!; off++)
      writer.put(people.offStart[off]!, people.offLength[off]!, people.offIsBreak[off]!);
  }
}

function encodeCalendar(writer: Writer, { calendar, people }: CompiledCell): void {
  writer.put(calendar.count);
  for (let i = 0; i < calendar.count; i++) {
    const kind = calendar.kind[i]!;
    const person = calendar.person[i]!;
    const first =
      kind === COVER ? people.firstCover[person]! : kind === OFF_START ? people.offFrom[person]! : 0;
    writer.put(calendar.time[i]!, calendar.order[i]!, kind, person, calendar.detail[i]! - first);
  }
}

function encodeHolds(writer: Writer, { holds }: CompiledCell): void {
  writer.put(holds.count);
  for (let i = 0; i < holds.count; i++) {
    writer.put(holds.before[i]!, holds.until[i]!, holds.product[i]!);
    const names = holds.names[i]!;
    if (names === null) writer.put(NONE);
    else writer.list([...names].map((name) => writer.nameOf(name)));
  }
}

const INTAKES = { 'at start': AT_START, beat: BEAT, random: RANDOM, list: LIST, constant: CONSTANT };

function encodeIntake(writer: Writer, cell: CompiledCell, curveOf: (time: CompiledTime) => number): void {
  const { intake } = cell.shift;
  const units = 'units' in intake && intake.units !== null ? intake.units : NONE;
  writer.put(INTAKES[intake.kind], units, intake.kind === 'constant' ? intake.inside : 0);
  writer.put(intake.late, intake.kind === 'beat' ? intake.every : 0);
  writer.put(cell.gap === null ? NONE : curveOf(cell.gap));
  writer.put(intake.dueAfter === null ? Infinity : toMilliseconds(intake.dueAfter));
  const listed = listArrivals(cell);
  writer.put(listed.length);
  for (const { time, product, due, rush, name } of listed)
    writer.put(time, product, due, rush, writer.nameOf(name));
}

const STANDS = {
  waiting: WAITS,
  curing: CURES,
  blocked: IS_BLOCKED,
  'in hand': IS_IN_HAND,
  'put down': IS_PUT_DOWN,
};

/** Of the first shift alone: later ones begin with what stands in the cell. */
function encodeCarryOver(writer: Writer, cell: CompiledCell | null): void {
  if (cell === null) {
    writer.put(0);
    return;
  }
  writer.put(cell.shift.carryOver.length);
  for (const carried of cell.shift.carryOver) encodeCarried(writer, cell, carried);
}

function encodeCarried(writer: Writer, cell: CompiledCell, carried: ResolvedCarried): void {
  const { shift, stepIds, gearIds, personIds } = cell;
  const orNone = (ids: string[], id: string | null): number => (id === null ? NONE : ids.indexOf(id));
  writer.put(carried.units, stepIds.indexOf(carried.at), STANDS[carried.state]);
  writer.put(
    orNone(
      shift.products.map(({ id }) => id),
      carried.product,
    ),
  );
  writer.put(-toMilliseconds(carried.arrived), toMilliseconds(carried.waited));
  writer.put(carried.due === null ? Infinity : toMilliseconds(carried.due));
  writer.put(carried.rush, writer.nameOf(carried.name));
  writer.put(carried.minutes === null ? NONE : toMilliseconds(carried.minutes));
  writer.put(orNone(stepIds, carried.to), orNone(personIds, carried.person));
  const { gear, visits } = carried;
  writer.put(gear !== null);
  if (gear !== null) writer.all(gearIds.map((id) => gear.filter((one) => one === id).length));
  writer.all(stepIds.map((id) => (visits === null || visits[id] === undefined ? NONE : visits[id])));
}

/** Width of the bins of the day, minutes. */
export const BIN_MINUTES = 15;

/** Hours by which good units are counted, and bins of the day by which lines are. */
export const reportShape = (shift: ResolvedShift): { hours: number; bins: number } => ({
  hours: Math.ceil(shift.length / 60) + 1,
  bins: Math.ceil(shift.length / BIN_MINUTES),
});

function encodeReport(writer: Writer, { shift, steps }: CompiledCell): void {
  const { hours, bins } = reportShape(shift);
  writer.put(hours, bins, toMilliseconds(BIN_MINUTES));
  writer.all(steps.branchFrom.subarray(0, steps.count));
  writer.put(steps.branchFrom[steps.count]!);
}

/** Only where units go back, or a step uses gear that another one uses too. */
function deadlocksArePossible({ steps }: CompiledCell): boolean {
  if (steps.ownPlace.includes(1)) return true;
  for (let step = 0; step < steps.count; step++) {
    for (let branch = steps.branchFrom[step]!; branch < steps.branchFrom[step + 1]!; branch++) {
      if (steps.position[steps.branchTo[branch]!]! <= steps.position[step]!) return true;
    }
  }
  return false;
}

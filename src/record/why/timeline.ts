/**
 * One shift as lines of what was so from when to when: people, gear, pieces, what stood first at each step
 * and why free people did not begin it. Minutes from the start of the shift.
 */
import { FREE, NOT_IN, workingAt } from '../../engine/recorder.ts';
import { SilentRecorder } from '../../engine/silent.ts';
import type { CompiledCell } from '../../engine/tables.ts';
import { turn, type Stretch } from '../stretch.ts';

const MINUTE = 60_000;

export type Where = 'outside' | 'line' | 'hand' | 'put down' | 'wait' | 'blocked' | 'aside' | 'left';

/** Where a piece was; `step` is the one it was at or before, `to` where a blocked one wanted to go. */
export interface Place {
  from: number;
  to: number;
  where: Where;
  step: number;
  wants: number;
  person: number;
}

export interface Head {
  from: number;
  unit: number;
  missing: number;
}

export interface Refusal {
  from: number;
  why: number;
  until: number;
  needed: number;
}

export interface UnitLine {
  number: number;
  product: number;
  places: Place[];
}

export class Timeline extends SilentRecorder {
  readonly cell: CompiledCell;
  ends = 0;
  goods = 0;
  people: Stretch[][] = [];
  /** [gear][item] */
  items: Stretch[][][] = [];
  units: UnitLine[] = [];
  /** [step] */
  heads: Head[][] = [];
  /** [person x steps + step] */
  refusals: Refusal[][] = [];
  /** When pieces came after the opening, ascending. */
  arrivals: number[] = [];
  /** [person] the steps they cover from a minute on, ascending. */
  readonly covers: { from: number; steps: number[] }[][];
  /** [step] do products go through it on their way, or only what is sent back? */
  readonly isOnTheWay: boolean[];
  /** [gear] steps that need it, in the order of the path. */
  readonly needing: number[][];
  private readonly byNumber = new Map<number, UnitLine>();

  constructor(cell: CompiledCell) {
    super();
    this.cell = cell;
    this.covers = cell.shift.people.map(({ cover }) =>
      cover.map(({ from, steps }) => ({ from, steps: steps.map((id) => cell.stepIds.indexOf(id)) })),
    );
    this.isOnTheWay = cell.stepIds.map((_, step) => isPassed(cell, step));
    this.needing = cell.gearIds.map((_, gear) => needing(cell, gear));
  }

  override begin(): void {
    const { steps, people, gear } = this.cell;
    const open = (state: number): Stretch[] => [{ from: 0, to: 0, state, unit: -1 }];
    this.people = Array.from({ length: people.count }, () => open(NOT_IN));
    this.items = Array.from(gear.items, (count) => Array.from({ length: count }, () => open(FREE)));
    this.heads = Array.from({ length: steps.count }, () => []);
    this.refusals = Array.from({ length: steps.count * people.count }, () => []);
    this.units = [];
    this.arrivals = [];
    this.goods = 0;
    this.byNumber.clear();
  }

  override arrive(time: number, number: number, product: number): void {
    const unit: UnitLine = { number, product, places: [] };
    this.units.push(unit);
    this.byNumber.set(number, unit);
    if (time > 0) this.arrivals.push(time / MINUTE);
  }

  override keepOutside(time: number, unit: number): void {
    this.put(time, unit, 'outside', this.cell.products.enters[this.byNumber.get(unit)!.product]!);
  }

  override divert(time: number, unit: number): void {
    this.put(time, unit, 'left', -1);
  }

  override join(time: number, unit: number, step: number): void {
    this.put(time, unit, 'line', step);
  }

  override start(
    time: number,
    unit: number,
    step: number,
    _visit: number,
    person: number,
    second: number,
  ): void {
    this.put(time, unit, 'hand', step, person);
    this.takesUp(time, unit, step, person);
    if (second >= 0) this.takesUp(time, unit, step, second);
  }

  override putDown(time: number, unit: number, step: number, person: number): void {
    this.put(time, unit, 'put down', step, person);
  }

  override resume(time: number, unit: number, step: number, person: number): void {
    this.put(time, unit, 'hand', step, person);
    this.takesUp(time, unit, step, person);
  }

  override waitStart(time: number, unit: number, step: number): void {
    this.put(time, unit, 'wait', step);
  }

  override block(time: number, unit: number, step: number, to: number): void {
    this.put(time, unit, 'blocked', step, -1, to);
  }

  override standAside(time: number, unit: number, step: number): void {
    this.put(time, unit, 'aside', step);
  }

  override good(time: number, unit: number): void {
    this.goods += 1;
    this.put(time, unit, 'left', -1);
  }

  override again(time: number, unit: number): void {
    this.put(time, unit, 'left', -1);
  }

  override scrap(time: number, unit: number): void {
    this.put(time, unit, 'left', -1);
  }

  override person(time: number, person: number, state: number): void {
    turn(this.people[person]!, time / MINUTE, state, -1);
  }

  override gear(time: number, gear: number, item: number, state: number, unit: number): void {
    turn(this.items[gear]![item]!, time / MINUTE, state, unit);
  }

  override head(time: number, step: number, unit: number, missing: number): void {
    keep(this.heads[step]!, { from: time / MINUTE, unit, missing });
  }

  override refusal(
    time: number,
    person: number,
    step: number,
    why: number,
    until: number,
    needed: number,
  ): void {
    const told = { from: time / MINUTE, why, until: until / MINUTE, needed: needed / MINUTE };
    keep(this.refusals[person * this.cell.steps.count + step]!, told);
  }

  override end(time: number): void {
    this.ends = time / MINUTE;
    const close = <Line extends { from: number; to: number }>(line: Line[]): Line[] => {
      const last = line.at(-1);
      if (last !== undefined) last.to = this.ends;
      return line.filter(({ from, to }) => to > from);
    };
    this.people = this.people.map(close);
    this.items = this.items.map((items) => items.map(close));
    for (const unit of this.units) unit.places = close(unit.places);
  }

  private takesUp(time: number, unit: number, step: number, person: number): void {
    turn(this.people[person]!, time / MINUTE, workingAt(this.cell.gear.count, step), unit);
  }

  private put(time: number, number: number, where: Where, step: number, person = -1, wants = -1): void {
    const { places } = this.byNumber.get(number)!;
    const at = time / MINUTE;
    const open = places.at(-1);
    if (open !== undefined) open.to = at;
    places.push({ from: at, to: at, where, step, wants, person });
  }
}

function isPassed({ steps: { count }, products }: CompiledCell, step: number): boolean {
  for (let product = 0; product < products.count; product++) {
    let at = products.enters[product]!;
    for (let i = 0; i <= count && at < count; i++) {
      if (at === step) return true;
      at = products.next[product * count + at]!;
    }
  }
  return false;
}

function needing({ gear: { neededBy }, steps: { position }, stepIds }: CompiledCell, gear: number): number[] {
  const steps = stepIds.flatMap((_, step) => ((neededBy[gear]! & (1 << step)) !== 0 ? [step] : []));
  return steps.sort((a, b) => position[a]! - position[b]!);
}

/** Whatever is told last of an instant is what holds from then on. */
function keep<Told extends { from: number }>(line: Told[], told: Told): void {
  if (line.at(-1)?.from === told.from) line.pop();
  line.push(told);
}

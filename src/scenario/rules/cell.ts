/** What a rule is handed: the scenario, its defaults filled in, and where to put what it finds. */
import { compileTime, type CompiledTime } from '../../duration/compile.ts';
import type { Time } from '../../duration/time.ts';
import { faultAt, listed, nearest, show, type Fault, type Place, type Remark } from '../reading/fault.ts';
import { resolve, type ResolvedShift, type ResolvedStep } from '../resolve.ts';
import type { Scenario } from '../schema.ts';

export interface Cell {
  scenario: Scenario;
  /** Filled in by `resolve`; names that lead nowhere are still in it until the rules on names have passed. */
  shift: ResolvedShift;
  faults: Fault[];
  remarks: Remark[];
  /**
   * The curve of a time that has passed its own check, made once for each time of this file: a long list of
   * observations is asked for by every unit that is at its step.
   */
  compiled(time: Time): CompiledTime;
}

/** One rule: looks at the cell and notes what it finds. */
export type Rule = (cell: Cell) => void;

export const cellOf = (scenario: Scenario): Cell => ({
  scenario,
  shift: resolve(scenario),
  faults: [],
  remarks: [],
  compiled: compiledOnce(),
});

function compiledOnce(): Cell['compiled'] {
  const known = new Map<Time, CompiledTime>();
  return (time) => {
    const made = known.get(time) ?? compileTime(time);
    known.set(time, made);
    return made;
  };
}

/** Notes a fault: the file is refused. */
export function fault(cell: Cell, place: Place, found: string, allowed: string, remedy: string): void {
  // Past a thousand nobody reads on, and making a sentence for each entry of a hostile file takes long.
  if (cell.faults.length < 1000) cell.faults.push(faultAt(place, found, allowed, remedy));
}

/** Notes a remark: pointed out, and it still runs. */
export function remark(cell: Cell, place: Place, found: string, allowed: string, remedy: string): void {
  cell.remarks.push(faultAt(place, found, allowed, remedy));
}

/** Notes a fault unless `name` is one of `names`; `what` is the singular ("step"). */
export function known(
  cell: Cell,
  place: Place,
  name: string,
  names: readonly string[],
  what: string,
): boolean {
  if (names.includes(name)) return true;
  const near = nearest(name, names);
  const allowed =
    names.length === 0 ? `no ${what} is in this file` : `a ${what} of this file: ${listed(names)}`;
  fault(
    cell,
    place,
    `the unknown ${what} ${show(name)}`,
    allowed,
    near === null ? `name one of these, or add the ${what}` : `did you mean "${near}"?`,
  );
  return false;
}

/** Notes a fault for every entry that stands in a list a second time. */
export function noneTwice(cell: Cell, place: Place, names: readonly string[]): void {
  const seen = new Set<string>();
  names.forEach((name, i) => {
    if (seen.has(name)) fault(cell, [...place, i], `"${name}" a second time`, 'each once', 'take one away');
    seen.add(name);
  });
}

export const stepOf = (cell: Cell, id: string): ResolvedStep =>
  cell.shift.steps.find((step) => step.id === id)!;
export const stepIds = (cell: Cell): string[] => Object.keys(cell.scenario.steps);
/** Product ids as the file has them; none where it names no products. */
export const productIds = (cell: Cell): string[] => Object.keys(cell.scenario.products ?? {});
export const personIds = (cell: Cell): string[] => Object.keys(cell.scenario.people);
export const gearIds = (cell: Cell): string[] => Object.keys(cell.scenario.gear ?? {});

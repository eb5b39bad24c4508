/** One run: the shifts of a day one after another, for one replication. */
import { NEVER_ENDS, TOO_FEW } from '../core/run.ts';
import { Stretches } from '../core/stretches.ts';
import { replicationKey } from '../random/keys.ts';
import type { InputPlace } from '../scenario/inputs.ts';
import { currentCore, type Core } from './core.ts';
import { kindIdsOf, reportShape } from './encode.ts';
import { HandoverError } from './handover-error.ts';
import type { Recorder } from './recorder.ts';
import { tell } from './tell.ts';
import type { CompiledCell } from './tables.ts';
import { settersOf } from './vary.ts';

/**
 * A scenario that never gets on: units go round without time passing, or there are more events than any shift
 * has.
 */
export class RunawayError extends Error {
  override name = 'RunawayError';
}

/** A unit that has been at a step more than so often goes round. */
const OFTEN = 100;

/** Runs replications of a day. Its memory is used again from one to the next. */
export class CellRun {
  private readonly cells: CompiledCell[];
  private readonly sizes: number[];
  private core: Core;
  private day: unknown;
  private readonly views: Float64Array[] = [];
  private isTelling = false;
  private givesReasons = false;

  /** Shifts of one day or more, in order, compiled; at least one. */
  constructor(cells: CompiledCell[]) {
    this.cells = cells;
    this.sizes = cells.map((cell) => stretchesOf(cell).size);
    this.core = currentCore();
    this.day = this.core.day(cells);
  }

  /** The plain core is one for all: where another one has taken its place, the day is built in that. */
  private settle(): void {
    const now = currentCore();
    if (this.core === now || this.core.kind === 'WebAssembly') return;
    this.core = now;
    this.day = now.day(this.cells);
    this.views.length = 0;
    this.isTelling = false;
    this.givesReasons = false;
  }

  /**
   * What sets the given inputs of every shift, each to so many times what the file has, until it is set
   * again: a time by its mean, a share or an attendance by its odds.
   */
  vary(places: readonly InputPlace[]): (factors: ArrayLike<number>, offset: number) => void {
    const sets = places.map((place) => this.cells.flatMap((cell, shift) => settersOf(cell, shift, place)));
    return (factors, offset) => {
      this.settle();
      sets.forEach((set, i) => set.forEach((one) => one(this.core.exports, this.day, factors[offset + i]!)));
    };
  }

  /**
   * One replication, 0 to 2^32 - 1. Where recorders are given, that of shift k is `recorders[k]`; they are
   * told all facts once the day is over; `reasons`: also what kept each step from being begun.
   * Throws RunawayError, and HandoverError where units that stand over hold more gear than the next shift
   * has.
   */
  run(replication: number, recorders: readonly Recorder[] = [], reasons = false): void {
    this.settle();
    const { exports } = this.core;
    const isTelling = recorders.length > 0;
    if (isTelling !== this.isTelling || reasons !== this.givesReasons)
      exports.write(this.day, isTelling, reasons);
    this.isTelling = isTelling;
    this.givesReasons = reasons;
    const ended = exports.run(this.day, replicationKey(replication));
    if (ended === TOO_FEW) throw this.tooFew(replication);
    if (ended !== 0) throw this.runaway(ended);
    recorders.forEach((recorder, shift) => {
      const length = exports.tapeLength(this.day, shift);
      recorder.begin(replication, shift);
      tell(this.core.view(exports.tape(this.day, shift), length), recorder);
    });
  }

  /** What was counted of a shift in the latest run, as `stretchesOf` lays it out: until the next run. */
  accounts(shift: number): Float64Array {
    const known = this.views[shift];
    if (known !== undefined && !this.core.hasMoved(known)) return known;
    const made = this.core.view(this.core.exports.accounts(this.day, shift), this.sizes[shift]!);
    this.views[shift] = made;
    return made;
  }

  private tooFew(replication: number): HandoverError {
    const { exports } = this.core;
    const { name, gear } = this.cells[exports.shiftOf(this.day)]!.shift;
    const id = kindIdsOf(this.cells)[exports.scarceKind(this.day)]!;
    const holding = exports.scarceHeld(this.day);
    const kind = gear.find((one) => one.id === id);
    const there = kind === undefined || kind.count === 0 ? 'none' : `only ${kind.count}`;
    const called = kind === undefined ? id : kind.name;
    return new HandoverError(
      `pieces left over by the shift before “${name}” hold ${holding} of “${called}”, but “${name}” has ${there} (run ${replication + 1}); give it at least ${holding}, or have fewer pieces stand over`,
    );
  }

  private runaway(ended: number): RunawayError {
    const { exports } = this.core;
    const minute = Math.floor(exports.now(this.day) / 60_000);
    if (ended === NEVER_ENDS)
      return new RunawayError(`the shift does not end: more than 500,000,000 events by minute ${minute}`);
    const often = exports.visitedOften(this.day, OFTEN);
    const steps = this.cells[0]!.stepIds.filter((_, step) => (often & (1 << step)) !== 0);
    const where =
      steps.length > 0
        ? `units go round ${steps.map((step) => `"${step}"`).join(', ')}`
        : 'units keep arriving';
    return new RunawayError(
      `${where} without any time passing at minute ${minute}: give one of these steps a time, or an end to its rework`,
    );
  }
}

/** Where everything that is counted of a shift stands in its accounts. */
export function stretchesOf({ shift, steps, people, gear }: CompiledCell): Stretches {
  const { hours, bins } = reportShape(shift);
  return new Stretches(steps.count, people.count, gear.count, steps.branchTo.length, hours, bins);
}

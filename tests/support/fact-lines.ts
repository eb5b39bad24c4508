/** What the engine tells, as the lines of the reference run: "time what who …". */
import { compile } from '../../src/engine/compile.ts';
import {
  AWAY, GONE, NOT_IN, NO_GEAR, ON_BREAK, REWORK, SCRAP, TIDYING, WAITING_PARTNER, workingAt,
} from '../../src/engine/recorder.ts';
import { CellRun } from '../../src/engine/run.ts';
import { SilentRecorder } from '../../src/engine/silent.ts';
import type { CompiledCell } from '../../src/engine/tables.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';

export class FactLines extends SilentRecorder {
  readonly cell: CompiledCell;
  lines: string[] = [];
  private states: string[] = [];
  private told: string[] = [];
  private statesAt = 0;

  constructor(cell: CompiledCell) {
    super();
    this.cell = cell;
    this.states = cell.personIds.map(() => 'not in');
    this.told = [...this.states];
  }

  private tell(time: number, text: string): void {
    this.lines.push(`${time} ${text}`);
  }

  private step(step: number): string {
    return this.cell.stepIds[step]!;
  }

  private outcome(step: number, outcome: number, branch: number): string {
    if (outcome === REWORK) return `rework ${this.cell.shift.steps[step]!.rework[branch]!.to}`;
    return outcome === SCRAP ? 'scrap' : 'on';
  }

  override arrive(time: number, unit: number, product: number): void {
    this.tell(time, `arrive ${unit} ${this.cell.shift.products[product]!.id}`);
  }

  override join(time: number, unit: number, step: number): void {
    this.tell(time, `join ${unit} ${this.step(step)}`);
  }

  override divert(time: number, unit: number): void {
    this.tell(time, `divert ${unit}`);
  }

  override start(time: number, unit: number, step: number, _visit: number, person: number, second: number, duration: number): void {
    const people = this.cell.personIds;
    this.tell(time, `start ${unit} ${this.step(step)} ${people[person]!}${second >= 0 ? `+${people[second]!}` : ''} ${duration}`);
  }

  override putDown(time: number, unit: number, step: number): void {
    this.tell(time, `put down ${unit} ${this.step(step)}`);
  }

  override resume(time: number, unit: number, step: number, person: number): void {
    this.tell(time, `resume ${unit} ${this.step(step)} ${this.cell.personIds[person]!}`);
  }

  override finish(time: number, unit: number, step: number, _person: number, outcome: number, branch: number): void {
    this.tell(time, `finish ${unit} ${this.step(step)} ${this.outcome(step, outcome, branch)}`);
  }

  override waitStart(time: number, unit: number, step: number, duration: number): void {
    this.tell(time, `wait ${unit} ${this.step(step)} ${duration}`);
  }

  override waitEnd(time: number, unit: number, step: number, outcome: number, branch: number): void {
    this.tell(time, `cured ${unit} ${this.step(step)} ${this.outcome(step, outcome, branch)}`);
  }

  override standAside(time: number, unit: number, step: number): void {
    this.tell(time, `aside ${unit} ${this.step(step)}`);
  }

  override release(time: number, unit: number, step: number): void {
    this.tell(time, `release ${unit} ${this.step(step)}`);
  }

  override good(time: number, unit: number): void {
    this.tell(time, `good ${unit}`);
  }

  override scrap(time: number, unit: number): void {
    this.tell(time, `scrap ${unit}`);
  }

  override rackSent(time: number): void {
    this.tell(time, 'rack sent');
  }

  override changePlaces(time: number, units: number): void {
    this.tell(time, `change places ${units}`);
  }

  override targetMet(time: number): void {
    this.tell(time, 'target met');
  }

  override breakLapsed(time: number, person: number, milliseconds: number): void {
    this.tell(time, `lapsed ${this.cell.personIds[person]!} ${milliseconds}`);
  }

  /** States that come and go within one instant are not told. */
  override person(time: number, person: number, state: number): void {
    if (time !== this.statesAt) this.tellStates();
    this.statesAt = time;
    this.states[person] = this.word(state);
  }

  private word(state: number): string {
    if (state >= workingAt(this.cell.gear.count, 0)) return `at ${this.step(state - workingAt(this.cell.gear.count, 0))}`;
    const words = new Map([[NOT_IN, 'not in'], [GONE, 'gone'], [ON_BREAK, 'break'], [AWAY, 'away'], [TIDYING, 'tidies'], [WAITING_PARTNER, 'waits for partner']]);
    return state >= NO_GEAR ? 'idle' : (words.get(state) ?? 'idle');
  }

  private tellStates(): void {
    this.states.forEach((state, i) => {
      if (state !== this.told[i]) this.tell(this.statesAt, `${this.cell.personIds[i]!} ${state}`);
      this.told[i] = state;
    });
  }

  override end(time: number): void {
    this.tellStates();
    this.tell(time, 'end');
  }
}

/** The facts of one shift by the engine. */
export function engineLines(shift: ResolvedShift, replication: number): string[] {
  const cell = compile(shift);
  const lines = new FactLines(cell);
  new CellRun([cell]).run(replication, [lines]);
  return lines.lines;
}

/** By time, then by the alphabet: what came about in one instant, whatever it was told in. */
export function sortLines(lines: string[]): string[] {
  const timeOf = (line: string): number => Number(line.slice(0, line.indexOf(' ')));
  return [...lines].sort((a, b) => timeOf(a) - timeOf(b) || (a < b ? -1 : a > b ? 1 : 0));
}
